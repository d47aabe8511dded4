import {
  FIRST_DENSITY,
  INCREMENT,
  USUAL_WEDGE,
  WEDGE_STEPS,
  type Wedge,
} from '../core/calibration/wedge.ts'
import { Failure } from '../core/failure.ts'
import { BASE_DENSITY } from '../core/film/density.ts'
import { density } from '../core/units/quantity.ts'
import { NAMES_AT_MOST, namesKept } from './calibrationNames.ts'
import {
  CALIBRATION_BYTES_AT_MOST,
  type CalibrationFile,
  type CalibrationProblem,
} from './calibrationProblem.ts'
import { valueOfJson } from './jsonText.ts'
import { readDaysOf } from './readCalibrationDays.ts'
import { askFrom, evidenceFrom } from './readCalibrationEvidence.ts'
import { listUnder, NAMED, numberUnder } from './readCalibrationFields.ts'
import { warningsOf } from './readCalibrationWarnings.ts'
import { type Section, sectionOf } from './section.ts'

const MOST_PROBLEMS = 10_000
const MOST_EVIDENCE = 20_000
const MOST_ASKED = 2000

/**
 * Reads the text of a file of readings.
 *
 * @throws Failure for what is no JSON, an unknown or doubled key, a value that cannot be; the field
 * is its place, like `evidence[3].lastSolidStep`, or `[7].evidence[3].lastSolidStep` in a list
 */
export function calibrationsFromJson(text: string): CalibrationFile {
  if (text.length > CALIBRATION_BYTES_AT_MOST) {
    throw new Failure('too large', 'The file is longer than 64 megabytes: split it into several.')
  }
  const value = valueOfJson(text, { named: 'The file' })
  if (!Array.isArray(value)) return { isList: false, problems: [problemFrom(value, '')] }
  const values: readonly unknown[] = value
  if (values.length > MOST_PROBLEMS) {
    const message = `The file has ${values.length} problems, more than ${MOST_PROBLEMS}: split it into several.`
    throw new Failure('too large', message)
  }
  return { isList: true, problems: values.map((each, at) => problemFrom(each, `[${at}]`)) }
}

function problemFrom(value: unknown, path: string): CalibrationProblem {
  const top = sectionOf(value, { named: NAMED, path })
  top.allow(['wedge', 'usualBaseDensity', 'evidence', 'ask'])
  const wedge = wedgeFrom((top.raw('wedge') ?? undefined) === undefined ? null : top.inner('wedge'))
  const days = readDaysOf()
  const evidenceList = listUnder(top, 'evidence', { path, low: 0, high: MOST_EVIDENCE })
  const evidence = evidenceList.map((item) => evidenceFrom(item, { wedge, days }))
  const ask = listUnder(top, 'ask', { path, low: 0, high: MOST_ASKED }).map((item) =>
    askFrom(item, days),
  )
  const names = namesKept({ evidence, ask })
  if (names > NAMES_AT_MOST) {
    const place = path === '' ? 'evidence' : `${path}.evidence`
    const message = `${place} names ${names} units, buckets, fabrics, ways of coating, media and undated screens, more than ${NAMES_AT_MOST}: ask for one part of the shop at a time.`
    throw new Failure('too large', message, { field: place })
  }
  return {
    evidence,
    ask,
    usualBaseDensity: density(
      numberUnder(top, 'usualBaseDensity', { range: BASE_DENSITY, like: 0.15 }) ?? 0,
    ),
    days: days.form(),
    warnings: warningsOf({ evidence, ask, path, form: days.form() }),
  }
}

function wedgeFrom(section: Section | null): Wedge {
  if (section === null) return USUAL_WEDGE
  section.allow(['firstDensity', 'increment', 'steps'])
  const { steps, firstDensity, increment } = USUAL_WEDGE
  const number = (key: string, range: typeof INCREMENT, usual: number): number =>
    numberUnder(section, key, { range, like: usual }) ?? usual
  return {
    steps: number('steps', WEDGE_STEPS, steps),
    firstDensity: density(number('firstDensity', FIRST_DENSITY, firstDensity)),
    increment: density(number('increment', INCREMENT, increment)),
  }
}

import { type Circumstances, LAMP_HOURS } from '../core/calibration/belief/evidence.ts'
import {
  GRADES,
  GROUND_GRADES,
  type Grade,
  MARKS_GRADES,
  type Ticks,
} from '../core/calibration/belief/grades.ts'
import type { Question } from '../core/calibration/belief/question.ts'
import type { Kept } from '../core/calibration/belief/replay.ts'
import { STEP, type Wedge } from '../core/calibration/wedge.ts'
import { BASE_DENSITY } from '../core/film/density.ts'
import { DOSE } from '../core/light/doseField.ts'
import { density, type Lu, lu } from '../core/units/quantity.ts'
import type { ReadDays } from './readCalibrationDays.ts'
import {
  flagUnder,
  listUnder,
  nameUnder,
  neededName,
  neededNumber,
  neededWord,
  numberUnder,
  wordUnder,
} from './readCalibrationFields.ts'
import type { Section } from './section.ts'

const KINDS = ['wedge', 'strip', 'outcome'] as const
const PLACE = ['day', 'lampHours', 'unit', 'emulsion', 'fabric', 'dyed', 'recipe', 'screen']
const CIRCUMSTANCES = [...PLACE, 'film', 'baseDensity']
const OF_ALL = ['kind', 'struckOut', ...CIRCUMSTANCES]
const GRADING = ['grade', 'ground', 'marks']
const KEYS = {
  wedge: ['doseLu', 'lastSolidStep', 'firstClearStep'],
  strip: ['medium', 'bands'],
  outcome: ['medium', 'doseLu', ...GRADING],
} as const

const MOST_BANDS = 60
const MOST_MEDIA = 10
const LIKE_MEDIUM = 'soft pencil'

type Item = Readonly<{ section: Section; path: string }>

/** One piece of evidence at its place in the file. */
export function evidenceFrom(
  { section, path }: Item,
  { wedge, days }: Readonly<{ wedge: Wedge; days: ReadDays }>,
): Kept {
  const kind = neededWord(section, 'kind', KINDS)
  section.allow([...OF_ALL, ...KEYS[kind]])
  const struckOut = flagUnder(section, 'struckOut')
  const common = {
    ...circumstancesFrom(section, { path, days }),
    ...(struckOut === undefined ? {} : { struckOut }),
  }
  switch (kind) {
    case 'wedge':
      return { kind, ...common, doseLu: doseFrom(section), wedge, ...stepsFrom(section, wedge) }
    case 'strip': {
      const marks = { medium: neededName(section, 'medium', LIKE_MEDIUM) }
      const bands = listUnder(section, 'bands', { path, low: 1, high: MOST_BANDS }).map((band) => {
        band.section.allow(['doseLu', ...GRADING])
        return { doseLu: doseFrom(band.section), ...gradingFrom(band.section) }
      })
      return { kind, ...common, marks, bands }
    }
    case 'outcome': {
      const marks = { medium: neededName(section, 'medium', LIKE_MEDIUM) }
      const grading = gradingFrom(section)
      const told = 'grade' in grading ? grading : { ticks: grading }
      return { kind, ...common, marks, doseLu: doseFrom(section), ...told }
    }
  }
}

/** One exposure that is asked about; a film that mixes media names them all. */
export function askFrom({ section, path }: Item, days: ReadDays): Question {
  section.allow(['medium', ...CIRCUMSTANCES])
  return { ...circumstancesFrom(section, { path, days }), marks: mediaFrom(section) }
}

function mediaFrom(section: Section): Question['marks'] {
  const given = section.raw('medium')
  if (!Array.isArray(given)) return [{ medium: neededName(section, 'medium', LIKE_MEDIUM) }]
  const names: readonly unknown[] = given
  const must = `must be a name like "${LIKE_MEDIUM}", or a list of 1 to ${MOST_MEDIA} names`
  if (names.length < 1 || names.length > MOST_MEDIA) throw section.refusal('medium', must)
  return names.map((name) => {
    if (typeof name !== 'string' || name.trim() === '') throw section.refusal('medium', must)
    return { medium: name.trim() }
  })
}

function circumstancesFrom(
  section: Section,
  { path, days }: Readonly<{ path: string; days: ReadDays }>,
): Circumstances {
  const base = numberUnder(section, 'baseDensity', { range: BASE_DENSITY, like: 0.15 })
  return {
    unit: nameUnder(section, 'unit', 'big lamp'),
    emulsion: nameUnder(section, 'emulsion', 'bucket of March'),
    fabric: nameUnder(section, 'fabric', '90-48'),
    dyed: flagUnder(section, 'dyed'),
    recipe: nameUnder(section, 'recipe', 'two and two'),
    screen: nameUnder(section, 'screen', '14'),
    film: nameUnder(section, 'film', 'reeds'),
    baseDensity: base === undefined ? undefined : density(base),
    day: days.read(section, path),
    lampHours: numberUnder(section, 'lampHours', { range: LAMP_HOURS, like: 512 }),
  }
}

function doseFrom(section: Section): Lu {
  return lu(neededNumber(section, 'doseLu', { range: DOSE, like: 42 }))
}

function stepsFrom(
  section: Section,
  { steps }: Wedge,
): Readonly<{ lastSolidStep: number; firstClearStep?: number }> {
  const range = { ...STEP, low: 0, high: steps }
  const lastSolidStep = neededNumber(section, 'lastSolidStep', { range, like: Math.min(6, steps) })
  const clearRange = { ...STEP, high: steps + 1 }
  const firstClearStep = numberUnder(section, 'firstClearStep', {
    range: clearRange,
    like: Math.min(8, steps),
  })
  if (firstClearStep === undefined) return { lastSolidStep }
  if (firstClearStep <= lastSolidStep) {
    const must = `must be a later step than the last solid one, ${lastSolidStep}, for step 1 is the clearest of the wedge`
    throw section.refusal('firstClearStep', must)
  }
  return { lastSolidStep, firstClearStep }
}

/** One word, or two ticks in its place. */
function gradingFrom(section: Section): Readonly<{ grade: Grade }> | Ticks {
  const ground = wordUnder(section, 'ground', GROUND_GRADES)
  const marks = wordUnder(section, 'marks', MARKS_GRADES)
  if (ground === undefined && marks === undefined) {
    return { grade: neededWord(section, 'grade', GRADES) }
  }
  if (wordUnder(section, 'grade', GRADES) !== undefined) {
    throw section.refusal('grade', 'must be left out beside the two ticks, ground and marks')
  }
  const tick = ground ?? neededWord(section, 'ground', GROUND_GRADES)
  if (tick === 'washed off') return { ground: tick, marks }
  return { ground: tick, marks: marks ?? neededWord(section, 'marks', MARKS_GRADES) }
}

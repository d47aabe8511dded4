import { doubtsAbout } from '../core/calibration/belief/doubts.ts'
import { marksOf } from '../core/calibration/belief/update.ts'
import { MEDIA, mediumNamed } from '../core/film/media.ts'
import { plainName } from '../core/units/plainName.ts'
import { isoOfDay } from './calendarDay.ts'
import type { CalibrationProblem, DayForm } from './calibrationProblem.ts'
import { nearest } from './nearest.ts'
import { dayShown } from './readCalibrationDays.ts'

/** Two readings of one shop that lie farther apart than this: a year was mistyped. */
const FAR_DAYS = 3653
/** Years in which nobody reads a wedge: before integrators, and long after us. */
const YEARS = { first: '1950-01-01', last: '2100-01-01' } as const

type Read = Pick<CalibrationProblem, 'evidence' | 'ask'> & Readonly<{ path: string; form: DayForm }>

/** What is odd and yet can be taken: far dates, media we have no table of, strips at odds. */
export function warningsOf(read: Read): readonly string[] {
  return [...farDays(read), ...unknownMedia(read), ...doubts(read)]
}

type Dated = Readonly<{ day: number; place: string }>

function farDays({ evidence, ask, path, form }: Read): readonly string[] {
  const at = (list: string, days: readonly (number | undefined)[]): readonly Dated[] =>
    days.flatMap((day, i) => (day === undefined ? [] : [{ day, place: placeOf(path, list, i) }]))
  const told = at(
    'evidence',
    evidence.map(({ day }) => day),
  ).toSorted((a, b) => a.day - b.day)
  const asked = at(
    'ask',
    ask.map(({ day }) => day),
  )
  const newest = told.at(-1)
  const gaps = told.flatMap((later, i) => {
    const before = told[i - 1]
    return before === undefined ? [] : gapWarning(later, { before, form })
  })
  const late =
    newest === undefined ? [] : asked.flatMap((each) => gapWarning(each, { before: newest, form }))
  if (gaps.length + late.length > 0) return [...gaps, ...late]
  return form === 'date' ? [...told, ...asked].flatMap(yearWarning) : []
}

function gapWarning(
  { day, place }: Dated,
  { before, form }: Readonly<{ before: Dated; form: DayForm }>,
): readonly string[] {
  if (day - before.day <= FAR_DAYS) return []
  const years = Math.round((day - before.day) / 365.25)
  return [
    `${place}.day is ${dayShown(day, form)}, ${years} years after ${before.place}: check the year, ` +
      'for whatever was known before is in doubt by then.',
  ]
}

function yearWarning({ day, place }: Dated): readonly string[] {
  const iso = isoOfDay(day)
  if (iso >= YEARS.first && iso < YEARS.last) return []
  return [`${place}.day is ${iso}: check the year.`]
}

function unknownMedia({ evidence, ask, path }: Read): readonly string[] {
  const named = new Map<string, string>()
  const see = (medium: string, place: string): void => {
    const plain = plainName(medium)
    if (mediumNamed(medium) !== null || named.has(plain)) return
    const near = nearest(
      medium,
      MEDIA.map(({ name }) => name),
    )
    const guess = near === undefined ? '' : ` Did you mean ${near}?`
    named.set(
      plain,
      `${place}.medium is '${medium}', of which nothing is known beforehand: its first doses are broad guesses.${guess}`,
    )
  }
  evidence.forEach((each, i) => {
    for (const marks of marksOf(each)) {
      if (!('density' in marks)) see(marks.medium, placeOf(path, 'evidence', i))
    }
  })
  ask.forEach(({ marks }, i) => {
    for (const each of marks) {
      if (!('density' in each)) see(each.medium, placeOf(path, 'ask', i))
    }
  })
  return [...named.values()]
}

function doubts({ evidence, path }: Read): readonly string[] {
  return evidence.flatMap((each, i) => {
    if (each.struckOut === true) return []
    return doubtsAbout(each).map((doubt) => `${placeOf(path, 'evidence', i)}: ${doubt}`)
  })
}

function placeOf(path: string, list: string, at: number): string {
  return `${path === '' ? '' : `${path}.`}${list}[${at}]`
}

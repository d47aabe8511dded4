import { DAY } from '../core/calibration/belief/evidence.ts'
import { Failure } from '../core/failure.ts'
import { isIn } from '../core/units/range.ts'
import { dayOfIso, isoOfDay } from './calendarDay.ts'
import type { DayForm } from './calibrationProblem.ts'
import type { Section } from './section.ts'

/** Reads the days of one problem, which must all be written in one way. */
export type ReadDays = Readonly<{
  read: (section: Section, path: string) => number | undefined
  form: () => DayForm
}>

const MUST = 'must be a date like "2026-03-02", or a day number like 12'

/** A reader that remembers how the first day was written, and refuses the other way after it. */
export function readDaysOf(): ReadDays {
  let first: { form: 'date' | 'number'; path: string } | null = null
  return {
    form: () => first?.form ?? null,
    read: (section, path) => {
      const given = section.raw('day') ?? undefined
      if (given === undefined) return undefined
      const { day, form } = dayFrom(given, () => section.refusal('day', MUST))
      const field = `${path}.day`
      first ??= { form, path: field }
      if (first.form !== form) {
        const [here, there] = [kindWord(form), kindWord(first.form)]
        const message = `${field} is ${here} and ${first.path} is ${there}: write all days of one problem in one way.`
        throw new Failure('wrong input', message, { field })
      }
      return day
    },
  }
}

/**
 * A day as somebody wrote it: an ISO date, or a day number of the shop's own. A day has no hours.
 *
 * @throws what `refusal` makes, for what is neither
 */
export function dayFrom(
  given: unknown,
  refusal: () => Failure,
): Readonly<{ day: number; form: 'date' | 'number' }> {
  if (typeof given === 'number' && isIn(given, DAY)) {
    return { day: Math.floor(given), form: 'number' }
  }
  const day = typeof given === 'string' ? dayOfIso(given) : null
  if (day === null) throw refusal()
  return { day, form: 'date' }
}

/**
 * The last day whose evidence counts, as somebody typed it for a problem whose days have a form.
 *
 * @throws Failure for what is no day, or is written in another way than the days of the file
 */
export function untilFrom(text: string, form: DayForm): number {
  const wrong = (message: string): Failure =>
    new Failure('wrong input', message, { field: 'until' })
  const given = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text
  const until = dayFrom(given, () => wrong(`The day until which evidence counts ${MUST}.`))
  if (form === null || form === until.form) return until.day
  throw wrong(
    `The days in the file are ${form === 'date' ? 'dates' : 'day numbers'}: write the last one so, too.`,
  )
}

/** A day in the form of the problem it belongs to. */
export function dayShown(day: number, form: DayForm): string | number {
  return form === 'date' ? isoOfDay(day) : day
}

function kindWord(form: 'date' | 'number'): string {
  return form === 'date' ? 'a date' : 'a day number'
}

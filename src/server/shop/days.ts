import { Failure } from '../../core/failure.ts'
import { isoOfDay } from '../../workflow/calendarDay.ts'

const DAY_MS = 24 * 3600_000
/** Nobody's notes are older. */
const FIRST = '1950-01-01'

/**
 * Whole days since 1970, as the belief counts them: those of the calendar on the wall, by the clock
 * of the shop's computer.
 */
export function dayOf(at: Date): number {
  return Date.UTC(at.getFullYear(), at.getMonth(), at.getDate()) / DAY_MS
}

/** The day of a moment, as 2026-11-28, by the calendar on the shop's wall. */
export function dayText(at: Date): string {
  return isoOfDay(dayOf(at))
}

/**
 * A moment of the day that somebody told: its noon, or now when it is today or was not told.
 *
 * @param on a day as the contract has it: year, month, day
 * @throws Failure 'wrong input' with field `on` for a day to come, or one long before any record
 */
export function toldDay(on: string | undefined, now: Date): Date {
  const today = dayText(now)
  if (on === undefined || on === today) return now
  if (on > today) {
    const message = `The day ${on} is still to come: today is ${today}.`
    throw new Failure('wrong input', message, { field: 'on' })
  }
  if (on < FIRST) {
    const message = `The day ${on} is too long ago: write one from ${FIRST} on.`
    throw new Failure('wrong input', message, { field: 'on' })
  }
  return new Date(`${on}T12:00:00`)
}

/** The last moment of a day that somebody told, by the calendar on the shop's wall. */
export function endOfDay(day: string): Date {
  return new Date(`${day}T23:59:59.999`)
}

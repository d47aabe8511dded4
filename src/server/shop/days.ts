import { Failure } from '../../core/failure.ts'

const NOON_MS = 12 * 3600_000
/** Nobody's notes are older. */
const FIRST = '1950-01-01'

/** The day of a moment, as 2026-11-28; days begin at midnight of UTC, as the belief counts them. */
export function dayText(at: Date): string {
  return at.toISOString().slice(0, 10)
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
  return new Date(Date.parse(on) + NOON_MS)
}

import { type CalendarDate, dayOfIso } from '../calendarDay.ts'

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']
const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]
/** Before it the calendar was another. */
const FIRST_YEAR = 1583
/** 1 January 1970 was one: days from Monday on. */
const THURSDAY = 3

type Day = CalendarDate & Readonly<{ weekday: number }>

/** Whether there is such a day, written as `2026-11-09`, from 1583 on. */
export function isDay(text: string): boolean {
  return dayOf(text) !== null
}

/**
 * A day as it stands on a paper: `Monday 9 November 2026`.
 *
 * @param day `2026-11-09`, from 1583 on
 * @throws RangeError where there is no such day
 */
export function dayWords(day: string): string {
  const found = dayOf(day)
  if (found === null) throw new RangeError(`day: expected a day like 2026-11-09, got ${day}`)
  return `${WEEKDAYS[found.weekday]} ${found.date} ${MONTHS[found.month - 1]} ${found.year}`
}

/** A day among others of one year: `9 November`. @throws RangeError where there is no such day */
export function dayName(day: string): string {
  const found = dayOf(day)
  if (found === null) throw new RangeError(`day: expected a day like 2026-11-09, got ${day}`)
  return `${found.date} ${MONTHS[found.month - 1]}`
}

/** A day in a sentence: `9 November 2026`. @throws RangeError where there is no such day */
export function dateWords(day: string): string {
  return `${dayName(day)} ${day.slice(0, 4)}`
}

/** A month: `November 2026` of `2026-11`. @throws RangeError where there is no such month */
export function monthWords(month: string): string {
  return dateWords(`${month}-01`).replace(/^1 /, '')
}

function dayOf(text: string): Day | null {
  const day = dayOfIso(text)
  const [year = 0, month = 0, date = 0] = text.split('-').map(Number)
  if (day === null || year < FIRST_YEAR) return null
  return { year, month, date, weekday: (((day + THURSDAY) % 7) + 7) % 7 }
}

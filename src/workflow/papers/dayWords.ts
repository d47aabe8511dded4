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
const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

type Day = Readonly<{ year: number; month: number; date: number }>

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
  return `${WEEKDAYS[weekday(found)]} ${found.date} ${MONTHS[found.month - 1]} ${found.year}`
}

/** A day among others of one year: `9 November`. @throws RangeError where there is no such day */
export function dayName(day: string): string {
  const found = dayOf(day)
  if (found === null) throw new RangeError(`day: expected a day like 2026-11-09, got ${day}`)
  return `${found.date} ${MONTHS[found.month - 1]}`
}

function dayOf(text: string): Day | null {
  const [, year, month, date] = (/^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? []).map(Number)
  if (year === undefined || month === undefined || date === undefined) return null
  const longest = (LENGTHS[month - 1] ?? 0) + (month === 2 && isLeap(year) ? 1 : 0)
  return year >= 1583 && date >= 1 && date <= longest ? { year, month, date } : null
}

function isLeap(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
}

/** 0 for Monday: whole days since Monday 1 January of the year 1, as if the calendar were as old. */
function weekday({ year, month, date }: Day): number {
  const years = year - 1
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400)
  const before = LENGTHS.slice(0, month - 1).reduce((sum, length) => sum + length, 0)
  const thisLeapDay = isLeap(year) && month > 2 ? 1 : 0
  return (365 * years + leapDays + before + thisLeapDay + date - 1) % 7
}

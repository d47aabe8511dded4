/** Whole days since 1970-01-01, as the proleptic Gregorian calendar counts them. */
const DAYS_BEFORE_1970 = 719_528
const DAYS_IN_400_YEARS = 146_097
const ISO = /^(\d{4})-(\d{2})-(\d{2})$/

/** A day of the calendar; month 1 … 12. */
export type CalendarDate = Readonly<{ year: number; month: number; date: number }>

/** Days since 1970-01-01 of an ISO date like 2026-03-02; null for what is none, like 2026-02-30. */
export function dayOfIso(text: string): number | null {
  const found = ISO.exec(text)
  if (found === null) return null
  return dayOfDate({ year: Number(found[1]), month: Number(found[2]), date: Number(found[3]) })
}

/** Days since 1970-01-01; null for a day that no calendar has. */
export function dayOfDate({ year, month, date }: CalendarDate): number | null {
  if (year < 0 || month < 1 || month > 12 || date < 1 || date > daysIn(year, month)) return null
  let days = 365 * year + leapDaysBefore(year) + date - 1
  for (let before = 1; before < month; before++) days += daysIn(year, before)
  return days - DAYS_BEFORE_1970
}

/**
 * The ISO date of a day.
 *
 * @param day days since 1970-01-01, whole, of the years 0 … 9999
 */
export function isoOfDay(day: number): string {
  const sinceYear0 = day + DAYS_BEFORE_1970
  let year = Math.floor((sinceYear0 / DAYS_IN_400_YEARS) * 400)
  let left = sinceYear0 - 365 * year - leapDaysBefore(year)
  while (left < 0) {
    year -= 1
    left += daysInYear(year)
  }
  while (left >= daysInYear(year)) {
    left -= daysInYear(year)
    year += 1
  }
  let month = 1
  while (left >= daysIn(year, month)) {
    left -= daysIn(year, month)
    month += 1
  }
  const two = (part: number): string => String(part).padStart(2, '0')
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(left + 1)}`
}

/** Leap days of the years 0 … year − 1; year 0 has one. */
function leapDaysBefore(year: number): number {
  return Math.ceil(year / 4) - Math.ceil(year / 100) + Math.ceil(year / 400)
}

function daysInYear(year: number): number {
  return daysIn(year, 2) === 29 ? 366 : 365
}

function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31
}

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

/**
 * A day as it stands on a paper: `Monday 9 November 2026`.
 *
 * @param day `2026-11-09`, from 1583 on
 * @throws RangeError where there is no such day
 */
export function dayWords(day: string): string {
  const [year = 0, month = 0, date = 0] = (/^(\d{4})-(\d\d)-(\d\d)$/.exec(day) ?? [])
    .slice(1)
    .map(Number)
  const name = MONTHS[month - 1]
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const longest = (LENGTHS[month - 1] ?? 0) + (month === 2 && leap ? 1 : 0)
  if (name === undefined || year < 1583 || date < 1 || date > longest) {
    throw new RangeError(`day: expected a day like 2026-11-09, got ${day}`)
  }
  return `${WEEKDAYS[weekday({ year, month, date })]} ${date} ${name} ${year}`
}

/** 0 for Monday: whole days since Monday 1 January of the year 1, as if the calendar were as old. */
function weekday({
  year,
  month,
  date,
}: Readonly<{ year: number; month: number; date: number }>): number {
  const years = year - 1
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400)
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const before = LENGTHS.slice(0, month - 1).reduce((sum, length) => sum + length, 0)
  return (365 * years + leapDays + before + (leap && month > 2 ? 1 : 0) + date - 1) % 7
}

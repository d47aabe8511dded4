import { type CalendarDate, dayOfDate, isoOfDay } from './calendarDay.ts'

/** Which number comes first in 3/4/2026. */
export type SlashDates = 'day first' | 'month first'

/** A day, or what is wrong with the cell, as a sentence goes on after `Line 7: `. */
export type DateRead = Readonly<{ day: number } | { wrong: string }>

type Asked = Readonly<{
  /** Days since 1970-01-01: what comes later did not happen yet. */
  today: number
  slashes: SlashDates | 'unclear'
}>

/** A cell as the days it may mean: two where nobody knows which number is the month. */
type Meant = Readonly<{ dayFirst: CalendarDate; monthFirst: CalendarDate }>

const EARLIEST_YEAR = 1950
const TIME = /[ T]+\d{1,2}[:.]\d{2}([:.]\d{2})?(\.\d+)?\s*([ap]m)?Z?$/i
const YEAR_FIRST = /^(\d{4})[-./](\d{1,2})[-./](\d{1,2})$/
const DOTS = /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4}|\d{2})$/
const SLASHES = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})$/
const WORDS = /^(?:[a-z]{2,9},? )?(\d{1,2})(?:st|nd|rd|th)?[ -]([a-z]{3,9})\.?,?[ -](\d{4}|\d{2})$/
const WORDS_MONTH_FIRST =
  /^(?:[a-z]{2,9},? )?([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4}|\d{2})$/
const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
]

/**
 * Whether the day or the month comes first in the dates with slashes of one file: an order is out
 * when a date of the file would be none by it, or still to come.
 */
export function slashDatesOf(
  cells: readonly string[],
  { today }: Pick<Asked, 'today'>,
): SlashDates | 'unclear' {
  let onlyDayFirst = false
  let onlyMonthFirst = false
  for (const cell of cells) {
    const meant = meantBy(cell, today)
    if (meant === null) continue
    const dayFirst = isPast(meant.dayFirst, today)
    const monthFirst = isPast(meant.monthFirst, today)
    if (dayFirst && !monthFirst) onlyDayFirst = true
    if (monthFirst && !dayFirst) onlyMonthFirst = true
  }
  if (onlyDayFirst === onlyMonthFirst) return 'unclear'
  return onlyDayFirst ? 'day first' : 'month first'
}

/** Whether some date with slashes may be two days, and no other date of the file tells which. */
export function slashDatesUnclear(
  cells: readonly string[],
  { today }: Pick<Asked, 'today'>,
): boolean {
  if (slashDatesOf(cells, { today }) !== 'unclear') return false
  return cells.some((cell) => {
    const meant = meantBy(cell, today)
    if (meant === null) return false
    const [one, other] = [dayOfDate(meant.dayFirst), dayOfDate(meant.monthFirst)]
    return one !== other && isPast(meant.dayFirst, today) && isPast(meant.monthFirst, today)
  })
}

/** The day that a cell means: ISO, 2.3.2026, 3/2/2026, 2 March 2026, with or without a time. */
export function readDate(cell: string, { today, slashes }: Asked): DateRead {
  if (cell === '') return { wrong: 'the date is missing.' }
  const meant = meantBy(cell, today)
  if (meant === null) {
    return { wrong: `the date must be a day like 2026-03-02. It says '${cell}'.` }
  }
  const choices =
    slashes === 'unclear'
      ? [meant.dayFirst, meant.monthFirst]
      : [slashes === 'day first' ? meant.dayFirst : meant.monthFirst]
  const days = new Set(choices.map(dayOfDate).filter((day) => day !== null))
  const past = [...days].filter((day) => day <= today)
  const [day, other] = past.length > 0 ? past : [...days]
  if (day === undefined) return { wrong: `no calendar has the day '${cell}'.` }
  if (other !== undefined) {
    const [first, second] = [day, other].map(isoOfDay)
    return {
      wrong: `'${cell}' may be ${first} or ${second}, and nothing in the file tells which: write it like ${first}.`,
    }
  }
  const iso = isoOfDay(day)
  if (day > today) return { wrong: `${iso} is still to come: check the date.` }
  const year = Number(iso.slice(0, 4))
  return year < EARLIEST_YEAR ? { wrong: `${iso} is long ago: check the year.` } : { day }
}

function isPast(date: CalendarDate, today: number): boolean {
  const day = dayOfDate(date)
  return day !== null && day <= today
}

/** null where it is no date at all; the same day twice where its form leaves no doubt. */
function meantBy(cell: string, today: number): Meant | null {
  const text = cell.replace(TIME, '').trim().toLowerCase()
  const parts = (pattern: RegExp): readonly string[] | undefined => pattern.exec(text)?.slice(1)
  const sure = (year: string, month: number, date: string): Meant => {
    const day = { year: yearOf(year, today), month, date: Number(date) }
    return { dayFirst: day, monthFirst: day }
  }
  const [year = '', month, date = ''] = parts(YEAR_FIRST) ?? []
  if (month !== undefined) return sure(year, Number(month), date)
  const [dotDate = '', dotMonth, dotYear = ''] = parts(DOTS) ?? []
  if (dotMonth !== undefined) return sure(dotYear, Number(dotMonth), dotDate)
  const [first, second, slashYear = ''] = parts(SLASHES) ?? []
  if (first !== undefined && second !== undefined) {
    const [one, two] = [Number(first), Number(second)]
    const whole = yearOf(slashYear, today)
    return {
      dayFirst: { year: whole, month: two, date: one },
      monthFirst: { year: whole, month: one, date: two },
    }
  }
  const [wordDate = '', word, wordYear = ''] = parts(WORDS) ?? []
  if (word !== undefined) return sure(wordYear, monthOf(word), wordDate)
  const [firstWord, lastDate = '', lastYear = ''] = parts(WORDS_MONTH_FIRST) ?? []
  return firstWord === undefined ? null : sure(lastYear, monthOf(firstWord), lastDate)
}

/** 0 where it is no month: then no calendar has the day. */
function monthOf(word: string): number {
  return MONTHS.findIndex((month) => month.startsWith(word)) + 1
}

/** A year of two digits is the newest that is not still to come. */
function yearOf(written: string, today: number): number {
  if (written.length > 2) return Number(written)
  const thisYear = Number(isoOfDay(today).slice(0, 4))
  const year = thisYear - (thisYear % 100) + Number(written)
  return year > thisYear ? year - 100 : year
}

import { expectIn, type Range } from '../units/range.ts'

/** Something that is used up: how much is there, and how fast it goes. */
export type Supply = Readonly<{
  inHand: number
  perWeek: number
  /** From the order to the shelf. */
  weeksToCome: number
}>

/** A term of so many weeks; the first is week 1. */
export type Term = Readonly<{ weekNow: number; weeks: number }>

export type Outlook = Readonly<{
  weeksLeft: number
  /** The last week of the term in which it can be ordered and still come in time; null: it lasts. */
  orderByWeek: number | null
  /** That week is here or over. */
  isDue: boolean
}>

const AMOUNT: Range = { name: 'inHand', low: 0, high: 1e6, unit: '' }
const USE: Range = { name: 'perWeek', low: 0, high: 1e6, unit: 'a week' }
const WEEKS: Range = { name: 'weeksToCome', low: 0, high: 104, unit: 'weeks' }
const DAYS_A_WEEK = 7

/**
 * When to order: it is gone at the end of week `weekNow` + weeks left, and is on its way for so long.
 *
 * @throws RangeError for amounts below 0
 */
export function outlook(
  { inHand, perWeek, weeksToCome }: Supply,
  { weekNow, weeks }: Term,
): Outlook {
  expectIn(inHand, AMOUNT)
  expectIn(perWeek, USE)
  expectIn(weeksToCome, WEEKS)
  const weeksLeft = perWeek === 0 ? Number.POSITIVE_INFINITY : inHand / perWeek
  const rest = Math.max(0, weeks - weekNow + 1)
  if (weeksLeft >= rest) return { weeksLeft, orderByWeek: null, isDue: false }
  const orderByWeek = Math.floor(weekNow + weeksLeft - weeksToCome)
  return { weeksLeft, orderByWeek, isDue: orderByWeek <= weekNow }
}

/** The week of a term on a day, from 1 on; 0 and less before it begins. */
export function weekOfTerm({ firstDay, day }: Readonly<{ firstDay: number; day: number }>): number {
  return Math.floor((day - firstDay) / DAYS_A_WEEK) + 1
}

/** What a term's supplies come to for each of its people; null without prices or people. */
export function feeEach(
  supplies: readonly Readonly<{ perWeek: number; price: number | null }>[],
  { weeks, people }: Readonly<{ weeks: number; people: number }>,
): number | null {
  const priced = supplies.flatMap(({ perWeek, price }) => (price === null ? [] : [perWeek * price]))
  if (priced.length === 0 || people === 0) return null
  return (priced.reduce((sum, each) => sum + each, 0) * weeks) / people
}

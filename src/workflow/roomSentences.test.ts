import { expect, test } from 'vitest'
import { supplySaid, termOn } from './roomSentences.ts'

const term = (name: string, firstDay: string, weeks: number) => ({
  name,
  firstDay,
  weeks,
  people: 30,
})
const autumn = term('autumn term', '2026-09-28', 12)
const spring = term('spring term', '2027-01-11', 10)
const on = (today: string): string | null => termOn([autumn, spring], today)?.name ?? null

// what is held here anybody can see on a calendar: 28 September 2026 and 11 January 2027 are Mondays
test('one counts by the term that is on, whichever was written down last, and between terms by the next', () => {
  expect(on('2026-11-29')).toBe('autumn term')
  expect(on('2026-12-20')).toBe('autumn term')
  expect(on('2026-12-21')).toBe('spring term')
  expect(on('2027-01-11')).toBe('spring term')
  expect(on('2027-03-22')).toBeNull()
  expect(termOn([], '2026-11-29')).toBeNull()
})

test('what has to be ordered before a term begins says so, and no week below the first', () => {
  const blades = { name: 'blades', inHand: 3, unit: 'pieces', perWeek: 0.5, weeksToCome: 2 }
  const said = (today: string, of = spring) =>
    supplySaid({ ...blades, price: null, perCoat: null }, { term: of, today, currency: null }).says
  // week 1 is 6 weeks away, 6 weeks are in hand, 2 are needed: 2 weeks before it begins
  expect(said('2026-11-30')).toBe(
    'Blades: 3 pieces in hand, enough for 6 weeks: order it 2 weeks before the spring term begins.',
  )
  expect(said('2027-01-11')).toBe(
    'Blades: 3 pieces in hand, enough for 6 weeks: order by week 5 of the spring term.',
  )
})

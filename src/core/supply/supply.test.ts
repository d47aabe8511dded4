import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { feeEach, outlook, weekOfTerm } from './supply.ts'

test('2.4 kg at 0.6 a week last 4 weeks: from week 7 on, with 2 weeks to come, order by week 9', () => {
  const supply = { inHand: 2.4, perWeek: 0.6, weeksToCome: 2 }
  const found = outlook(supply, { weekNow: 7, weeks: 12 })
  near(found.weeksLeft, 4, { within: 1e-9, because: 'by hand' })
  expect(found).toMatchObject({ orderByWeek: 9, isDue: false })
  expect(outlook({ ...supply, weeksToCome: 4.5 }, { weekNow: 7, weeks: 12 }).isDue).toBe(true)
})

test('what lasts to the end of the term needs no order; what nobody uses lasts for ever', () => {
  const supply = { inHand: 2.4, perWeek: 0.6, weeksToCome: 2 }
  expect(outlook(supply, { weekNow: 9, weeks: 12 }).orderByWeek).toBeNull()
  expect(outlook({ ...supply, perWeek: 0 }, { weekNow: 1, weeks: 12 }).orderByWeek).toBeNull()
  expect(() => outlook({ ...supply, inHand: -1 }, { weekNow: 1, weeks: 12 })).toThrow('inHand')
})

test('the week of a term, and what each pays: 0.6 at 28 and 2 at 3 for 12 weeks among 31', () => {
  expect(weekOfTerm({ firstDay: 100, day: 106 })).toBe(1)
  expect(weekOfTerm({ firstDay: 100, day: 144 })).toBe(7)
  expect(weekOfTerm({ firstDay: 100, day: 99 })).toBe(0)
  const supplies = [
    { perWeek: 0.6, price: 28 },
    { perWeek: 2, price: 3 },
    { perWeek: 9, price: null },
  ]
  const fee = feeEach(supplies, { weeks: 12, people: 31 }) ?? 0
  near(fee, ((16.8 + 6) * 12) / 31, { within: 1e-9, because: 'by hand' })
  expect(feeEach(supplies, { weeks: 12, people: 0 })).toBeNull()
  expect(feeEach([{ perWeek: 1, price: null }], { weeks: 12, people: 3 })).toBeNull()
})

test('invariant: more in hand never wants an earlier order', () => {
  const amount = fc.double({ min: 0, max: 50, noNaN: true })
  const week = fc.integer({ min: 1, max: 12 })
  fc.assert(
    fc.property(amount, amount, week, (some, more, weekNow) => {
      const supply = { perWeek: 1.5, weeksToCome: 2 }
      const term = { weekNow, weeks: 12 }
      const less = outlook({ ...supply, inHand: some }, term).orderByWeek ?? 99
      const all = outlook({ ...supply, inHand: some + more }, term).orderByWeek ?? 99
      expect(all).toBeGreaterThanOrEqual(less)
    }),
    { seed: 3, numRuns: 50 },
  )
})

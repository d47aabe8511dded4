import { expect, test } from 'vitest'
import { dayNumber, dayOfNumber, dayShort, dayWords } from './days.ts'

test('days are counted over the end of February, in a leap year and in a common one', () => {
  expect(dayNumber('2028-03-01') - dayNumber('2028-02-28')).toBe(2)
  expect(dayNumber('2027-03-01') - dayNumber('2027-02-28')).toBe(1)
  expect(dayOfNumber(dayNumber('2026-12-31') + 1)).toBe('2027-01-01')
})

test('a day is written as people do, with its year only where that is another one', () => {
  expect(dayWords('2026-11-03', '2026-11-28')).toBe('3 November')
  expect(dayWords('2025-11-03', '2026-11-28')).toBe('3 November 2025')
  expect(dayShort('2026-09-07')).toBe('7 Sep')
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dayOfDate, dayOfIso, isoOfDay } from './calendarDay.ts'

// Python 3.11: date.fromisoformat(…).toordinal() less that of 1970-01-01.
test.each([
  ['1970-01-01', 0],
  ['0001-03-01', -719103],
  ['1900-02-28', -25509],
  ['2000-02-29', 11016],
  ['2026-03-02', 20514],
  ['9999-12-31', 2932896],
] as const)('oracle iso8601: %s is day %d of another calendar', (iso, day) => {
  expect(dayOfIso(iso)).toBe(day)
  expect(isoOfDay(day)).toBe(iso)
})

test('invariant: any day from 1583 on is what the platform calls it, there and back', () => {
  const platform = new Intl.DateTimeFormat('sv-SE', { timeZone: 'UTC' }) // as 2026-11-09
  fc.assert(
    fc.property(fc.integer({ min: -141_349, max: 2_932_896 }), (day) => {
      const iso = isoOfDay(day)
      expect(iso).toBe(platform.format(day * 86_400_000))
      expect(dayOfIso(iso)).toBe(day)
    }),
    { seed: 31, numRuns: 2000 },
  )
})

test('a day that no calendar has, and what is no date at all, is none', () => {
  for (const text of ['2026-02-30', '1900-02-29', '2026-13-01', '2026-00-10', '2026-04-00']) {
    expect(dayOfIso(text)).toBeNull()
  }
  const others = ['2026-3-2', '02.03.2026', '', '2026-03-02T10:00', 'yesterday', ' 2026-03-02']
  for (const text of others) expect(dayOfIso(text)).toBeNull()
  expect(dayOfDate({ year: 2024, month: 2, date: 29 })).toBe(19_782)
  expect(dayOfDate({ year: 2024, month: 4, date: 31 })).toBeNull()
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dateWords, dayWords, isDay, monthWords } from './dayWords.ts'

test('a day has its weekday before it', () => {
  expect(dayWords('2026-11-09')).toBe('Monday 9 November 2026')
  // a leap day, and the days about the turn of a century that has none
  expect(dayWords('2000-02-29')).toBe('Tuesday 29 February 2000')
  expect(dayWords('1900-03-01')).toBe('Thursday 1 March 1900')
})

test.each(['2026-02-29', '1900-02-29', '2026-13-01', '2026-00-10', '2026-04-31', '2026-11-00'])(
  'there is no %s',
  (day) => {
    expect(isDay(day)).toBe(false)
    expect(() => dayWords(day)).toThrow(`day: expected a day like 2026-11-09, got ${day}`)
  },
)

test.each(['9.11.2026', '2026-11-9', '', '2026-11-09T00:00', '1582-12-31'])(
  '%s is no day',
  (day) => {
    expect(isDay(day)).toBe(false)
  },
)

test('invariant: every day is what the calendar of the platform calls it', () => {
  const day = new Intl.DateTimeFormat('sv-SE', { timeZone: 'UTC' }) // as 2026-11-09
  const words = new Intl.DateTimeFormat('en-GB', { dateStyle: 'full', timeZone: 'UTC' })
  const long = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: 'UTC' })
  // days from 1 January 1970: 1583 to 2999
  fc.assert(
    fc.property(fc.integer({ min: -141_000, max: 376_000 }), (days) => {
      const at = days * 86_400_000
      expect(dayWords(day.format(at))).toBe(words.format(at).replace(',', ''))
      expect(dateWords(day.format(at))).toBe(long.format(at))
    }),
    { numRuns: 500 },
  )
})

test('a month is called by its name', () => {
  expect(monthWords('2026-11')).toBe('November 2026')
})

import { afterAll, describe, expect, test } from 'vitest'
import { dayOf, dayText, endOfDay, toldDay } from './days.ts'

const before = process.env.TZ
afterAll(() => {
  if (before === undefined) delete process.env.TZ
  else process.env.TZ = before
})

// Offsets from the IANA time zone data that the platform brings; 29 November has no change of clocks.
describe.each([
  ['Pacific/Auckland', '2026-11-29T13:00:00Z', '2026-11-30'],
  ['Australia/Sydney', '2026-11-29T13:30:00Z', '2026-11-30'],
  ['Europe/London', '2026-11-29T13:30:00Z', '2026-11-29'],
  ['America/Los_Angeles', '2026-11-30T01:00:00Z', '2026-11-29'],
])('a shop in %s', (zone, moment, day) => {
  const now = new Date(moment)

  test('has the day of the calendar on its wall', () => {
    process.env.TZ = zone
    expect(dayText(now)).toBe(day)
    expect(dayText(now)).toBe(new Intl.DateTimeFormat('sv-SE', { timeZone: zone }).format(now))
    expect(dayOf(new Date(now.getTime() + 24 * 3600_000))).toBe(dayOf(now) + 1)
  })

  test('takes its own today for now, a day before for the noon of that day, and a last day to its end', () => {
    process.env.TZ = zone
    expect(toldDay(day, now)).toBe(now)
    expect(dayText(toldDay('2026-11-03', now))).toBe('2026-11-03')
    expect(toldDay('2026-11-03', now).getHours()).toBe(12)
    const end = endOfDay('2026-11-03')
    expect([dayText(end), end.getHours()]).toEqual(['2026-11-03', 23])
    expect(dayText(new Date(end.getTime() + 1))).toBe('2026-11-04')
    expect(() => toldDay('2026-12-01', now)).toThrow(
      `The day 2026-12-01 is still to come: today is ${day}.`,
    )
  })
})

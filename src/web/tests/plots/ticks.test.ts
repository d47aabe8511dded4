import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dayNumber } from '../days.ts'
import { dayTicks, lineScale, roundSpan, roundTicks } from './ticks.ts'

test('a scale of doses gets the numbers one would write beside it', () => {
  expect(roundTicks(roundSpan({ low: 29.2, high: 38.7 }, 3), 3).map(({ text }) => text)).toEqual([
    '30',
    '35',
    '40',
  ])
  expect(roundTicks({ low: 0, high: 0.3 }, 3).map(({ text }) => text)).toEqual([
    '0',
    '0.1',
    '0.2',
    '0.3',
  ])
})

test('invariant: round numbers lie inside their span, evenly, and not many more than asked', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1e5, noNaN: true }),
      fc.double({ min: 0.01, max: 1e5, noNaN: true }),
      fc.integer({ min: 2, max: 8 }),
      (low, width, about) => {
        const span = { low, high: low + width }
        const ticks = roundTicks(span, about)
        expect(ticks.length).toBeLessThanOrEqual(about + 1)
        for (const { at } of ticks) {
          expect(at).toBeGreaterThanOrEqual(span.low - width * 1e-6)
          expect(at).toBeLessThanOrEqual(span.high + width * 1e-6)
        }
        const out = roundSpan(span, about)
        expect(out.low).toBe(span.low)
        expect(out.high).toBeGreaterThanOrEqual(span.high - width * 1e-6)
      },
    ),
  )
})

const daysOver = (from: string, to: string, widthPx: number): readonly string[] =>
  dayTicks(
    lineScale({ low: dayNumber(from), high: dayNumber(to) }, { fromPx: 0, toPx: widthPx }),
    54,
  ).map(({ text }) => text)

test('half a year has its months, two weeks their days, ten years their years', () => {
  expect(daysOver('2026-06-28', '2026-11-20', 388)).toEqual(['Jul', 'Aug', 'Sep', 'Oct', 'Nov'])
  expect(daysOver('2026-11-01', '2026-11-14', 388).at(0)).toBe('1 Nov')
  expect(daysOver('2016-06-01', '2026-06-01', 600)).toEqual(
    Array.from({ length: 10 }, (_, at) => String(2017 + at)),
  )
})

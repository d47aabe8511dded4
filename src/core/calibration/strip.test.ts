import fc from 'fast-check'
import { expect, test } from 'vitest'
import { isFailure } from '../failure.ts'
import { near } from '../units/near.testing.ts'
import { lu } from '../units/quantity.ts'
import { planStrip, type Strip } from './strip.ts'

const strip = (low: number, high: number, bands: number): Strip =>
  planStrip({ lowLu: lu(low), highLu: lu(high), bands })

test('oracle test-strip: 10 to 80 in four bands doubles, and is set 40, 20, 10, 10', () => {
  const { kind, bands, incrementsLu } = strip(10, 80, 4)
  expect(kind).toBe('strip')
  expect(bands.map(({ number }) => number)).toEqual([1, 2, 3, 4])
  const exact = { within: 1e-12, because: 'cube roots of 8' }
  ;[10, 20, 40, 80].forEach((dose, at) => near(bands[at].doseLu, dose, exact))
  ;[40, 20, 10, 10].forEach((dose, at) => near(incrementsLu[at], dose, exact))
})

test('the ends are what was asked for, to the last bit', () => {
  const { bands } = strip(13.7, 94.3, 9)
  expect([bands[0].doseLu, bands[8].doseLu]).toEqual([13.7, 94.3])
})

test('what cannot be is refused by name', () => {
  expect(() => strip(12, 80, 1)).toThrow('bands: expected a whole number from 2 to 60 bands, got 1')
  expect(() => strip(12, 80, 3.5)).toThrow('got 3.5')
  expect(() => strip(0, 80, 5)).toThrow('lowLu: expected')
  expect(() => strip(12, Number.NaN, 5)).toThrow('highLu: expected')
  for (const [low, high] of [
    [80, 12],
    [33, 33],
  ] as const) {
    expect(() => strip(low, high, 5)).toThrow(`${low} lu is not below ${high} lu`)
  }
  try {
    strip(80, 12, 5)
  } catch (error) {
    expect(isFailure(error, 'wrong input')).toBe(true)
  }
})

test('invariant: each band’s dose is the sum of the settings it sees, in equal ratios', () => {
  const low = fc.double({ min: 0.5, max: 90, noNaN: true })
  const times = fc.double({ min: 1.01, max: 200, noNaN: true })
  fc.assert(
    fc.property(low, times, fc.integer({ min: 2, max: 60 }), (lowLu, ratio, count) => {
      const { bands, incrementsLu } = strip(lowLu, lowLu * ratio, count)
      // Act it out: uncover the last band, set; uncover one more, set; and so on.
      const seen = new Array<number>(count).fill(0)
      incrementsLu.forEach((setting, turn) => {
        for (let band = count - 1 - turn; band < count; band++) seen[band] += setting
      })
      bands.forEach(({ doseLu }, at) => {
        near(seen[at], doseLu, { within: 1e-9 * doseLu, because: 'a sum of up to 60 differences' })
        if (at === 0) return
        near(doseLu / bands[at - 1].doseLu, ratio ** (1 / (count - 1)), {
          within: 1e-9,
          because: 'powers of one ratio',
        })
      })
    }),
    { seed: 52 },
  )
})

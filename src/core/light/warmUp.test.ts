import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { countAfter, secondsCorrected, secondsFor, type WarmUp } from './warmUp.ts'

const halide: WarmUp = { hotPerSec: 0.52, coldPerSec: 0.18, tauSec: 31, lagSec: 2.5 }
const panel: WarmUp = { hotPerSec: 3.1, coldPerSec: 3.6, tauSec: 95, lagSec: 0 }

/** The light as it is written, gathered by Simpson's rule: knows nothing of the closed forms. */
function gathered({ hotPerSec, coldPerSec, tauSec, lagSec }: WarmUp, clockSec: number): number {
  const light = (t: number): number => hotPerSec - (hotPerSec - coldPerSec) * Math.exp(-t / tauSec)
  const parts = 2000
  const step = (clockSec - lagSec) / parts
  let sum = 0
  for (let at = 0; at <= parts; at += 1) {
    sum += (at === 0 || at === parts ? 1 : at % 2 === 1 ? 4 : 2) * light(at * step)
  }
  return (sum * step) / 3
}

describe.each([
  ['a lamp that gets brighter', halide],
  ['a panel that gets dimmer', panel],
])('%s', (_, lamp) => {
  test('oracle warm-up: counts are the integral of the light, done by steps', () => {
    for (const clockSec of [7, 33, 94, 310]) {
      const stepped = { within: 1e-9, because: "Simpson's rule with 2,000 steps" }
      near(countAfter(lamp, { sec: clockSec, from: 'cold' }), gathered(lamp, clockSec), stepped)
    }
  })

  test('oracle warm-up: the closed form finds the time that halving finds', () => {
    for (const count of [3, 42, 128]) {
      let [low, high] = [0, 2000]
      for (let round = 0; round < 60; round += 1) {
        const middle = (low + high) / 2
        if (gathered(lamp, middle) < count) low = middle
        else high = middle
      }
      const halved = { within: 1e-8, because: 'steps and halving' }
      near(secondsFor(lamp, { count, from: 'cold' }), low, halved)
    }
  })
})

// By hand: Ec = 0, τ = 1, Eh = 1 gives N = t − 1 + exp(−t); t = ln 2 gives ln 2 − 1/2.
test('oracle warm-up: a lamp that starts at nothing, worked by hand', () => {
  const lamp = { hotPerSec: 1, coldPerSec: 0, tauSec: 1, lagSec: 0 }
  const rounding = { within: 1e-12, because: 'near the end of the branch' }
  near(countAfter(lamp, { sec: Math.LN2, from: 'cold' }), Math.LN2 - 0.5, rounding)
  near(secondsFor(lamp, { count: Math.LN2 - 0.5, from: 'cold' }), Math.LN2, rounding)
})

test('oracle lamp-life: a lamp fallen to 70 % takes 1.4286 times as long', () => {
  const rounding = { within: 5e-5, because: 'printed to five digits' }
  const seconds = (hotPerSec: number): number =>
    secondsFor({ ...halide, hotPerSec }, { count: 42, from: 'hot' })
  near(seconds(0.7 * 0.52) / seconds(0.52), 1.4286, rounding)
})

test('before the first light nothing is counted, and no count takes just that long', () => {
  expect(countAfter(halide, { sec: 2.4, from: 'cold' })).toBe(0)
  expect(secondsFor(halide, { count: 0, from: 'cold' })).toBe(2.5)
  expect(secondsFor(halide, { count: 0, from: 'hot' })).toBe(0)
})

test('what cannot be is refused by name', () => {
  expect(() => countAfter({ ...halide, hotPerSec: 0 }, { sec: 3, from: 'hot' })).toThrow(
    'hotPerSec: expected',
  )
  expect(() => secondsFor({ ...halide, coldPerSec: -1 }, { count: 3, from: 'cold' })).toThrow(
    'coldPerSec: expected',
  )
  expect(() => secondsFor(halide, { count: Number.NaN, from: 'hot' })).toThrow('count: expected')
  expect(() => secondsFor({ ...halide, coldPerSec: 5.3 }, { count: 3, from: 'cold' })).toThrow(
    'coldPerSec: expected',
  )
})

const lamps = fc
  .record({
    hotPerSec: fc.double({ min: 0.05, max: 50, noNaN: true }),
    coldShare: fc.double({ min: 0, max: 9, noNaN: true }),
    tauSec: fc.double({ min: 1, max: 400, noNaN: true }),
    lagSec: fc.double({ min: 0, max: 20, noNaN: true }),
  })
  .map(({ coldShare, ...lamp }) => ({ ...lamp, coldPerSec: coldShare * lamp.hotPerSec }))
const counts = fc.double({ min: 0.5, max: 3000, noNaN: true })

test('invariant: the time for a count gives that count back, from cold and from hot', () => {
  fc.assert(
    fc.property(lamps, counts, fc.constantFrom('cold', 'hot'), (lamp, count, from) => {
      const seconds = secondsFor(lamp, { count, from })
      const back = countAfter(lamp, { sec: seconds, from })
      near(back / count, 1, { within: 1e-6, because: 'the branch of W ends in a root' })
    }),
    { seed: 32, numRuns: 400 },
  )
})

test('invariant: corrected seconds give from cold what was meant from hot', () => {
  fc.assert(
    fc.property(lamps, fc.double({ min: 1, max: 900, noNaN: true }), (lamp, hotSec) => {
      const cold = secondsCorrected(lamp, { hotSec })
      const given = countAfter(lamp, { sec: cold, from: 'cold' })
      const meant = countAfter(lamp, { sec: hotSec, from: 'hot' })
      near(given / meant, 1, { within: 1e-6, because: 'the branch of W ends in a root' })
      if (lamp.coldPerSec <= lamp.hotPerSec) expect(cold).toBeGreaterThanOrEqual(hotSec - 1e-6)
    }),
    { seed: 33, numRuns: 400 },
  )
})

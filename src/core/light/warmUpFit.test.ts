import { expect, test } from 'vitest'
import { countAfter, type WarmUp } from './warmUp.ts'
import { fitWarmUp, type Timing } from './warmUpFit.ts'

/** Seeded: multiplicative congruence of Park and Miller (from memory). */
function randomFrom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}

const TIMES = [5, 10, 20, 30, 45, 60, 80, 100, 130, 160, 200, 240]

/** A person who reads clock and counter: 0.3 s off either way, whole counts. */
function timed(lamp: WarmUp, random: () => number): Timing {
  const normal = (): number =>
    Math.sqrt(-2 * Math.log(random() || 1e-9)) * Math.cos(2 * Math.PI * random())
  const pairs = TIMES.map((clockSec) => ({
    clockSec,
    count: Math.floor(
      countAfter(lamp, { sec: Math.max(0, clockSec + 0.3 * normal()), from: 'cold' }),
    ),
  }))
  return { from: 'cold', pairs }
}

test('90 % ranges hold the lamp that was timed in 84 to 96 of 100: lamps that brighten and that dim', () => {
  const random = randomFrom(20261128)
  const within = { hotPerSec: 0, coldPerSec: 0, tauSec: 0 }
  let told = 0
  for (let shop = 0; shop < 240; shop += 1) {
    const hotPerSec = 0.4 + 2.4 * random()
    const lamp: WarmUp = {
      hotPerSec,
      coldPerSec: hotPerSec * (shop % 4 === 0 ? 1.1 + 0.5 * random() : 0.15 + 0.6 * random()),
      tauSec: 15 + 60 * random(),
      lagSec: 0,
    }
    const fit = fitWarmUp([timed(lamp, random)])
    if (typeof fit === 'string') continue
    told += 1
    for (const key of ['hotPerSec', 'coldPerSec', 'tauSec'] as const) {
      if (fit[key].low <= lamp[key] && lamp[key] <= fit[key].high) within[key] += 1
    }
  }
  expect(told).toBeGreaterThan(160)
  const shares = Object.values(within).map((count) => count / told)
  for (const share of shares) {
    expect(share).toBeGreaterThan(0.84)
    expect(share).toBeLessThan(0.97)
  }
})

test('pairs that cannot tell say why', () => {
  const hot = {
    from: 'hot',
    pairs: [
      { clockSec: 10, count: 20 },
      { clockSec: 60, count: 120 },
    ],
  } as const
  expect(fitWarmUp([hot])).toBe('never from cold')
  expect(fitWarmUp([{ ...hot, from: 'cold' }])).toBe('too few pairs')
  const lamp = { hotPerSec: 2, coldPerSec: 0.5, tauSec: 300, lagSec: 0 }
  const short = timed(lamp, randomFrom(7))
  expect(fitWarmUp([{ ...short, pairs: short.pairs.slice(0, 7) }])).toBe('not long enough')
})

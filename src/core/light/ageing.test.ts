import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { ageingTrend } from './ageing.ts'

const aged = (hours: readonly number[], lightAt: (hours: number) => number, sd = 0.02) =>
  hours.map((lampHours) => ({ lampHours, hotPerSec: lightAt(lampHours), sd }))

test('a lamp that loses 3 % in 100 hours is at 0.7 after 1,171', () => {
  const trend = ageingTrend(aged([10, 130, 290, 420, 560], (hours) => 2 * 0.97 ** (hours / 100)))
  // ln 0.7 / ln 0.97 = 11.7099 hundreds of hours: by hand
  near(trend?.replaceAtHours?.value ?? 0, 1170.99, {
    within: 0.01,
    because: 'the points lie on it',
  })
  near(trend?.at(1000).value ?? 0, 2 * 0.97 ** 10, { within: 1e-9, because: 'the same line' })
  const { low = 0, high = 0 } = trend?.replaceAtHours ?? {}
  expect(low).toBeLessThan(1171)
  expect(high).toBeGreaterThan(1171)
})

test('the slope’s range is the textbook’s: two points a side, by hand', () => {
  // ln light 0, 0, −1, −1 at 0, 0, 1, 1 with sd 0.1 of it: b = −1, sd 0.1; t(0.95, 2) = 2.920
  const at = [0, 0, 1, 1].map((lampHours) => {
    const hotPerSec = Math.exp(-lampHours)
    return { lampHours, hotPerSec, sd: 0.1 * hotPerSec }
  })
  const { replaceAtHours } = ageingTrend(at) ?? {}
  near(replaceAtHours?.low ?? 0, -Math.log(0.7) / (1 + 0.292), { within: 1e-4, because: 'by hand' })
  near(replaceAtHours?.high ?? 0, -Math.log(0.7) / (1 - 0.292), {
    within: 1e-4,
    because: 'by hand',
  })
})

test('too few points, or hours that are all one, tell no trend; a level one no end', () => {
  expect(ageingTrend(aged([0, 100], () => 2))).toBeNull()
  expect(ageingTrend(aged([50, 50, 50], () => 2))).toBeNull()
  expect(ageingTrend(aged([0, 100, 200, 300], () => 2))?.replaceAtHours).toBeNull()
})

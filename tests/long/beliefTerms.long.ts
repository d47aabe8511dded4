import { expect, test } from 'vitest'
import { shopAsBelieved } from '../../src/core/calibration/belief/simulation.testing.ts'
import { simulatedTerms } from '../../src/core/calibration/belief/terms.testing.ts'
import { told } from './told.testing.ts'

test('in 1,000 simulated terms ranges hold, chances come true, and screens come good at once', () => {
  const terms = simulatedTerms({ draw: shopAsBelieved, shops: 1000, seed: 1, compare: true })
  told(terms)
  for (const [name, { inside, all }] of terms.covered) {
    expect(inside / all, name).toBeGreaterThan(0.86)
    expect(inside / all, name).toBeLessThan(0.94)
  }
  for (const { times, chances, good } of terms.said) {
    const noise = 2 * Math.sqrt(0.25 / times)
    expect(Math.abs(chances - good) / times).toBeLessThan(0.05 + noise)
  }
  const { belief, chart, truth } = terms.good
  // Two thirds of the way from a chart made once to one who knows everything but screen and film.
  expect((belief - chart) / (truth - chart)).toBeGreaterThan(2 / 3)
})

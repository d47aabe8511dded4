import { expect, test } from 'vitest'
import { simulatedTerms } from '../../src/core/calibration/belief/simulation.testing.ts'

test('in 1,000 simulated terms ranges hold, chances come true, and screens come good at once', () => {
  const terms = simulatedTerms({ shops: 1000, seed: 1, compare: true })
  for (const [name, { inside, all }] of terms.covered) {
    const share = inside / all
    console.log(`90 % ranges of ${name}: ${(100 * share).toFixed(1)} % of ${all} hold the truth`)
    expect(share, name).toBeGreaterThan(0.86)
    expect(share, name).toBeLessThan(0.94)
  }
  for (const { times, chances, good } of terms.said) {
    const [said, came] = [chances / times, good / times]
    console.log(`said ${said.toFixed(2)}, came ${came.toFixed(2)} in ${times} screens`)
    const noise = 2 * Math.sqrt(0.25 / times)
    expect(Math.abs(said - came)).toBeLessThan(0.05 + noise)
  }
  const { belief, chart, truth } = terms.good
  const share = (good: number): string => `${((100 * good) / terms.screens).toFixed(1)} %`
  console.log(
    `good at once after the fourth week: by the first week's chart ${share(chart)}, ` +
      `by the belief ${share(belief)}, by the truth itself ${share(truth)}, of ${terms.screens}`,
  )
  // Two thirds of the way from a chart made once to one who knows everything but screen and film.
  expect((belief - chart) / (truth - chart)).toBeGreaterThan(2 / 3)
})

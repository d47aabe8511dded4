import { expect, test } from 'vitest'
import { simulatedTerms } from '../../src/core/calibration/belief/terms.testing.ts'
import { lineLeaks, WIDTHS_UM } from './lineLeaks.testing.ts'
import { otherShops } from './otherShops.testing.ts'

test('oracle spread-contract: lines of these shops leak as the halo says, the fine ones most', async () => {
  const halo = { lengthUm: 40, weight: 0.12 }
  const leaks = await lineLeaks({ source: { kind: 'disc', radiusUm: 2 }, halo })
  // Effective density of a black line of 100, 150, 200, 300, 500 um: 1.33, 1.56, 1.79, 2.28, 3.28.
  const printed = [1.33, 1.56, 1.79, 2.28, 3.28]
  printed.forEach((density, at) => {
    const effective = -Math.log10(1 - leaks[WIDTHS_UM[at]])
    expect(Math.abs(effective - density), `${WIDTHS_UM[at]} um: ${effective}`).toBeLessThan(0.03)
  })
})

test('shops that do not follow the priors: less is covered than was said, and a chart is still beaten', async () => {
  const terms = simulatedTerms({ draw: await otherShops(), shops: 18, seed: 5, compare: true })
  for (const [name, { inside, all }] of terms.covered) {
    // A thousand such shops hold the truth in 0.74 (media) to 0.84 (hold); 18 shops scatter by 0.08.
    expect(inside / all, name).toBeGreaterThan(0.55)
  }
  for (const { times, chances, good } of terms.said) {
    if (times < 40) continue
    const noise = 2.5 * Math.sqrt(0.25 / times)
    expect(Math.abs(good - chances) / times).toBeLessThan(0.08 + noise)
  }
  const { belief, chart, truth } = terms.good
  expect(belief).toBeGreaterThan(chart + 0.05 * terms.screens)
  expect((belief - chart) / (truth - chart)).toBeGreaterThan(0.4)
})

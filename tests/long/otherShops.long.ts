import { expect, test } from 'vitest'
import { simulatedTerms } from '../../src/core/calibration/belief/terms.testing.ts'
import { otherShops } from './otherShops.testing.ts'
import { told } from './told.testing.ts'

test('1,000 terms in shops that do not follow the priors', async () => {
  const terms = simulatedTerms({ draw: await otherShops(), shops: 1000, seed: 7, compare: true })
  told(terms)
  // Short of the 0.86 that shops as believed are held to: 0.84 for hold and skin, 0.78 for sound, 0.74
  // for media, whose films scatter with heavy tails that a normal curve of 0.10 does not have.
  const least = { hold: 0.82, skin: 0.82, sound: 0.76, 'fog limit': 0.72, medium: 0.72 }
  for (const [name, share] of Object.entries(least)) {
    const { inside = 0, all = 1 } = terms.covered.get(name) ?? {}
    expect(inside / all, name).toBeGreaterThan(share)
  }
  // Said chances are too high by up to 0.08.
  for (const { times, chances, good } of terms.said) {
    expect(Math.abs(chances - good) / times).toBeLessThan(0.1)
  }
  const { belief, chart, truth } = terms.good
  expect((belief - chart) / (truth - chart)).toBeGreaterThan(0.65)
})

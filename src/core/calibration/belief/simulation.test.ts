import { expect, test } from 'vitest'
import { shopAsBelieved } from './simulation.testing.ts'
import { simulatedTerms } from './terms.testing.ts'

const terms = simulatedTerms({ draw: shopAsBelieved, shops: 100, seed: 2, compare: true })

test('in 100 simulated terms nine ranges in ten hold the truth, and said chances come true', () => {
  const { covered, said, readings } = terms
  expect(readings).toBeGreaterThan(4000)
  for (const [name, { inside, all }] of covered) {
    expect(inside / all, `${name} is held in ${inside} of ${all} ranges`).toBeGreaterThan(0.86)
    expect(inside / all, `${name} is held in ${inside} of ${all} ranges`).toBeLessThan(0.94)
  }
  for (const { times, chances, good } of said) {
    if (times < 100) continue
    const noise = 2.5 * Math.sqrt(0.25 / times)
    const off = Math.abs(good - chances) / times
    expect(off, `said ${chances / times}, came ${good / times}`).toBeLessThan(0.05 + noise)
  }
})

test('after the fourth week about two thirds of what a chart misses come good at once', () => {
  const { belief, chart, truth } = terms.good
  expect(truth).toBeGreaterThan(chart + 0.1 * terms.screens)
  // From a chart made in the first week to one who knows everything but screen and film. Of 2,000
  // screens the share is known to 0.045 (sd); a thousand terms (npm run test:long) hold it to 2/3.
  expect((belief - chart) / (truth - chart)).toBeGreaterThan(2 / 3 - 0.09)
})

import { expect, test } from 'vitest'
import { simulatedTerms } from './simulation.testing.ts'

test('in 100 simulated terms nine ranges in ten hold the truth, and said chances come true', () => {
  const { covered, said, readings } = simulatedTerms({ shops: 100, seed: 2 })
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

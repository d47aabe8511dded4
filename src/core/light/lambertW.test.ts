import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { lambertW0 } from './lambertW.ts'

test.each([
  [0, 0],
  [0.5, 0.3517337112491958],
  [1, 0.567143290409784],
  [1.5, 0.7258613577662263],
  [2, 0.8526055020137255],
  [2.5, 0.9585863567287028],
  [Math.E, 1],
])('oracle lambert-w: W(%d) is %d', (x, expected) => {
  near(lambertW0(x), expected, { within: 4e-16, because: 'printed to 16 digits' })
})

test.each([
  [-0.3, -0.4894022271802149],
  [-0.1, -0.11183255915896297],
  [10, 1.7455280027406994],
  [1000, 5.249602852401596],
])('oracle lambert-w: W(%d) is %d, from an independent program', (x, expected) => {
  near(lambertW0(x), expected, { within: 2e-15, because: 'good to the last digits' })
})

test('oracle lambert-w: the branch ends at −1/e with −1, and W(−ln 2 / 2) is −ln 2', () => {
  near(lambertW0(-1 / Math.E), -1, { within: 3e-8, because: 'the root of a last bit' })
  near(lambertW0(-Math.LN2 / 2), -Math.LN2, { within: 1e-15, because: 'rounding' })
  expect(() => lambertW0(-0.3679)).toThrow('x: expected')
  expect(() => lambertW0(Number.NaN)).toThrow('x: expected')
})

test('invariant: w exp(w) gives x back, from the end of the branch to the far right', () => {
  fc.assert(
    fc.property(fc.double({ min: -1, max: 300, noNaN: true }), (w) => {
      const x = w * Math.exp(w)
      const found = lambertW0(x)
      expect(found).toBeGreaterThanOrEqual(-1)
      const off = Math.abs(found * Math.exp(found) - x)
      expect(off).toBeLessThanOrEqual(1e-15 + 1e-13 * Math.abs(x))
    }),
    { seed: 31, numRuns: 500 },
  )
})

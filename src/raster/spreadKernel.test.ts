import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Spread, stripShare } from '../core/forecast/spread.ts'
import { near } from '../core/units/near.testing.ts'
import { spreadKernel } from './spreadKernel.ts'

const spreads = fc.record({
  source: fc.oneof(
    fc.record({
      kind: fc.constant('disc' as const),
      radiusUm: fc.double({ min: 0, max: 120, noNaN: true }),
    }),
    fc.record({
      kind: fc.constant('bank' as const),
      gapUm: fc.double({ min: 1, max: 20, noNaN: true }),
    }),
  ),
  halo: fc.record({
    lengthUm: fc.double({ min: 8, max: 80, noNaN: true }),
    weight: fc.double({ min: 0, max: 1, noNaN: true }),
  }),
})

test('invariant: weights are even, none is negative, and they add up to 1', () => {
  fc.assert(
    fc.property(spreads, fc.double({ min: 12, max: 60, noNaN: true }), (spread, pixelUm) => {
      const { reachPx, weights } = spreadKernel(spread, { pixelUm })
      const side = 2 * reachPx + 1
      expect(weights.length).toBe(side * side)
      expect(Math.abs(weights.reduce((sum, value) => sum + value, 0) - 1)).toBeLessThan(1e-12)
      for (let at = 0; at < weights.length; at += 1) {
        const [x, y] = [at % side, Math.floor(at / side)]
        expect(weights[at]).toBeGreaterThanOrEqual(-1e-15)
        expect(weights[at]).toBe(weights[(side - 1 - y) * side + (side - 1 - x)])
        expect(weights[at]).toBe(weights[x * side + y])
      }
    }),
    { seed: 31, numRuns: 25 },
  )
})

test('a column of pixels holds what a slit as wide lets through, for any lamp', () => {
  // the slit is worked out along the line, the pixels in the plane: two ways to one number
  const cases: readonly Spread[] = [
    { source: { kind: 'disc', radiusUm: 1.46 }, halo: { lengthUm: 40, weight: 0.12 } },
    { source: { kind: 'disc', radiusUm: 90 }, halo: { lengthUm: 30, weight: 0.5 } },
    { source: { kind: 'bank', gapUm: 7 }, halo: { lengthUm: 45, weight: 0.3 } },
  ]
  for (const spread of cases) {
    const pixelUm = 24
    const { reachPx, weights } = spreadKernel(spread, { pixelUm })
    const side = 2 * reachPx + 1
    const column = (x: number): number => {
      let sum = 0
      for (let y = 0; y < side; y += 1) sum += weights[y * side + reachPx + x]
      return sum
    }
    const middle = stripShare(pixelUm / 2, spread)
    const second = (stripShare(1.5 * pixelUm, spread) - middle) / 2
    near(column(0), middle, {
      within: 3e-6,
      because: 'the kernel leaves a millionth of the light out',
    })
    near(column(1), second, {
      within: 3e-6,
      because: 'the kernel leaves a millionth of the light out',
    })
  }
})

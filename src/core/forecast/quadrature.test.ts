import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { gaussLegendre, integrate } from './quadrature.ts'

test('oracle nist-dlmf: the five-point rule has the printed nodes and weights (table 3.5.1)', () => {
  const { nodes, weights } = gaussLegendre(5)
  const printed = [
    [0, 0.5688888888888889],
    [0.5384693101056831, 0.4786286704993665],
    [0.906179845938664, 0.2369268850561891],
  ] as const
  for (const [node, weight] of printed) {
    const at = nodes.findIndex((found) => Math.abs(found - node) < 1e-12)
    expect(at).toBeGreaterThanOrEqual(0)
    near(weights[at], weight, { within: 1e-14, because: 'printed to 16 digits' })
  }
})

test('an integral with a known end: e to the x over 0 to 2', () => {
  const value = integrate(Math.exp, [0, 2], gaussLegendre(20))
  near(value, Math.E ** 2 - 1, { within: 1e-13, because: 'analytic, 20 points' })
})

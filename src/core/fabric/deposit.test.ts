import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { perCm, share, um } from '../units/quantity.ts'
import { empiricalDepositUm, type WeaveKind, wetDepositUm } from './deposit.ts'

const experience = (count: number, thread: number, thickness: number, weave: WeaveKind): number =>
  empiricalDepositUm({
    threadsPerCm: perCm(count),
    threadUm: um(thread),
    thicknessUm: um(thickness),
    weave,
  })

test('oracle deposit2000: 39 threads a cm of 55 um lay down 61.76 um', () => {
  near(experience(39, 55, 85, 'plain'), 61.76, { within: 0.005, because: 'printed to 2 decimals' })
})

test('oracle deposit2000: 120 threads a cm, 50 um thick, lay down 14.25 um', () => {
  near(experience(120, 34, 50, 'plain'), 14.25, { within: 1e-12, because: '0.285 times 50' })
})

test('oracle deposit2000: 0.35 of the thickness from 140 a cm, 0.31 in any twill', () => {
  const exact = { within: 1e-12, because: 'one product' }
  near(experience(140, 31, 47, 'plain'), 0.35 * 47, exact)
  near(experience(139, 31, 47, 'plain'), 0.285 * 47, exact)
  near(experience(150, 34, 60, 'twill'), 0.31 * 60, exact)
  near(experience(42, 55, 85, 'twill'), 0.31 * 85, exact)
})

test('oracle wet-film: the fabric’s volume, and over it the emulsion in a fine line', () => {
  const fabric = { openAreaShare: share(0.33), thicknessUm: um(72) }
  const inLine = wetDepositUm(fabric, { emulsionOverMeshUm: um(8), edgeShare: share(1) })
  near(inLine, 31.76, { within: 1e-12, because: '0.33 times 72, and 8' })
  const inSolid = wetDepositUm(fabric, { emulsionOverMeshUm: um(8), edgeShare: share(0) })
  near(inSolid, 23.76, { within: 1e-12, because: '0.33 times 72' })
})

test('what cannot be is refused by name', () => {
  const fabric = { openAreaShare: share(33), thicknessUm: um(72) }
  const stencil = { emulsionOverMeshUm: um(8), edgeShare: share(0.4) }
  expect(() => wetDepositUm(fabric, stencil)).toThrow('openAreaShare: expected 0 to 1, got 33')
  expect(() => experience(120, 90, 60, 'plain')).toThrow('threadUm')
})

test('invariant: ink lies between the fabric’s volume and that plus the whole emulsion', () => {
  const part = fc.double({ min: 0, max: 1, noNaN: true })
  const height = fc.double({ min: 10, max: 400, noNaN: true })
  fc.assert(
    fc.property(part, part, height, height, (open, edge, thick, over) => {
      const fabric = { openAreaShare: share(open), thicknessUm: um(thick) }
      const wet = wetDepositUm(fabric, { emulsionOverMeshUm: um(over), edgeShare: share(edge) })
      expect(wet).toBeGreaterThanOrEqual(open * thick)
      expect(wet).toBeLessThanOrEqual(open * thick + over)
    }),
    { seed: 42 },
  )
})

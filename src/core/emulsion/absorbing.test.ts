import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { lu, um } from '../units/quantity.ts'
import { cureDepthUm, doseForDepthLu } from './doses.ts'
import type { AbsorbingEmulsion } from './emulsion.ts'

const coat = (gelDose: number, penetrationDepth: number): AbsorbingEmulsion => ({
  model: 'absorbing',
  gelDoseLu: lu(gelDose),
  penetrationDepthUm: um(penetrationDepth),
  thicknessUm: um(90),
  anchorDepthUm: um(17),
})

test('oracle jacobs1992: Dp 0.175 mm, Ec 8: 30 cures 0.2313073 mm', () => {
  const depth = cureDepthUm(coat(8, 175), lu(30))
  near(depth, 231.3073, { within: 5e-5, because: 'seven digits of depth' })
})

test('oracle jacobs1992: Dp 150 um, Ec 15: 80 cures 251.0965 um', () => {
  const depth = cureDepthUm(coat(15, 150), lu(80))
  near(depth, 251.0965, { within: 5e-5, because: 'seven digits of depth' })
})

test('oracle jacobs1992: Ec cures nothing, e Ec one Dp, and doubling adds 0.693147 Dp', () => {
  const rounding = { within: 1e-12, because: 'a logarithm in doubles' }
  near(cureDepthUm(coat(7, 41), lu(7)), 0, rounding)
  near(cureDepthUm(coat(7, 41), lu(7 * Math.E)), 41, rounding)
  const added = cureDepthUm(coat(7, 41), lu(2 * 23)) - cureDepthUm(coat(7, 41), lu(23))
  near(added, 0.693147 * 41, { within: 5e-7 * 41, because: 'six digits of ln 2' })
})

test('oracle jacobs1992: a wedge step of 0.15 costs 0.345388 Dp of depth', () => {
  const behind = (step: number): number => cureDepthUm(coat(5, 38), lu(310 * 10 ** (-0.15 * step)))
  near(behind(3) - behind(4), 0.345388 * 38, { within: 5e-7 * 38, because: 'six digits' })
})

test('under the skin dose nothing cures, and no light is no fault', () => {
  expect(cureDepthUm(coat(7, 41), lu(6.9))).toBe(0)
  expect(cureDepthUm(coat(7, 41), lu(0))).toBe(0)
})

test('invariant: depth and dose undo each other, and depth grows with dose', () => {
  const from = (min: number, max: number): fc.Arbitrary<number> =>
    fc.double({ min, max, noNaN: true })
  fc.assert(
    fc.property(from(0.1, 400), from(5, 150), from(0, 300), (gelDose, penetration, depth) => {
      const emulsion = coat(gelDose, penetration)
      const dose = doseForDepthLu(emulsion, um(depth))
      near(cureDepthUm(emulsion, dose), depth, { within: 1e-9, because: 'exp and log of doubles' })
      expect(cureDepthUm(emulsion, lu(1.01 * dose))).toBeGreaterThan(depth)
    }),
    { seed: 31 },
  )
})

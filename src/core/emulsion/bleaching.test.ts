import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { lu, share, um } from '../units/quantity.ts'
import { bleachDepth } from './bleachIntegral.ts'
import { cureDepthUm, doseForDepthLu, surfaceDoses } from './doses.ts'
import { type BleachingEmulsion, DEFAULT_BLEACHING_EMULSION } from './emulsion.ts'

const coat = (changed: Partial<BleachingEmulsion>): BleachingEmulsion => ({
  ...DEFAULT_BLEACHING_EMULSION,
  ...changed,
})

/**
 * Dill's two equations, marched through time and depth with no use of the integral: the light at
 * each depth from the sensitiser above it (trapezoid), then the sensitiser burnt by that light
 * (midpoint rule in time). Returns the surface dose at which `gelShare` is used up at `depth`.
 */
function marchedDose(
  { aPerUm, bPerUm, cPerLu, gelShare }: BleachingEmulsion,
  { depth, layers, stepLu }: { depth: number; layers: number; stepLu: number },
): number {
  const thick = depth / layers
  const left = new Float64Array(layers + 1).fill(1)
  const half = new Float64Array(layers + 1)
  const burn = (light: Float64Array, dose: number, into: Float64Array): void => {
    let optical = 0
    for (let at = 0; at <= layers; at++) {
      if (at > 0) optical += (thick / 2) * (aPerUm * (light[at - 1] + light[at]) + 2 * bPerUm)
      into[at] = left[at] * Math.exp(-cPerLu * dose * Math.exp(-optical))
    }
  }
  for (let dose = 0; ; dose += stepLu) {
    const before = left[layers]
    burn(left, stepLu / 2, half)
    burn(half, stepLu, left)
    if (1 - left[layers] >= gelShare) {
      const part = Math.log(before / (1 - gelShare)) / Math.log(before / left[layers])
      return dose + part * stepLu
    }
  }
}

// Layers of 0.05 um and steps of 0.02 lu: halving both moves the answer by under 1 part in 1e5.
test.each([
  ['the default twin', {}, 20],
  ['the default twin, through', {}, 80],
  ['no lasting absorption', { bPerUm: 0, gelShare: share(0.3) }, 55],
  ['mostly lasting absorption', { aPerUm: 0.012, bPerUm: 0.03, gelShare: share(0.8) }, 47],
] as const)('oracle dill1975: time steps through %s agree', (_, changed, depth) => {
  const emulsion = coat(changed)
  const marched = marchedDose(emulsion, { depth, layers: depth * 20, stepLu: 0.02 })
  near(doseForDepthLu(emulsion, um(depth)) / marched, 1, {
    within: 5e-5,
    because: 'second-order steps, see above',
  })
  near(cureDepthUm(emulsion, lu(marched)) / depth, 1, { within: 5e-5, because: 'the same' })
})

test('oracle dill1975: without B, z = (1/A) ln[((1 - g)/g)(exp(CH) - 1)]', () => {
  const emulsion = coat({ bPerUm: 0, aPerUm: 0.037, gelShare: share(0.35) })
  for (const dose of [5, 19, 71, 240]) {
    const closed = Math.log((0.65 / 0.35) * Math.expm1(0.1155 * dose)) / 0.037
    near(cureDepthUm(emulsion, lu(dose)) / closed, 1, { within: 1e-9, because: 'ten-point panels' })
    near(doseForDepthLu(emulsion, um(closed)) / dose, 1, { within: 1e-9, because: 'the same' })
  }
})

test.each([
  ['435.8 nm', 0.54, 0.03, 0.5, 0.752014, 0.985112],
  ['435.8 nm', 0.54, 0.03, 1, 0.565525, 0.970446],
  ['435.8 nm', 0.54, 0.03, 2, 0.319819, 0.941765],
  ['404.7 nm', 0.86, 0.07, 0.5, 0.628135, 0.965605],
  ['404.7 nm', 0.86, 0.07, 1, 0.394554, 0.932394],
  ['404.7 nm', 0.86, 0.07, 2, 0.155673, 0.869358],
  ['365.0 nm', 0.74, 0.2, 0.5, 0.625002, 0.904837],
  ['365.0 nm', 0.74, 0.2, 1, 0.390628, 0.818731],
  ['365.0 nm', 0.74, 0.2, 2, 0.15259, 0.67032],
])('oracle dill1975: %s A %d B %d d %d um: T(0) %d, T(inf) %d', (...row) => {
  const [, aPerUm, bPerUm, depth, fresh, bleached] = row
  const optics = { aPerUm, bPerUm }
  // A dose so small that nothing bleaches arrives below as the fresh coat's transmission of it.
  const small = bleachDepth(optics, { below: 1e-9 * fresh, above: 1e-9 })
  near(small, depth, { within: 3e-5, because: 'T is printed to six digits' })
  // On a bleached coat each further part of the dose arrives below as T(inf) of it.
  const above = 60 / bleached + (aPerUm / bPerUm) * (1 / bleached - 1)
  const large = bleachDepth(optics, { below: 60, above })
  near(large, depth, { within: 3e-5, because: 'T is printed to six digits' })
})

test('oracle dill1975: C 0.018: doses of 20, 50, 100 leave 0.697676, 0.406570, 0.165299', () => {
  for (const [dose, left] of [
    [20, 0.697676],
    [50, 0.40657],
    [100, 0.165299],
  ] as const) {
    const { gelDoseLu } = surfaceDoses(coat({ cPerLu: 0.018, gelShare: share(1 - left) }))
    near(gelDoseLu, dose, { within: 2e-4, because: 'six digits of what is left' })
  }
})

test('depth grows almost linearly with dose, not with its logarithm', () => {
  const depth = (dose: number): number => cureDepthUm(DEFAULT_BLEACHING_EMULSION, lu(dose))
  const [first, second] = [depth(40) - depth(25), depth(55) - depth(40)]
  expect(second / first).toBeGreaterThan(0.75) // by the working curve ln(55/40)/ln(40/25): 0.68
  expect(depth(6)).toBe(0)
})

test('invariant: depth and dose undo each other anywhere in the ranges', () => {
  const from = (min: number, max: number): fc.Arbitrary<number> =>
    fc.double({ min, max, noNaN: true })
  const emulsions = fc.record({
    aPerUm: from(0.0001, 1),
    bPerUm: fc.oneof(fc.constant(0), from(1e-9, 0.3)),
    cPerLu: from(1e-4, 1),
    gelShare: from(0.001, 0.999).map(share),
  })
  fc.assert(
    fc.property(emulsions, from(0.01, 120), (changed, depth) => {
      const emulsion = coat({ ...changed, thicknessUm: um(125) })
      const dose = doseForDepthLu(emulsion, um(depth))
      expect(dose).toBeGreaterThan(surfaceDoses(emulsion).gelDoseLu)
      const back = bleachDepth(emulsion, {
        below: -Math.log1p(-emulsion.gelShare),
        above: emulsion.cPerLu * dose,
      })
      const absorbed = emulsion.aPerUm + emulsion.bPerUm
      const within = 1e-9 * depth + 2e-14 / absorbed
      near(back, depth, { within, because: 'ln u is known to 2e-14; 1/(A + B) um to a unit of it' })
    }),
    { seed: 32, numRuns: 300 },
  )
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { ciede2000 } from './ciede2000.ts'
import { demichelWeights, mixedReflectance } from './inkMixing.ts'
import { labFromXyz50, xyz50FromLab } from './lab.ts'
import { oklabFromXyz65 } from './oklab.ts'
import { SHARMA_PAIRS } from './sharmaPairs.testing.ts'
import type { Srgb, Triple } from './space.ts'
import { labFromSrgb, srgbFromLab, xyz65FromSrgb } from './srgb.ts'
import { coveredShare, tintDensity } from './tone.ts'

function nearAll(got: Triple, expected: Triple, within: number, because: string): void {
  expected.forEach((value, at) => near(got[at] ?? Number.NaN, value, { within, because }))
}

test.each(SHARMA_PAIRS)('oracle sharma2005: %d %d %d and %d %d %d', (...row) => {
  const [l1, a1, b1, l2, a2, b2, difference] = row
  const digits = { within: 1e-4, because: 'printed to four decimals' }
  near(ciede2000([l1, a1, b1], [l2, a2, b2]), difference, digits)
  near(ciede2000([l2, a2, b2], [l1, a1, b1]), difference, digits)
})

test('oracle cie-lab: X 0.2065, Y 0.1220, Z 0.0514 under D50', () => {
  const lab = labFromXyz50([0.206_540_08, 0.121_972_25, 0.051_369_52])
  nearAll(lab, [41.527_875_29, 51.193_541_74, 19.918_430_98], 1e-7, 'eight digits')
})

describe.each<[string, Srgb, Triple, Triple]>([
  ['red', [1, 0, 0], [54.290_54, 80.804_93, 69.890_96], [0.627_954, 0.224_829, 0.125_792]],
  ['lime', [0, 1, 0], [87.818_53, -79.271_06, 80.994_58], [0.866_439, -0.233_918, 0.179_419]],
  ['blue', [0, 0, 1], [29.5683, 68.287_36, -112.029_71], [0.452_014, -0.032_432, -0.311_636]],
  [
    'slategray',
    [112 / 255, 128 / 255, 144 / 255],
    [52.697_35, -3.284_05, -10.743_43],
    [0.592_504, -0.011_42, -0.028_821],
  ],
])('%s', (_, srgb, lab, oklab) => {
  test('oracle bradford: its Lab under D50', () => {
    nearAll(labFromSrgb(srgb), lab, 1e-4, 'five decimals, and a matrix of eight')
  })

  test('oracle oklab: its OKLab by the author’s matrices', () => {
    nearAll(oklabFromXyz65(xyz65FromSrgb(srgb)), oklab, 1e-6, 'six decimals')
  })

  test('and back to what a screen shows', () => {
    nearAll(srgbFromLab(labFromSrgb(srgb)), srgb, 1e-6, 'two matrices inverted')
  })
})

test('oracle oklab: three further rows', () => {
  nearAll(
    oklabFromXyz65([0.142_220_1, 0.230_427_68, 0.104_957_72]),
    [0.599_107_46, -0.111_392_07, 0.075_084_65],
    1e-8,
    'eight digits',
  )
})

test('invariant: Lab and XYZ undo each other, near black too', () => {
  const part = fc.double({ min: 1e-4, max: 1, noNaN: true })
  fc.assert(
    fc.property(part, part, part, (x, y, z) => {
      nearAll(xyz50FromLab(labFromXyz50([x, y, z])), [x, y, z], 1e-12, 'rounding')
    }),
  )
})

test.each([
  [0.3, 1.5, 1, 0.515_102],
  [0.3, 1.5, 1.7, 0.384_303],
  [0.4, 1.6, 1.5, 0.501_876],
  [0.5, 1.4, 2, 0.546_75],
  [0.5, 1.4, 2.5, 0.509_321],
])('oracle yule-nielsen: a tint of %d under a solid of %d, n %d, covers %d', (...row) => {
  const [tint, solid, n, share] = row
  near(coveredShare({ tint, solid }, { n }), share, { within: 5e-7, because: 'six decimals' })
})

test('oracle murray-davies: half covered with a solid of 3.0 is 0.3006, with 1.33 0.2812', () => {
  near(tintDensity(0.5, { solid: 3 }), 0.3006, { within: 5e-5, because: 'four decimals' })
  near(tintDensity(0.5, { solid: 1.33 }), 0.2812, { within: 5e-5, because: 'four decimals' })
  expect(() => coveredShare({ tint: 1, solid: 2 }, { n: 0 })).toThrow('n: expected 1 to 5')
  expect(() => coveredShare({ tint: 0, solid: 0 })).toThrow('solid: expected 0.001 to 10 D')
  expect(() => tintDensity(1.01, { solid: 2 })).toThrow('coveredShare: expected 0 to 1')
  expect(() => mixedReflectance([0.5], { primaries: [0.9, 0.2], n: 0 })).toThrow('n: expected')
})

test('oracle demichel: 0.6, 0.3, 0.2 as by hand', () => {
  // white, c, m, cm, y, cy, my, cmy
  const byHand = [0.224, 0.336, 0.096, 0.144, 0.056, 0.084, 0.024, 0.036]
  demichelWeights([0.6, 0.3, 0.2]).forEach((weight, at) => {
    near(weight, byHand[at] ?? Number.NaN, { within: 1e-12, because: 'three decimals by hand' })
  })
})

test('oracle neugebauer: halves and two fifths of two inks reflect 0.43, with n = 2 0.37028', () => {
  const primaries = [0.9, 0.2, 0.4, 0.1]
  const mixed = (n: number): number => mixedReflectance([0.5, 0.4], { primaries, n })
  near(mixed(1), 0.43, { within: 1e-12, because: 'by hand' })
  near(mixed(2), 0.370_279_220_6, { within: 1e-10, because: 'ten decimals' })
  expect(() => mixedReflectance([0.5], { primaries, n: 1 })).toThrow('primaries: expected 2, got 4')
})

import { type Matrix, type Triple, times, type Xyz } from './space.ts'

/** @source oklab */
const LMS_FROM_XYZ65: Matrix = [
  [0.818_933_010_1, 0.361_866_742_4, -0.128_859_713_7],
  [0.032_984_543_6, 0.929_311_871_5, 0.036_145_638_7],
  [0.048_200_301_8, 0.264_366_269_1, 0.633_851_707],
]

/** @source oklab */
const LAB_FROM_ROOTS: Matrix = [
  [0.210_454_255_3, 0.793_617_785, -0.004_072_046_8],
  [1.977_998_495_1, -2.428_592_205, 0.450_593_709_9],
  [0.025_904_037_1, 0.782_771_766_2, -0.808_675_766],
]

/**
 * OKLab, by its author's own matrices: even steps in it look even, which suits picking colours.
 *
 * @source oklab
 */
export function oklabFromXyz65(xyz: Xyz): Triple {
  const [l, m, s] = times(LMS_FROM_XYZ65, xyz)
  return times(LAB_FROM_ROOTS, [Math.cbrt(l), Math.cbrt(m), Math.cbrt(s)])
}

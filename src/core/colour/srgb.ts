import { linearLight } from '../inspection/linearLight.ts'
import { labFromXyz50, xyz50FromLab } from './lab.ts'
import { type Lab, type Matrix, type Srgb, type Triple, times, type Xyz } from './space.ts'

/**
 * Linear sRGB to XYZ under D65.
 *
 * @source css-color4
 */
const XYZ65_FROM_LINEAR: Matrix = [
  [506_752 / 1_228_815, 87_881 / 245_763, 12_673 / 70_218],
  [87_098 / 409_605, 175_762 / 245_763, 12_673 / 175_545],
  [7918 / 409_605, 87_881 / 737_289, 1_001_167 / 1_053_270],
]

/**
 * What an eye used to D65 sees, for one used to D50.
 *
 * @source bradford
 */
const XYZ50_FROM_XYZ65: Matrix = [
  [1.047_929_79, 0.022_946_87, -0.050_192_27],
  [0.029_627_81, 0.990_434_43, -0.017_073_8],
  [-0.009_243_04, 0.015_055_19, 0.751_874_28],
]

const LINEAR_FROM_XYZ65 = inverse(XYZ65_FROM_LINEAR)
const XYZ65_FROM_XYZ50 = inverse(XYZ50_FROM_XYZ65)

/** XYZ under D50 to linear sRGB, which may lie beyond 0 … 1. */
export const LINEAR_FROM_XYZ50: Matrix = product(LINEAR_FROM_XYZ65, XYZ65_FROM_XYZ50)

/**
 * XYZ under D65, white at Y = 1.
 *
 * @source css-color4, srgb
 */
export function xyz65FromSrgb([red, green, blue]: Srgb): Xyz {
  return times(XYZ65_FROM_LINEAR, [linearLight(red), linearLight(green), linearLight(blue)])
}

/** The same as an eye used to D50 sees it. @source bradford */
export function xyz50FromSrgb(srgb: Srgb): Xyz {
  return times(XYZ50_FROM_XYZ65, xyz65FromSrgb(srgb))
}

/** CIELAB under D50: L 0 … 100. */
export function labFromSrgb(srgb: Srgb): Lab {
  return labFromXyz50(xyz50FromSrgb(srgb))
}

const LIGHT: Float64Array = Float64Array.from({ length: 256 }, (_, value) =>
  linearLight(value / 255),
)
const XYZ50_FROM_LINEAR: Matrix = product(XYZ50_FROM_XYZ65, XYZ65_FROM_LINEAR)

/** CIELAB of stored sRGB in whole levels 0 … 255, for whoever asks for a million of them. */
export function labFromLevels(red: number, green: number, blue: number): Lab {
  return labFromXyz50(
    times(XYZ50_FROM_LINEAR, [LIGHT[red] ?? 0, LIGHT[green] ?? 0, LIGHT[blue] ?? 0]),
  )
}

/** The nearest that a screen can show, each part cut at 0 and 1. */
export function srgbFromXyz50(xyz: Xyz): Srgb {
  const [red, green, blue] = times(LINEAR_FROM_XYZ65, times(XYZ65_FROM_XYZ50, xyz))
  return [storedLight(red), storedLight(green), storedLight(blue)]
}

/** The nearest that a screen can show of a CIELAB colour under D50. */
export function srgbFromLab(lab: Lab): Srgb {
  return srgbFromXyz50(xyz50FromLab(lab))
}

/**
 * The stored value of linear light, both 0 … 1; light beyond is cut.
 *
 * @source srgb
 */
export function storedLight(light: number): number {
  if (!(light > 0)) return 0
  if (light >= 1) return 1
  return light <= 0.003_130_8 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055
}

function inverse([[a, b, c], [d, e, f], [g, h, i]]: Matrix): Matrix {
  const [A, B, C] = [e * i - f * h, f * g - d * i, d * h - e * g]
  const det = a * A + b * B + c * C
  return [
    [A / det, (c * h - b * i) / det, (b * f - c * e) / det],
    [B / det, (a * i - c * g) / det, (c * d - a * f) / det],
    [C / det, (b * g - a * h) / det, (a * e - b * d) / det],
  ]
}

/** The matrix that does what `second` does and then what `first` does. */
function product(first: Matrix, second: Matrix): Matrix {
  const [a, b, c] = second
  const row = ([x, y, z]: Triple): Triple => [
    x * a[0] + y * b[0] + z * c[0],
    x * a[1] + y * b[1] + z * c[1],
    x * a[2] + y * b[2] + z * c[2],
  ]
  const [one, two, three] = first
  return [row(one), row(two), row(three)]
}

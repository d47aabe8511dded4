import type { Lab, Xyz } from './space.ts'

/**
 * White of D50 by its chromaticity 0.3457, 0.3585.
 *
 * @source cie-lab
 */
export const WHITE_D50: Xyz = [0.3457 / 0.3585, 1, (1 - 0.3457 - 0.3585) / 0.3585]

const EPSILON = 216 / 24_389
const KAPPA = 24_389 / 27

/**
 * CIELAB: L = 116 f(Y) − 16, a = 500 (f(X) − f(Y)), b = 200 (f(Y) − f(Z)), each against white, with
 * f(t) = t^(1/3), near black (24389/27 t + 16)/116.
 *
 * @source cie-lab
 */
export function labFromXyz50([x, y, z]: Xyz): Lab {
  const [whiteX, whiteY, whiteZ] = WHITE_D50
  const [fx, fy, fz] = [labRoot(x / whiteX), labRoot(y / whiteY), labRoot(z / whiteZ)]
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)]
}

/**
 * Back again: XYZ under D50, white at Y = 1; a little below 0 for colours that no light has.
 *
 * @source cie-lab
 */
export function xyz50FromLab([l, a, b]: Lab): Xyz {
  const fy = (l + 16) / 116
  const [whiteX, whiteY, whiteZ] = WHITE_D50
  return [whiteX * inverseF(fy + a / 500), whiteY * inverseF(fy), whiteZ * inverseF(fy - b / 200)]
}

/**
 * The f of CIELAB, of light against white.
 *
 * @source cie-lab
 */
export function labRoot(t: number): number {
  return t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116
}

/** How fast `labRoot` rises with t. */
export function labRootSlope(t: number): number {
  return t > EPSILON ? 1 / (3 * Math.cbrt(t) ** 2) : KAPPA / 116
}

function inverseF(value: number): number {
  return value ** 3 > EPSILON ? value ** 3 : (116 * value - 16) / KAPPA
}

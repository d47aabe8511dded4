import { expectIn, type Range } from '../units/range.ts'

/** Of a solid: with none there is no tint of it. */
const SOLID: Range = { name: 'solid', low: 0.001, high: 10, unit: 'D' }

/** A tint's density and the solid's, both above the paper's own. */
type Densities = Readonly<{ tint: number; solid: number }>

/**
 * The share of paper that a tint covers, from densities: a = (1 − 10^(−Dt/n)) / (1 − 10^(−Ds/n)).
 * n = 1 is Murray's and Davies's; light that wanders in the paper makes n larger.
 *
 * @param densities Dt = tint, a little below 0 where it is read paler than paper; Ds = solid, 0.001 … 10 D
 * @param n 1 … 5; about 1.7 for coated paper
 * @returns 0 for paper, 1 for the solid; beyond where the tint was read so
 * @throws RangeError outside these ranges
 * @source murray-davies, yule-nielsen
 */
export function coveredShare(
  { tint, solid }: Densities,
  { n = 1 }: Readonly<{ n?: number }> = {},
): number {
  expectIn(n, { name: 'n', low: 1, high: 5, unit: '' })
  expectIn(tint, { ...SOLID, name: 'tint', low: -1 })
  expectIn(solid, SOLID)
  return (1 - 10 ** (-tint / n)) / (1 - 10 ** (-solid / n))
}

/**
 * The density of a tint that covers a share: D = −log10(1 − a (1 − 10^−Ds)).
 *
 * @param coveredShare a, 0 … 1; Ds = solid, 0.001 … 10 D
 * @returns D above the paper's own
 * @throws RangeError outside these ranges
 * @source murray-davies
 */
export function tintDensity(coveredShare: number, { solid }: Readonly<{ solid: number }>): number {
  expectIn(coveredShare, { name: 'coveredShare', low: 0, high: 1, unit: '' })
  expectIn(solid, SOLID)
  return -Math.log10(1 - coveredShare * (1 - 10 ** -solid))
}

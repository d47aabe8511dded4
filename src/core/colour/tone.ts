import { expectIn } from '../units/range.ts'

/** A tint's density and the solid's, both above the paper's own. */
type Densities = Readonly<{ tint: number; solid: number }>

/**
 * The share of paper that a tint covers, from densities: a = (1 − 10^(−Dt/n)) / (1 − 10^(−Ds/n)).
 * n = 1 is Murray's and Davies's; light that wanders in the paper makes n larger.
 *
 * @param n 1 … 5; about 1.7 for coated paper
 * @source murray-davies, yule-nielsen
 */
export function coveredShare(
  { tint, solid }: Densities,
  { n = 1 }: Readonly<{ n?: number }> = {},
): number {
  expectIn(n, { name: 'n', low: 1, high: 5, unit: '' })
  return (1 - 10 ** (-tint / n)) / (1 - 10 ** (-solid / n))
}

/**
 * The density of a tint that covers a share: D = −log10(1 − a (1 − 10^−Ds)).
 *
 * @source murray-davies
 */
export function tintDensity(coveredShare: number, { solid }: Readonly<{ solid: number }>): number {
  return -Math.log10(1 - coveredShare * (1 - 10 ** -solid))
}

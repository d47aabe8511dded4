import { expectIn } from '../units/range.ts'

/**
 * Shares of paper that carry each combination of inks where dots fall on each other by chance: the
 * product over inks of a, or 1 − a where that ink is not.
 *
 * @param shares a of each ink, 0 … 1
 * @returns one weight for each of the 2^k combinations; bit i of the place says that ink i is there
 * @source demichel
 */
export function demichelWeights(shares: readonly number[]): Float64Array {
  let weights = Float64Array.of(1)
  for (const share of shares) {
    const next = new Float64Array(2 * weights.length)
    weights.forEach((weight, at) => {
      next[at] = weight * (1 - share)
      next[at + weights.length] = weight * share
    })
    weights = next
  }
  return weights
}

/**
 * What a print reflects: R^(1/n) = Σ w R_j^(1/n) over the combinations of inks; n = 1 is Neugebauer's
 * mean, a larger n Yule's and Nielsen's for light that wanders in the paper.
 *
 * @param shares a of each ink, 0 … 1
 * @param of primaries: the reflectance of each combination, 0 … 1, in the order of `demichelWeights`;
 * n: 1 … 5, about 1.7 for coated paper
 * @returns 0 … 1
 * @throws RangeError for another number of primaries than 2^inks, and for n outside its range
 * @source neugebauer, yule-nielsen
 */
export function mixedReflectance(
  shares: readonly number[],
  { primaries, n }: Readonly<{ primaries: readonly number[]; n: number }>,
): number {
  expectIn(n, { name: 'n', low: 1, high: 5, unit: '' })
  const weights = demichelWeights(shares)
  if (weights.length !== primaries.length) {
    throw new RangeError(`primaries: expected ${weights.length}, got ${primaries.length}`)
  }
  return weights.reduce((sum, weight, at) => sum + weight * (primaries[at] ?? 0) ** (1 / n), 0) ** n
}

/** Coefficients and what is left; null where the rows do not determine them. */
export type LeastSquares = Readonly<{
  coefficients: readonly number[]
  residuals: readonly number[]
}>

/** A pivot below this part of its diagonal means a column that the others already make up. */
const DEPENDENT = 1e-9

/**
 * The coefficients c that make the sum of squares of (rows · c − values) least.
 *
 * Normal equations by a Cholesky factor: right for the few well-scaled columns of a surface, whose
 * terms run over −1 … 1; not meant for high polynomials.
 *
 * @param rows one per value, all of the same length
 * @returns null when there are too few rows or their columns depend on each other
 * @source least-squares
 */
export function leastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
): LeastSquares | null {
  const terms = rows[0]?.length ?? 0
  if (rows.length < terms || terms === 0) return null
  const sumOver = (of: (row: readonly number[], at: number) => number): number =>
    rows.reduce((sum, row, at) => sum + of(row, at), 0)
  const entry = (list: readonly number[] | undefined, at: number): number => list?.[at] ?? 0

  // Rᵀ R = XᵀX, R upper triangular, kept as rows of its transpose.
  const factor: number[][] = []
  for (let i = 0; i < terms; i++) {
    const line: number[] = []
    for (let j = 0; j <= i; j++) {
      const product = sumOver((row) => entry(row, i) * entry(row, j))
      const known = dot(line, factor[j] ?? line, j)
      if (j < i) line.push((product - known) / entry(factor[j], j))
      else if (product - known > DEPENDENT * product) line.push(Math.sqrt(product - known))
      else return null
    }
    factor.push(line)
  }

  const forward: number[] = []
  for (let i = 0; i < terms; i++) {
    const right = sumOver((row, at) => entry(row, i) * entry(values, at))
    forward.push((right - dot(factor[i] ?? [], forward, i)) / entry(factor[i], i))
  }
  const coefficients = new Array<number>(terms).fill(0)
  for (let i = terms - 1; i >= 0; i--) {
    let right = entry(forward, i)
    for (let j = i + 1; j < terms; j++) right -= entry(factor[j], i) * entry(coefficients, j)
    coefficients[i] = right / entry(factor[i], i)
  }
  const residuals = rows.map((row, at) => entry(values, at) - dot(row, coefficients, terms))
  return { coefficients, residuals }
}

function dot(a: readonly number[], b: readonly number[], count: number): number {
  let sum = 0
  for (let at = 0; at < count; at++) sum += (a[at] ?? 0) * (b[at] ?? 0)
  return sum
}

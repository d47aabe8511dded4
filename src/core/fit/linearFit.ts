/** What a linear fit found. */
export type LinearFit = Readonly<{
  coefficients: readonly number[]
  /** Value less what the fit gives, one for each row. */
  residuals: readonly number[]
  /** (XᵀX)⁻¹: the covariance of the coefficients where every value has an sd of 1. */
  spread: readonly (readonly number[])[]
  /** Rows beyond those that the coefficients use up. */
  spare: number
}>

/** A column that keeps less than this part of its length is one the others already make up. */
const DEPENDENT = 1e-11

/**
 * The coefficients c that make the sum of squares of (rows · c − values) least.
 *
 * Householder's reflections turn the rows into an upper triangle R, so that nothing is squared on
 * the way and half the digits are not lost as by normal equations. Rows and values of unlike
 * doubt are divided by their sd beforehand.
 *
 * @param rows one for each value, all of the same length
 * @returns null where there are fewer rows than columns, or the columns depend on each other
 * @source least-squares
 */
export function linearFit(
  rows: readonly (readonly number[])[],
  values: readonly number[],
): LinearFit | null {
  const terms = rows[0]?.length ?? 0
  if (terms === 0 || rows.length < terms) return null
  const columns = Array.from({ length: terms }, (_, term) =>
    Float64Array.from(rows, (row) => row[term] ?? Number.NaN),
  )
  const right = Float64Array.from(values)
  for (const [at, column] of columns.entries()) {
    const whole = length(column, 0)
    const left = length(column, at)
    if (!(left > DEPENDENT * whole)) return null
    reflect(column, [...columns.slice(at + 1), right], { at, left })
  }
  const inverse = upperInverse(columns)
  const coefficients = inverse.map((line) => dot(line, right))
  return {
    coefficients,
    residuals: rows.map((row, at) => (values[at] ?? Number.NaN) - dot(row, coefficients)),
    spread: inverse.map((one) => inverse.map((other) => dot(one, other))),
    spare: rows.length - terms,
  }
}

/** Sum of products over as many entries as the first has. */
export function dot(one: ArrayLike<number>, other: ArrayLike<number>): number {
  let sum = 0
  for (let at = 0; at < one.length; at += 1) sum += (one[at] ?? 0) * (other[at] ?? 0)
  return sum
}

function length(column: Float64Array, from: number): number {
  return Math.hypot(...column.subarray(from))
}

/** Mirrors the column onto its entry `at`, and the others along with it. */
function reflect(
  column: Float64Array,
  others: readonly Float64Array[],
  { at, left }: Readonly<{ at: number; left: number }>,
): void {
  const corner = column[at] ?? 0
  const onto = corner > 0 ? -left : left
  const mirror = column.slice(at)
  mirror[0] = corner - onto
  const half = left * (left + Math.abs(corner)) // half the mirror's squared length
  for (const other of others) {
    const part = dot(mirror, other.subarray(at)) / half
    for (const [step, entry] of mirror.entries()) {
      other[at + step] = (other[at + step] ?? 0) - part * entry
    }
  }
  column.fill(0, at)
  column[at] = onto
}

/** Lines of R⁻¹, R being what is left above the diagonal of the columns. */
function upperInverse(columns: readonly Float64Array[]): number[][] {
  const size = columns.length
  const inverse = Array.from({ length: size }, () => new Array<number>(size).fill(0))
  for (let to = 0; to < size; to += 1) {
    for (let from = to; from >= 0; from -= 1) {
      let sum = from === to ? 1 : 0
      for (let at = from + 1; at <= to; at += 1) {
        sum -= (columns[at]?.[from] ?? 0) * (inverse[at]?.[to] ?? 0)
      }
      const line = inverse[from]
      if (line !== undefined) line[to] = sum / (columns[from]?.[from] ?? Number.NaN)
    }
  }
  return inverse
}

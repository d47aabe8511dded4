/** Sums of a weighted linear least-squares problem, row by row, and its answer. */
export type LeastSquares = Readonly<{
  /** @param row as many numbers as there are unknowns */
  add: (row: Float64Array, target: number, weight: number) => void
  /** Pulls an unknown towards a value. */
  hold: (at: number, pull: Readonly<{ towards: number; weight: number }>) => void
  /** null where the rows do not fix the unknowns. */
  solve: () => Float64Array | null
}>

export function leastSquares(count: number): LeastSquares {
  const normal = new Float64Array(count * count)
  const right = new Float64Array(count)
  return {
    add: (row, target, weight) => {
      for (let i = 0; i < count; i += 1) {
        const scaled = weight * row[i]
        if (scaled === 0) continue
        right[i] += scaled * target
        const line = i * count
        for (let j = 0; j <= i; j += 1) normal[line + j] += scaled * row[j]
      }
    },
    hold: (at, { towards, weight }) => {
      normal[at * count + at] += weight
      right[at] += weight * towards
    },
    solve: () => (factorise(normal, count) ? substituted(normal, right) : null),
  }
}

/** Cholesky in place, lower triangle. */
function factorise(matrix: Float64Array, count: number): boolean {
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = matrix[i * count + j]
      for (let k = 0; k < j; k += 1) sum -= matrix[i * count + k] * matrix[j * count + k]
      if (i > j) matrix[i * count + j] = sum / matrix[j * count + j]
      else if (sum > 1e-14 * Math.abs(matrix[i * count + i])) matrix[i * count + i] = Math.sqrt(sum)
      else return false
    }
  }
  return true
}

function substituted(factor: Float64Array, right: Float64Array): Float64Array {
  const count = right.length
  const x = Float64Array.from(right)
  for (let i = 0; i < count; i += 1) {
    for (let k = 0; k < i; k += 1) x[i] -= factor[i * count + k] * x[k]
    x[i] /= factor[i * count + i]
  }
  for (let i = count - 1; i >= 0; i -= 1) {
    for (let k = i + 1; k < count; k += 1) x[i] -= factor[k * count + i] * x[k]
    x[i] /= factor[i * count + i]
  }
  return x
}

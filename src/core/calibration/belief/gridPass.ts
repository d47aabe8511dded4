import { factorOf, type Gaussian } from './gaussian.ts'

/** A line of points along the last number: first, first + step, … */
export type Line = Readonly<{ first: number; step: number; count: number }>

/**
 * How likely the reading is where the touched numbers are z: exp(log(z)) + floor. The floor is the
 * part that is the same for every z (all a slip of the pen): there the prior stays as it was.
 */
export type Likelihood = Readonly<{
  log: (z: Float64Array) => number
  floor: number
  /**
   * exp(log) along a line, all numbers but the last from z, into `out` from a place on; false, and
   * nothing is put there, where all of it is 0.
   */
  along?: (
    z: Float64Array,
    line: Line,
    into: Readonly<{ out: Float64Array; from: number }>,
  ) => boolean
}>

/** A grid over the unit normal: `side` places on each of `size` axes, the last axis running first. */
export type Grid = Readonly<{
  size: number
  side: number
  axis: Float64Array
  spacing: number
  /** The places on all axes but the last, row after row. */
  rows: Float64Array
}>

/** What one look at the grid found. */
export type Look = Readonly<{
  /** Moments in the grid's own coordinates, u. */
  mean: Float64Array
  cov: Float64Array
  /** z = place.mean + factor u. */
  factor: Float64Array
  /** log of the reading's chance under the prior, the floor left out. */
  logChance: number
}>

/** @param of side: places on each axis, odd; reach: how far it goes either way, sd */
export function gridOf(
  size: number,
  { side, reach }: Readonly<{ side: number; reach: number }>,
): Grid {
  const spacing = (2 * reach) / (side - 1)
  const axis = Float64Array.from({ length: side }, (_, at) => at * spacing - reach)
  let rows: readonly (readonly number[])[] = [[]]
  for (let i = 1; i < size; i++) rows = rows.flatMap((row) => [...axis].map((u) => [...row, u]))
  return { size, side, axis, spacing, rows: Float64Array.from(rows.flat()) }
}

/**
 * The moments of prior × likelihood on a grid laid over a place.
 *
 * @param whitener inverse of the factor of the prior's covariance
 * @returns null where no point of the grid has any weight
 */
export function lookOver(
  grid: Grid,
  {
    prior,
    whitener,
    place,
    likelihood,
  }: Readonly<{
    prior: Gaussian
    whitener: Float64Array
    place: Gaussian
    likelihood: Likelihood
  }>,
): Look | null {
  const { size, spacing } = grid
  const factor = factorOf(place.cov, size)
  // A grid point u stands for z = centre + factor u, and under the prior for y = start + turn u.
  const turn = product(whitener, factor, size)
  const gap = place.mean.map((value, i) => value - (prior.mean[i] ?? 0))
  const start = gap.map((_, i) => rowDot(whitener, [i, size], gap))
  const seen = chancesOver(grid, { centre: place.mean, factor, likelihood })
  if (seen === null) return null
  const { total, least, mean, cov } = momentsOver(grid, { ...seen, start, turn })
  if (!(total > 0)) return null
  let logTurn = 0
  for (let i = 0; i < size; i++) logTurn += Math.log(turn[i * (size + 1)] ?? 1)
  const cell = size * (Math.log(spacing) - 0.5 * Math.log(2 * Math.PI))
  const logChance = seen.most - 0.5 * least + Math.log(total) + logTurn + cell
  return { mean, cov, factor, logChance }
}

/** Of all points, row by row; `bare`: rows where there is none. exp(most) is left out of them. */
type Chances = Readonly<{ chances: Float64Array; bare: Uint8Array; most: number }>

/** The likelihood at every point, as a part of the greatest where only its log is known. */
function chancesOver(
  { size, side, axis, spacing, rows }: Grid,
  {
    centre,
    factor,
    likelihood,
  }: Readonly<{ centre: Float64Array; factor: Float64Array; likelihood: Likelihood }>,
): Chances | null {
  const last = size - 1
  const bare = new Uint8Array(side ** last)
  const chances = new Float64Array(side ** size)
  const z = new Float64Array(size)
  const along = factor[last * (size + 1)] ?? 0
  for (let at = 0, row = 0; at < chances.length; at += side, row += last) {
    let base = centre[last] ?? 0
    for (let i = 0; i < last; i++) {
      let value = centre[i] ?? 0
      for (let j = 0; j <= i; j++) value += (factor[i * size + j] ?? 0) * (rows[row + j] ?? 0)
      z[i] = value
      base += (factor[last * size + i] ?? 0) * (rows[row + i] ?? 0)
    }
    if (likelihood.along !== undefined) {
      const line = { first: base + along * (axis[0] ?? 0), step: along * spacing, count: side }
      if (!likelihood.along(z, line, { out: chances, from: at })) bare[at / side] = 1
      continue
    }
    for (let k = 0; k < side; k++) {
      z[last] = base + along * (axis[k] ?? 0)
      chances[at + k] = likelihood.log(z)
    }
  }
  if (likelihood.along !== undefined) return { chances, bare, most: 0 }
  let most = Number.NEGATIVE_INFINITY
  for (const log of chances) if (log > most) most = log
  if (most === Number.NEGATIVE_INFINITY) return null
  for (let at = 0; at < chances.length; at++) chances[at] = Math.exp((chances[at] ?? 0) - most)
  return { chances, bare, most }
}

/**
 * Sums of chance × exp(−(y² − least)/2) over the grid, y = start + turn u, and their moments. Along
 * a row the prior is a Gaussian of evenly spaced points: each follows from the one before.
 */
function momentsOver(
  { size, side, axis, spacing, rows }: Grid,
  { chances, bare, start, turn }: Chances & Readonly<{ start: Float64Array; turn: Float64Array }>,
): Readonly<{ total: number; least: number; mean: Float64Array; cov: Float64Array }> {
  const last = size - 1
  const count = chances.length / side
  const step = (turn[last * (size + 1)] ?? 0) * spacing
  // Of each row: where along it y² is least, y there, and y² of all numbers there.
  const nearest = new Int32Array(count)
  const offset = new Float64Array(count)
  const square = new Float64Array(count)
  let least = Number.POSITIVE_INFINITY
  for (let line = 0, row = 0; line < count; line++, row += last) {
    let sum = 0
    let base = (start[last] ?? 0) + (turn[last * (size + 1)] ?? 0) * (axis[0] ?? 0)
    for (let i = 0; i < last; i++) {
      let y = start[i] ?? 0
      for (let j = 0; j <= i; j++) y += (turn[i * size + j] ?? 0) * (rows[row + j] ?? 0)
      sum += y * y
      base += (turn[last * size + i] ?? 0) * (rows[row + i] ?? 0)
    }
    const at = Math.max(0, Math.min(side - 1, Math.round(-base / step)))
    const y = base + at * step
    nearest[line] = at
    offset[line] = y
    square[line] = sum + y * y
    if (sum + y * y < least) least = sum + y * y
  }
  const fall = Math.exp(-step * step)
  const mean = new Float64Array(size)
  const cov = new Float64Array(size * size)
  let total = 0
  for (let line = 0, row = 0; line < count; line++, row += last) {
    if (bare[line] === 1) continue
    const peak = Math.exp(-0.5 * ((square[line] ?? 0) - least))
    if (peak === 0) continue
    const from = line * side
    const at = nearest[line] ?? 0
    const y = offset[line] ?? 0
    let weight = peak * (chances[from + at] ?? 0)
    let u = axis[at] ?? 0
    let [s0, s1, s2] = [weight, weight * u, weight * u * u]
    let prior = peak
    let ratio = Math.exp(-step * (y + 0.5 * step))
    for (let k = at + 1; k < side; k++) {
      prior *= ratio
      ratio *= fall
      u = axis[k] ?? 0
      weight = prior * (chances[from + k] ?? 0)
      s0 += weight
      s1 += weight * u
      s2 += weight * u * u
    }
    prior = peak
    ratio = Math.exp(step * (y - 0.5 * step))
    for (let k = at - 1; k >= 0; k--) {
      prior *= ratio
      ratio *= fall
      u = axis[k] ?? 0
      weight = prior * (chances[from + k] ?? 0)
      s0 += weight
      s1 += weight * u
      s2 += weight * u * u
    }
    total += s0
    mean[last] = (mean[last] ?? 0) + s1
    cov[last * (size + 1)] = (cov[last * (size + 1)] ?? 0) + s2
    for (let i = 0; i < last; i++) {
      const ui = rows[row + i] ?? 0
      mean[i] = (mean[i] ?? 0) + s0 * ui
      cov[last * size + i] = (cov[last * size + i] ?? 0) + s1 * ui
      for (let j = 0; j <= i; j++) {
        cov[i * size + j] = (cov[i * size + j] ?? 0) + s0 * ui * (rows[row + j] ?? 0)
      }
    }
  }
  for (let i = 0; i < size; i++) mean[i] = (mean[i] ?? 0) / total
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      const value = (cov[i * size + j] ?? 0) / total - (mean[i] ?? 0) * (mean[j] ?? 0)
      cov[i * size + j] = value
      cov[j * size + i] = value
    }
  }
  return { total, least, mean, cov }
}

/** Product of two square matrices, row after row. */
export function product(a: Float64Array, b: Float64Array, size: number): Float64Array {
  const result = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      let sum = 0
      for (let k = 0; k < size; k++) sum += (a[i * size + k] ?? 0) * (b[k * size + j] ?? 0)
      result[i * size + j] = sum
    }
  }
  return result
}

/** One row of a matrix times a column. */
export function rowDot(
  matrix: Float64Array,
  [row, size]: readonly [number, number],
  values: Float64Array,
): number {
  let sum = 0
  for (let k = 0; k < size; k++) sum += (matrix[row * size + k] ?? 0) * (values[k] ?? 0)
  return sum
}

import { collapsed, factorOf, type Gaussian, inverseFactorOf } from './gaussian.ts'

/**
 * How likely the reading is where the touched numbers are z: exp(log(z)) + floor. The floor is the
 * part that is the same for every z (all a slip of the pen): there the prior stays as it was.
 */
export type Likelihood = Readonly<{ log: (z: Float64Array) => number; floor: number }>

/** A belief after the weighing, and how likely the reading was before it. */
export type Weighed = Readonly<{ after: Gaussian; logChance: number; passes: number }>

/** A grid over the unit normal: points one after another, `size` numbers each. */
type Grid = Readonly<{ size: number; points: Float64Array; spacing: number }>

/** How far a grid reaches, sd. */
const REACH = 4.2
/** Log of a weight that no sum would notice. */
const NEGLIGIBLE = -30
const MOST_PASSES = 12
/**
 * The grid fits when the mean is this near its centre, in its own sd, and variances are within twice
 * this of its own: what is summed on it no longer depends on where exactly it lies.
 */
const SETTLED = 0.1

/** For one, two, three numbers. */
const GRIDS: readonly Grid[] = [gridOf(1, 41), gridOf(2, 41), gridOf(3, 17)]
/** Where three numbers first look for the weight: this only places the finer grid. */
const FIRST_LOOK: Grid = gridOf(3, 11)

/**
 * The moments of prior × likelihood on a grid that is moved and scaled until it fits them.
 *
 * The grid has 17³ points for three numbers, 41² for two, 41 for one, over ±4.2 sd; its first place
 * is the prior's own mean and spread (with 11³ points, for a first look). One pass is too coarse
 * where the reading is sharp, so the grid goes to where the last pass found the weight, until mean
 * and spread settle.
 *
 * @param prior one to three numbers
 * @param start where the first grid is laid, where a guess is better than the prior
 * @returns mean and covariance after the reading; log of the reading's chance under the prior
 * @throws RangeError where the likelihood is not a number
 * @source moment-matching
 */
export function weigh(
  prior: Gaussian,
  likelihood: Likelihood,
  { start = prior }: Readonly<{ start?: Gaussian }> = {},
): Weighed {
  const size = prior.mean.length
  const grid = GRIDS[size - 1]
  if (grid === undefined) throw new RangeError(`prior: expected 1 to 3 numbers, got ${size}`)
  const whitener = inverseFactorOf(factorOf(prior.cov, size), size)
  let place = start
  for (let passes = 1; ; passes++) {
    const looking = passes === 1 && size === 3
    const pass = onePass(looking ? FIRST_LOOK : grid, { prior, whitener, place, likelihood })
    if (pass === null) {
      if (likelihood.floor > 0)
        return { after: prior, logChance: Math.log(likelihood.floor), passes }
      throw new RangeError('likelihood: expected above 0 somewhere on the grid, got 0 or no number')
    }
    if ((pass.off < 1 && !looking) || passes === MOST_PASSES) {
      return { ...withFloor(pass, { prior, floor: likelihood.floor }), passes }
    }
    place = pass.next
  }
}

/** The reading may have been a slip altogether: the prior joins in with that part's share. */
function withFloor(
  { found, logChance }: Readonly<{ found: Gaussian; logChance: number }>,
  { prior, floor }: Readonly<{ prior: Gaussian; floor: number }>,
): Readonly<{ after: Gaussian; logChance: number }> {
  const whole = Math.exp(logChance) + floor
  const slip = floor / whole
  if (!(slip > 1e-9)) return { after: found, logChance }
  const parts = [
    { share: 1 - slip, gaussian: found },
    { share: slip, gaussian: prior },
  ]
  return { after: collapsed(parts), logChance: Math.log(whole) }
}

type Pass = Readonly<{
  prior: Gaussian
  /** Inverse of the factor of the prior's covariance. */
  whitener: Float64Array
  place: Gaussian
  likelihood: Likelihood
}>

function onePass(
  { size, points, spacing }: Grid,
  { prior, whitener, place, likelihood }: Pass,
): { found: Gaussian; next: Gaussian; off: number; logChance: number } | null {
  const factor = factorOf(place.cov, size)
  // A grid point u stands for z = centre + factor u, and under the prior for y = start + turn u.
  const turn = product(whitener, factor, size)
  const gap = place.mean.map((value, i) => value - (prior.mean[i] ?? 0))
  const start = gap.map((_, i) => rowDot(whitener, [i, size], gap))
  const z = new Float64Array(size)
  const weights = new Float64Array(points.length / size)
  let most = Number.NEGATIVE_INFINITY
  for (let at = 0, from = 0; at < weights.length; at++, from += size) {
    let square = 0
    for (let i = 0; i < size; i++) {
      let value = place.mean[i] ?? 0
      let y = start[i] ?? 0
      for (let j = 0; j <= i; j++) {
        const u = points[from + j] ?? 0
        value += (factor[i * size + j] ?? 0) * u
        y += (turn[i * size + j] ?? 0) * u
      }
      z[i] = value
      square += y * y
    }
    const weight = likelihood.log(z) - 0.5 * square
    weights[at] = weight
    if (weight > most) most = weight
  }
  if (most === Number.NEGATIVE_INFINITY) return null
  const { total, mean, cov } = moments(points, { size, weights, most })
  let logTurn = 0
  for (let i = 0; i < size; i++) logTurn += Math.log(turn[i * (size + 1)] ?? 1)
  const found = placed(place.mean, { factor, mean, cov })
  // Where all weight fell on one point, the next grid covers that point's cell.
  const cell = cov.map((value, at) => value + (at % (size + 1) === 0 ? spacing ** 2 / 12 : 0))
  const off = Math.max(
    ...mean.map((value) => Math.abs(value) / SETTLED),
    ...cell.map((value, at) => Math.abs(value - (at % (size + 1) === 0 ? 1 : 0)) / (2 * SETTLED)),
  )
  return {
    found,
    next: placed(place.mean, { factor, mean, cov: cell }),
    off,
    logChance:
      most + Math.log(total) + logTurn + size * (Math.log(spacing) - 0.5 * Math.log(2 * Math.PI)),
  }
}

/** Moments in the grid's own coordinates. */
function moments(
  points: Float64Array,
  { size, weights, most }: Readonly<{ size: number; weights: Float64Array; most: number }>,
): { total: number; mean: Float64Array; cov: Float64Array } {
  const mean = new Float64Array(size)
  const cov = new Float64Array(size * size)
  let total = 0
  for (let at = 0, from = 0; at < weights.length; at++, from += size) {
    const log = (weights[at] ?? 0) - most
    if (log < NEGLIGIBLE) continue
    const weight = Math.exp(log)
    total += weight
    for (let i = 0; i < size; i++) {
      const part = weight * (points[from + i] ?? 0)
      mean[i] = (mean[i] ?? 0) + part
      for (let j = 0; j <= i; j++) {
        cov[i * size + j] = (cov[i * size + j] ?? 0) + part * (points[from + j] ?? 0)
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
  return { total, mean, cov }
}

/** Moments of the grid's coordinates as moments of the numbers: centre + F m, F S Fᵀ. */
function placed(
  centre: Float64Array,
  { factor, mean, cov }: Readonly<{ factor: Float64Array; mean: Float64Array; cov: Float64Array }>,
): Gaussian {
  const size = centre.length
  const half = product(factor, cov, size)
  const whole = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      let sum = 0
      for (let k = 0; k < size; k++) sum += (half[i * size + k] ?? 0) * (factor[j * size + k] ?? 0)
      whole[i * size + j] = sum
    }
  }
  return { mean: centre.map((value, i) => value + rowDot(factor, [i, size], mean)), cov: whole }
}

function product(a: Float64Array, b: Float64Array, size: number): Float64Array {
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

function rowDot(
  matrix: Float64Array,
  [row, size]: readonly [number, number],
  values: Float64Array,
): number {
  let sum = 0
  for (let k = 0; k < size; k++) sum += (matrix[row * size + k] ?? 0) * (values[k] ?? 0)
  return sum
}

function gridOf(size: number, side: number): Grid {
  const spacing = (2 * REACH) / (side - 1)
  const axis = Array.from({ length: side }, (_, at) => at * spacing - REACH)
  let points: readonly (readonly number[])[] = [[]]
  for (let i = 0; i < size; i++) points = points.flatMap((point) => axis.map((u) => [...point, u]))
  return { size, points: Float64Array.from(points.flat()), spacing }
}

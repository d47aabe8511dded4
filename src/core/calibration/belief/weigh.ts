import { collapsed, factorOf, type Gaussian, inverseFactorOf } from './gaussian.ts'
import {
  type Grid,
  gridOf,
  type Likelihood,
  type Look,
  lookOver,
  product,
  rowDot,
} from './gridPass.ts'

/** A belief after the weighing, and how likely the reading was before it. */
export type Weighed = Readonly<{ after: Gaussian; logChance: number; passes: number }>

/** How far a grid reaches, sd. */
export const REACH = 4.2
export const MOST_PASSES = 12
/**
 * The grid fits when the mean is this near its centre, in its own sd, and variances are within twice
 * this of its own: what is summed on it no longer depends on where exactly it lies.
 */
const SETTLED = 0.1

/** For one, two, three numbers. */
const GRIDS: readonly Grid[] = [
  gridOf(1, { side: 41, reach: REACH }),
  gridOf(2, { side: 41, reach: REACH }),
  gridOf(3, { side: 17, reach: REACH }),
]
/** Where three numbers first look for the weight: this only places the finer grid. */
const FIRST_LOOK: Grid = gridOf(3, { side: 11, reach: REACH })

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
export function withFloor(
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

type Fit = Readonly<{
  /** What the grid found. */
  found: Gaussian
  /** Where the next grid is laid. */
  next: Gaussian
  /** Below 1: the grid fits. */
  off: number
}>

function onePass(
  grid: Grid,
  pass: Parameters<typeof lookOver>[1],
): (Fit & Readonly<{ logChance: number }>) | null {
  const look = lookOver(grid, pass)
  if (look === null) return null
  const fit = fitted(look, { place: pass.place, spacing: grid.spacing })
  return { ...fit, logChance: look.logChance }
}

/** Moments in a grid's own coordinates as those of the numbers, and how well the grid fits them. */
export function fitted(
  { factor, mean, cov }: Omit<Look, 'logChance'>,
  { place, spacing }: Readonly<{ place: Gaussian; spacing: number }>,
): Fit {
  const size = mean.length
  const centre = place.mean
  // Where all weight fell on one point, the next grid covers that point's cell.
  const cell = cov.map((value, at) => value + (at % (size + 1) === 0 ? spacing ** 2 / 12 : 0))
  let off = 0
  for (const value of mean) off = Math.max(off, Math.abs(value) / SETTLED)
  cell.forEach((value, at) => {
    const own = at % (size + 1) === 0 ? 1 : 0
    off = Math.max(off, Math.abs(value - own) / (2 * SETTLED))
  })
  return {
    found: placed(centre, { factor, mean, cov }),
    next: placed(centre, { factor, mean, cov: cell }),
    off,
  }
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

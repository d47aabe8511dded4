import { factorOf, type Gaussian, inverseFactorOf, marginal } from './gaussian.ts'
import { answersOf, type Grading, type GradingParts, gradingParts } from './grades.ts'
import { gridOf } from './gridPass.ts'
import { EYE, groundShare } from './likelihood.ts'
import { normalDensity, quickNormalShare } from './normal.ts'
import { fitted, MOST_PASSES, REACH, type Weighed, withFloor } from './weigh.ts'

/** One graded patch: x is log10 of its dose in lu. */
export type PatchReading = Readonly<{ x: number; grading: Grading; lapse: number }>

/** Over hold and sound dose; what they make of the fog limit needs none. */
const GRID = gridOf(2, { side: 25, reach: REACH })

/**
 * The moments of hold, sound and fog limit after one graded patch.
 *
 * What a patch says of the fog limit is normal integrals, so for any hold and sound dose its
 * moments are known outright: only those two need a grid, which moves until it fits as in `weigh`.
 *
 * @param prior hold, sound, fog limit
 * @source moment-matching, grade-likelihood
 */
export function weighPatch(prior: Gaussian, { x, grading, lapse }: PatchReading): Weighed {
  const floor = lapse / answersOf(grading)
  const ground = marginal(prior, [0, 1])
  const fog = fogGiven(prior)
  const patch = { x, parts: gradingParts(grading), ground, fog, limit: x - (prior.mean[2] ?? 0) }
  let place = ground
  for (let passes = 1; ; passes++) {
    const factor = factorOf(place.cov, 2)
    const sums = sumsOver(patch, { centre: place.mean, factor })
    if (!(sums.total > 0)) return { after: prior, logChance: Math.log(floor), passes }
    const { found, next, off } = fitted({ ...sums, factor }, { place, spacing: GRID.spacing })
    if (off < 1 || passes === MOST_PASSES) {
      const [f00 = 0, , , f11 = 0] = factor
      const cell = (f00 * f11 * GRID.spacing ** 2 * fog.whitenerTurn) / (2 * Math.PI)
      const logChance = Math.log((1 - lapse) * sums.total * cell)
      const all = withFog(found, { sums, factor, prior })
      return { ...withFloor({ found: all, logChance }, { prior, floor }), passes }
    }
    place = next
  }
}

/** The fog limit for a given ground: its mean moves with the ground's own unit numbers y. */
type FogGiven = Readonly<{
  whitener: Float64Array
  /** Determinant of the whitener: density of the ground's prior at its middle, times 2π. */
  whitenerTurn: number
  /** Of the fog limit with y. */
  slope: readonly [number, number]
  variance: number
}>

function fogGiven(prior: Gaussian): FogGiven {
  const whitener = inverseFactorOf(factorOf(marginal(prior, [0, 1]).cov, 2), 2)
  const [w00 = 0, , w10 = 0, w11 = 0] = whitener
  const [withHold = 0, withSound = 0, own = 0] = prior.cov.subarray(6)
  const slope = [w00 * withHold, w10 * withHold + w11 * withSound] as const
  const variance = Math.max(0, own - slope[0] ** 2 - slope[1] ** 2)
  return { whitener, whitenerTurn: w00 * w11, slope, variance }
}

type Patch = Readonly<{
  x: number
  parts: GradingParts
  ground: Gaussian
  fog: FogGiven
  /** x less the fog limit's prior mean. */
  limit: number
}>

type Sums = Readonly<{
  total: number
  /** Of the grid's two coordinates. */
  mean: Float64Array
  cov: Float64Array
  /** Of the fog limit less its prior mean; its covariance with the grid's coordinates. */
  fogMean: number
  fogVariance: number
  fogWith: readonly [number, number]
}>

function sumsOver(
  { x, parts, ground, fog, limit }: Patch,
  { centre, factor }: Readonly<{ centre: Float64Array; factor: Float64Array }>,
): Sums {
  const { axis, side } = GRID
  const { whitener, slope, variance } = fog
  const [w00 = 0, , w10 = 0, w11 = 0] = whitener
  const [f00 = 0, , f10 = 0, f11 = 0] = factor
  const [hold0 = 0, sound0 = 0] = ground.mean
  const of = new Float64Array(3)
  let [total, a, b, aa, ab, bb, f, fa, fb, ff] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0]
  for (let i = 0; i < side; i++) {
    const u = axis[i] ?? 0
    const hold = (centre[0] ?? 0) + f00 * u
    const y0 = w00 * (hold - hold0)
    for (let j = 0; j < side; j++) {
      const v = axis[j] ?? 0
      const sound = (centre[1] ?? 0) + f10 * u + f11 * v
      const share = groundShare(parts.ground, (hold - x) / EYE.ground, (x - sound) / EYE.ground)
      if (share === 0) continue
      const y1 = w10 * (hold - hold0) + w11 * (sound - sound0)
      const weight = share * Math.exp(-0.5 * (y0 * y0 + y1 * y1))
      const mean = slope[0] * y0 + slope[1] * y1
      fogMoments(parts.marks, { mean, variance, limit, of })
      const w = weight * (of[0] ?? 0)
      const first = weight * (of[1] ?? 0)
      total += w
      a += w * u
      b += w * v
      aa += w * u * u
      ab += w * u * v
      bb += w * v * v
      f += first
      fa += first * u
      fb += first * v
      ff += weight * (of[2] ?? 0)
    }
  }
  const [ma, mb, mf] = [a / total, b / total, f / total]
  const both = ab / total - ma * mb
  return {
    total,
    mean: Float64Array.of(ma, mb),
    cov: Float64Array.of(aa / total - ma * ma, both, both, bb / total - mb * mb),
    fogMean: mf,
    fogVariance: ff / total - mf * mf,
    fogWith: [fa / total - mf * ma, fb / total - mf * mb],
  }
}

/** The ground's moments and the fog limit's in one. */
function withFog(
  ground: Gaussian,
  { sums, factor, prior }: Readonly<{ sums: Sums; factor: Float64Array; prior: Gaussian }>,
): Gaussian {
  const { fogMean, fogVariance, fogWith } = sums
  const [f00 = 0, , f10 = 0, f11 = 0] = factor
  const hold = f00 * fogWith[0]
  const sound = f10 * fogWith[0] + f11 * fogWith[1]
  const [own = 0, both = 0, , other = 0] = ground.cov
  return {
    mean: Float64Array.of(...ground.mean, (prior.mean[2] ?? 0) + fogMean),
    cov: Float64Array.of(own, both, hold, both, other, sound, hold, sound, fogVariance),
  }
}

/** A normal fog limit, less the prior mean of all; what is asked goes into `of`. */
type Fog = Readonly<{ mean: number; variance: number; limit: number; of: Float64Array }>

/**
 * The chance that the marks come out so, and the mean of the fog limit and of its square times
 * that chance: ∫ Φ((f − limit)/eye) over a normal f, and its moments.
 */
function fogMoments(marks: GradingParts['marks'], fog: Fog): void {
  const { mean, variance, limit, of } = fog
  of[0] = marks === 'any' ? 1 : 0
  of[1] = marks === 'any' ? mean : 0
  of[2] = marks === 'any' ? mean * mean + variance : 0
  if (marks === 'open') addBeyond(fog, { at: limit, sign: 1, times: 1 })
  if (marks === 'filled') addBeyond(fog, { at: limit - EYE.filling, sign: -1, times: 1 })
  if (marks !== 'filling') return
  addBeyond(fog, { at: limit - EYE.filling, sign: 1, times: 1 })
  addBeyond(fog, { at: limit, sign: 1, times: -1 })
}

/** Adds the moments of the fog limit counted where it lies on one side of a place. */
function addBeyond(
  { mean, variance, of }: Fog,
  { at, sign, times }: Readonly<{ at: number; sign: number; times: number }>,
): void {
  const spread = Math.sqrt(variance + EYE.marks ** 2)
  const t = (mean - at) / spread
  const share = times * quickNormalShare(sign * t)
  const edge = times * sign * normalDensity(t)
  const pull = variance / spread
  of[0] = (of[0] ?? 0) + share
  of[1] = (of[1] ?? 0) + mean * share + pull * edge
  of[2] =
    (of[2] ?? 0) + (mean * mean + variance) * share + (2 * mean * pull - pull * pull * t) * edge
}

import { factorOf } from './gaussian.ts'
import { quickNormalQuantile, quickNormalShare } from './normal.ts'

/** Fog limits of several marks: mean + slope · u + what is left, with its covariance. */
export type FogLimits = Readonly<{
  mean: Float64Array
  slope: Float64Array
  cov: Float64Array
  x: number
}>

const POINTS = 1021
/** The smallest share a point may stand for: 9 sd out. */
const LEAST = 1e-18
/** Square roots of primes: their multiples fill a cube evenly. */
const ROOTS: readonly number[] = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29].map(Math.sqrt)

/**
 * Expected weight of u, a standard normal up to `to`, counted only where all fog limits lie over x.
 *
 * One number after another is drawn from what the ones before leave of it, on points that fill the
 * cube evenly, so that nothing is left to chance.
 *
 * @param limits 2 … 10 marks
 * @throws RangeError for more marks
 * @source genz-orthant
 */
export function openBeyond(
  { mean, slope, cov, x }: FogLimits,
  { to, weight }: Readonly<{ to: number; weight: (u: number) => number }>,
): number {
  const marks = mean.length
  if (marks > ROOTS.length) {
    throw new RangeError(`marks: expected 1 to ${ROOTS.length}, got ${marks}`)
  }
  const factor = factorOf(cov, marks)
  const whole = quickNormalShare(to)
  if (whole === 0) return 0
  const drawn = new Float64Array(marks)
  let sum = 0
  for (let point = 1; point <= POINTS; point++) {
    const lead = quickNormalQuantile(Math.max(LEAST, whole * cube(point, 0)))
    let chance = weight(lead)
    for (let i = 0; i < marks && chance > 0; i++) {
      let over = (mean[i] ?? 0) + (slope[i] ?? 0) * lead - x
      for (let k = 0; k < i; k++) over += (factor[i * marks + k] ?? 0) * (drawn[k] ?? 0)
      const open = quickNormalShare(over / (factor[i * (marks + 1)] ?? 1))
      chance *= open
      if (i + 1 < marks) drawn[i] = -quickNormalQuantile(Math.max(LEAST, open * cube(point, i + 1)))
    }
    sum += chance
  }
  return (whole * sum) / POINTS
}

/** Coordinate of a point, 0 … 1, folded so that both ends meet. */
function cube(point: number, axis: number): number {
  const along = (point * (ROOTS[axis] ?? 0)) % 1
  return Math.abs(2 * along - 1)
}

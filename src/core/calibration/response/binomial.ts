import { type Half, halfOf } from './half.ts'
import { LINKS, type LinkName } from './links.ts'
import { isParted } from './parted.ts'

/** So many trials at one x, of which so many came out. */
export type Trials = Readonly<{ x: number; trials: number; came: number }>

/** A curve b0 + b1 x through a link, by maximum likelihood. */
export type BinomialFit = Readonly<{
  link: LinkName
  intercept: number
  slope: number
  /** Variances of intercept and slope, and what they share, by expected information. */
  cov: Readonly<{ intercept: number; both: number; slope: number }>
  deviance: number
  /** The x at which half come out. */
  half: Half
}>

const MOST_ROUNDS = 60
const SETTLED = 1e-10

/**
 * A dose-response curve by iteratively reweighted least squares (Fisher's scoring).
 *
 * @param groups trials 1 or more each, came 0 … trials
 * @returns null where the data have no such curve: all came or none did, or some x parts those that
 * came from those that did not, so that the curve would be a step
 * @source bliss1935
 */
export function binomialFit(
  groups: readonly Trials[],
  { link }: Readonly<{ link: LinkName }>,
): BinomialFit | null {
  if (isParted(groups.map(({ x, trials, came }) => ({ x, yes: came, no: trials - came }))))
    return null
  const { of, at } = LINKS[link]
  const trials = groups.reduce((sum, group) => sum + group.trials, 0)
  const middle = groups.reduce((sum, group) => sum + group.trials * group.x, 0) / trials
  // The first round goes from the shares themselves, half a trial drawn in from either end.
  let eta = groups.map((group) => at((group.came + 0.5) / (group.trials + 1)))
  let [level, slope] = [Number.NaN, Number.NaN]
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const sums = { w: 0, x: 0, xx: 0, y: 0, xy: 0 }
    groups.forEach(({ x, trials: all, came }, group) => {
      const linked = of(eta[group] ?? 0)
      const weight = (all * linked.slope ** 2) / (linked.share * linked.rest)
      const off = (came - all * linked.share) / (all * linked.slope)
      if (!(weight > 0) || !Number.isFinite(off)) return
      const [u, y] = [x - middle, (eta[group] ?? 0) + off]
      sums.w += weight
      sums.x += weight * u
      sums.xx += weight * u * u
      sums.y += weight * y
      sums.xy += weight * u * y
    })
    const det = sums.w * sums.xx - sums.x ** 2
    if (!(det > 1e-12 * sums.w * sums.xx)) return null
    const next = (sums.w * sums.xy - sums.x * sums.y) / det
    const nextLevel = (sums.xx * sums.y - sums.x * sums.xy) / det
    const moved = Math.abs(next - slope) + Math.abs(nextLevel - level)
    level = nextLevel
    slope = next
    eta = groups.map(({ x }) => level + slope * (x - middle))
    if (moved < SETTLED * (1 + Math.abs(slope) + Math.abs(level))) {
      return fitted(groups, { link, level, slope, middle, sums, det })
    }
  }
  return null
}

function fitted(
  groups: readonly Trials[],
  {
    link,
    level,
    slope,
    middle,
    sums,
    det,
  }: Readonly<{
    link: LinkName
    level: number
    slope: number
    middle: number
    sums: Readonly<{ w: number; x: number; xx: number }>
    det: number
  }>,
): BinomialFit {
  const { of, at } = LINKS[link]
  const cov = { level: sums.xx / det, both: -sums.x / det, slope: sums.w / det }
  const deviance = groups.reduce((sum, { x, trials, came }) => {
    const { share, rest } = of(level + slope * (x - middle))
    return sum + 2 * (part(came, trials * share) + part(trials - came, trials * rest))
  }, 0)
  const line = { a: level - at(0.5), b: slope, aa: cov.level, ab: cov.both, bb: cov.slope }
  const { x, sd, range } = halfOf(line)
  return {
    link,
    intercept: level - slope * middle,
    slope,
    cov: {
      intercept: cov.level - 2 * middle * cov.both + middle ** 2 * cov.slope,
      both: cov.both - middle * cov.slope,
      slope: cov.slope,
    },
    deviance,
    half: {
      x: middle + x,
      sd,
      range: range === null ? null : { low: middle + range.low, high: middle + range.high },
    },
  }
}

function part(seen: number, expected: number): number {
  return seen === 0 ? 0 : seen * Math.log(seen / expected)
}

import { curveFit } from '../fit/curveFit.ts'
import { studentQuantile } from '../fit/studentQuantile.ts'
import type { Doubtful } from '../units/quantity.ts'
import { BRIGHTEST_COLD, countAfter, type LitFrom, type WarmUp } from './warmUp.ts'

/** One lighting: what the counter showed at times of a clock that was started with it. */
export type Timing = Readonly<{
  from: LitFrom
  pairs: readonly Readonly<{ clockSec: number; count: number }>[]
}>

/** How a lamp warms up, each number with its 90 % range. */
export type WarmUpFit = Readonly<{
  warmUp: WarmUp
  hotPerSec: Doubtful
  coldPerSec: Doubtful
  tauSec: Doubtful
}>

/** Why pairs tell no warm-up. */
export type WarmUpUntold = 'too few pairs' | 'never from cold' | 'not long enough' | 'no such law'

/** Pairs from cold that are needed for three numbers. */
const LEAST_PAIRS = 5
/** The last pair from cold must lie beyond so many time constants: else Eh and τ are one. */
const LEAST_TAUS = 1.5
/** Most doubt in τ, as sd of its log: beyond it the time constant is not told. */
const MOST_TAU_SD = 0.6
/** How people read a clock and a whole counter together, s and counts.
 * @source timing-noise */
export const CLOCK_SD_SEC = 0.4
export const COUNT_SD = 0.4
const STARTS_SEC = [8, 25, 70, 200]

/**
 * Hot light, cold light and time constant from (clock, count) pairs of one or several lightings.
 *
 * Least squares on ln Eh, Ec/Eh and ln τ; a pair's sd is half a count and 0.4 s of the lamp's own
 * rate. Ranges are Student's: the noise is measured from the fit, never less than a fifth of what
 * is taken for it.
 *
 * @param timings seconds since lighting and counts, both 0 or more; pairs at 0 tell nothing
 * @source warm-up, levenberg-marquardt, student-t, timing-noise
 * @limits no lag: a lamp that strikes late looks like one that begins darker
 */
export function fitWarmUp(timings: readonly Timing[]): WarmUpFit | WarmUpUntold {
  const readings = timings.flatMap(({ from, pairs }) =>
    pairs
      .filter(({ clockSec, count }) => clockSec > 0 && count > 0)
      .map((pair) => ({ ...pair, from })),
  )
  const cold = readings.filter(({ from }) => from === 'cold')
  if (cold.length === 0) return 'never from cold'
  if (cold.length < LEAST_PAIRS) return 'too few pairs'
  const rate = Math.max(...readings.map(({ clockSec, count }) => count / clockSec))
  // a counter of whole counts shows what it has passed: half a count more, on the average
  const passed = readings.every(({ count }) => Number.isInteger(count)) ? 0.5 : 0
  const sd = Math.hypot(COUNT_SD, CLOCK_SD_SEC * rate)
  const residualsAt = ([logHot = 0, coldShare = 0, logTau = 0]: readonly number[]): number[] => {
    const lamp = lampFrom(logHot, coldShare, logTau)
    if (lamp === null) return readings.map(() => Number.NaN)
    return readings.map(
      ({ clockSec, count, from }) =>
        (countAfter(lamp, { sec: clockSec, from }) - count - passed) / sd,
    )
  }
  const fits = STARTS_SEC.flatMap((tauSec) => {
    const fit = curveFit(residualsAt, [Math.log(rate), 0.5, Math.log(tauSec)])
    return fit === null ? [] : [fit]
  }).toSorted((a, b) => a.squares - b.squares)
  const [best] = fits
  const [logHot = 0, coldShare = 0, logTau = 0] = best?.parameters ?? []
  const warmUp = best === undefined ? null : lampFrom(logHot, coldShare, logTau)
  if (best === undefined || warmUp === null) return 'no such law'
  const noise = Math.max(0.2, Math.sqrt(best.squares / Math.max(1, best.spare)))
  const sdOf = (at: number): number => noise * Math.sqrt(best.spread[at]?.[at] ?? 0)
  const longest = Math.max(...cold.map(({ clockSec }) => clockSec))
  if (longest < LEAST_TAUS * warmUp.tauSec || !(sdOf(2) < MOST_TAU_SD)) return 'not long enough'
  const t = studentQuantile(0.95, Math.max(1, best.spare))
  const about = (log: number, sdLog: number): Doubtful => ({
    value: Math.exp(log),
    low: Math.exp(log - t * sdLog),
    high: Math.exp(log + t * sdLog),
    confidence: 0.9,
  })
  const [hh = 0, hc = 0] = best.spread[0] ?? []
  const cc = best.spread[1]?.[1] ?? 0
  // Ec = Eh s: dEc = Eh ds + Ec d ln Eh
  const { hotPerSec, coldPerSec } = warmUp
  const coldVariance = hotPerSec ** 2 * cc + coldPerSec ** 2 * hh + 2 * hotPerSec * coldPerSec * hc
  const either = t * noise * Math.sqrt(Math.max(0, coldVariance))
  return {
    warmUp,
    hotPerSec: about(logHot, sdOf(0)),
    coldPerSec: {
      value: coldPerSec,
      low: Math.max(0, coldPerSec - either),
      high: coldPerSec + either,
      confidence: 0.9,
    },
    tauSec: about(logTau, sdOf(2)),
  }
}

function lampFrom(logHot: number, coldShare: number, logTau: number): WarmUp | null {
  const hotPerSec = Math.exp(logHot)
  const tauSec = Math.exp(logTau)
  const isOne =
    coldShare >= -0.2 &&
    coldShare <= BRIGHTEST_COLD &&
    tauSec > 0.5 &&
    tauSec < 5000 &&
    hotPerSec < 1e5
  if (!isOne) return null
  return { hotPerSec, coldPerSec: hotPerSec * Math.max(0, coldShare), tauSec, lagSec: 0 }
}

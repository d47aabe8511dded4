import { linearFit } from '../fit/linearFit.ts'
import { CLOCK_SD_SEC, COUNT_SD, type Timing } from './warmUpFit.ts'

/** Runs must last so long in all for their light to be worth a point of the trend, s; judged. */
const LEAST_SEC = 30

/**
 * Full light from runs of a lamp that was hot: a line through each run's pairs, one slope for all
 * of them and a start of its own for each, for the clock is started by hand.
 *
 * @param timings runs from hot; seconds and counts 0 or more
 * @returns counts a second and its sd; null for less than half a minute, or where nothing counted
 * @source least-squares, timing-noise
 */
export function hotLight(
  timings: readonly Timing[],
): Readonly<{ hotPerSec: number; sd: number }> | null {
  const runs = timings.filter(({ pairs }) => pairs.length > 1)
  const rows = runs.flatMap(({ pairs }, at) =>
    pairs.map(({ clockSec }) => [clockSec, ...runs.map((_, other) => (other === at ? 1 : 0))]),
  )
  const fit = linearFit(
    rows,
    runs.flatMap(({ pairs }) => pairs.map(({ count }) => count)),
  )
  const [hotPerSec = 0] = fit?.coefficients ?? []
  const clocks = runs.map(({ pairs }) => pairs.map(({ clockSec }) => clockSec))
  const lasted = clocks.reduce((sum, each) => sum + Math.max(...each) - Math.min(...each), 0)
  if (fit === null || hotPerSec <= 0 || lasted < LEAST_SEC) return null
  // as people read a clock and a counter, or worse where the pairs say so
  const squares = fit.residuals.reduce((sum, each) => sum + each ** 2, 0)
  const scatter = fit.spare === 0 ? 0 : Math.sqrt(squares / fit.spare)
  const noise = Math.max(scatter, Math.hypot(COUNT_SD, CLOCK_SD_SEC * hotPerSec))
  return { hotPerSec, sd: noise * Math.sqrt(fit.spread[0]?.[0] ?? 0) }
}

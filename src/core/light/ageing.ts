import { linearFit } from '../fit/linearFit.ts'
import { studentQuantile } from '../fit/studentQuantile.ts'
import type { Doubtful } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** A lamp's full light at some hours of its life; sd in the same counts a second. */
export type AgedLight = Readonly<{ lampHours: number; hotPerSec: number; sd: number }>

/** How a lamp loses light. */
export type Ageing = Readonly<{
  /** Light at some hours, counts a second, with its 90 % range. */
  at: (lampHours: number) => Doubtful
  /** Hours at which it gives the asked share of its first light; null where none can be told. */
  replaceAtHours: Doubtful | null
}>

/** Share of its first light at which a lamp is changed; judged. */
export const REPLACE_AT_SHARE = 0.7
const SHARE: Range = { name: 'replaceAtShare', low: 0.05, high: 0.95, unit: '' }
const LEAST_POINTS = 3

/**
 * The trend of a lamp's full light: ln E = a + b h by weighted least squares, for a lamp loses a
 * share of its light in an hour, not an amount. It gives the share s at h = ln s / b; the range is
 * that of b, and there is none while b may be nought.
 *
 * @param points at least 3 with hours that differ, else null; light and sd above 0
 * @throws RangeError for a share outside 0.05 … 0.95
 * @source least-squares, student-t, lamp-life
 * @limits a lamp that was changed begins a new line; the trend is carried on as it is
 */
export function ageingTrend(
  points: readonly AgedLight[],
  { replaceAtShare = REPLACE_AT_SHARE }: Readonly<{ replaceAtShare?: number }> = {},
): Ageing | null {
  expectIn(replaceAtShare, SHARE)
  if (points.length < LEAST_POINTS) return null
  const weights = points.map(({ hotPerSec, sd }) => hotPerSec / sd)
  const rows = points.map(({ lampHours }, at) => {
    const weight = weights[at] ?? 0
    return [weight, weight * lampHours]
  })
  const values = points.map(({ hotPerSec }, at) => (weights[at] ?? 0) * Math.log(hotPerSec))
  const fit = linearFit(rows, values)
  if (fit === null) return null
  const [a = 0, b = 0] = fit.coefficients
  const squares = fit.residuals.reduce((sum, each) => sum + each ** 2, 0)
  // points that lie closer than their sd do not make the line surer than the sd does
  const scatter = Math.max(1, Math.sqrt(squares / Math.max(1, fit.spare)))
  const t = studentQuantile(0.95, Math.max(1, fit.spare)) * scatter
  const [[aa = 0, ab = 0] = [], [, bb = 0] = []] = fit.spread
  const slopeRange = t * Math.sqrt(bb)
  return {
    at: (lampHours) => {
      const log = a + b * lampHours
      const either = t * Math.sqrt(Math.max(0, aa + 2 * lampHours * ab + lampHours ** 2 * bb))
      const [low, high] = [Math.exp(log - either), Math.exp(log + either)]
      return { value: Math.exp(log), low, high, confidence: 0.9 }
    },
    replaceAtHours:
      b + slopeRange < 0
        ? {
            value: Math.log(replaceAtShare) / b,
            low: Math.log(replaceAtShare) / (b - slopeRange),
            high: Math.log(replaceAtShare) / (b + slopeRange),
            confidence: 0.9,
          }
        : null,
  }
}

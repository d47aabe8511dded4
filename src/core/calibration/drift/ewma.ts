/** A value with the scatter of such values, one sd. */
export type Charted = Readonly<{ value: number; sd: number }>

/** A point of the chart: the average so far and the limits that it should stay in. */
export type EwmaPoint = Readonly<{ value: number; low: number; high: number; out: boolean }>

/** What the chart is drawn with. */
export type EwmaRule = Readonly<{
  /** How much the newest value counts, above 0, up to 1. */
  lambda?: number
  /** How many sd the limits are away. */
  limit?: number
  target: number
  /** The sd of a value that counts in full; one of twice that sd counts a quarter. */
  usualSd: number
  /** How well the target itself is known; all values are off by that alike. */
  targetSd?: number
}>

/**
 * Exponentially weighted moving average, with limits that are exact from the first value on:
 * z = (1 − λ) z + λ x, its variance likewise. For values of one sd σ the limits are target ±
 * L σ √(λ/(2 − λ) (1 − (1 − λ)^2i)).
 *
 * @source handbook-ewma
 */
export function ewma(
  values: readonly Charted[],
  { lambda = 0.3, limit = 3, target, usualSd, targetSd = 0 }: EwmaRule,
): readonly EwmaPoint[] {
  let value = target
  let variance = 0
  let before = 1
  return values.map(({ value: next, sd }) => {
    const counts = lambda * Math.min(1, (usualSd / sd) ** 2)
    value += counts * (next - value)
    variance = (1 - counts) ** 2 * variance + (counts * sd) ** 2
    before *= 1 - counts
    const either = limit * Math.sqrt(variance + (targetSd * (1 - before)) ** 2)
    const [low, high] = [target - either, target + either]
    return { value, low, high, out: value < low || value > high }
  })
}

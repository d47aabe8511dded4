import type { Charted } from './ewma.ts'

/** A value of a chart and the day on which it was read. */
export type DayCharted = Charted & Readonly<{ day: number }>

/** What a change of a chart is looked for with. */
export type OnsetRule = Readonly<{
  /** How well the target itself is known; all values are off by that alike. */
  targetSd: number
  /** How far a change moves the values, one sd. */
  shiftSd: number
  /** That it was there from the first value on is as likely as that it came in so many weeks. */
  weeksBefore: number
}>

/**
 * How much likelier the values are if they moved on some day than if they never did, after each of
 * them: the sum of the likelihood ratios of all days on which it may have begun, each day weighed by
 * the weeks since the last one read, so that a term counts alike however much is read in it.
 *
 * With all values off by one draw of variance r² and each by its own, C = r² 11ᵀ + diag(s²), a shift
 * of variance d² from a day on (x) has the log ratio −½ log(1 + d² xᵀC⁻¹x) + ½ (xᵀC⁻¹y)²/(xᵀC⁻¹x +
 * d⁻²).
 *
 * @param values oldest first
 * @returns log of that sum, one number for each value
 * @source onset-odds
 */
export function onsetOdds(
  values: readonly DayCharted[],
  { targetSd, shiftSd, weeksBefore }: OnsetRule,
): readonly number[] {
  const onsets: { weight: number; told: number; pull: number }[] = []
  let [told, pull] = [0, 0]
  let before: number | null = null
  return values.map(({ value, sd, day }) => {
    const precision = 1 / sd ** 2
    if (before === null || day > before) {
      const weight = before === null ? weeksBefore : (day - before) / 7
      onsets.push({ weight, told: 0, pull: 0 })
      before = day
    }
    told += precision
    pull += precision * value
    for (const onset of onsets) {
      onset.told += precision
      onset.pull += precision * value
    }
    // C⁻¹ = P − q p pᵀ with the precisions P and q = r²/(1 + r² Σp).
    const shared = targetSd ** 2 / (1 + targetSd ** 2 * told)
    const logs = onsets.map((onset) => {
      const seen = onset.told - shared * onset.told ** 2
      const pulled = onset.pull - shared * onset.told * pull
      const spread = Math.log(1 + shiftSd ** 2 * seen)
      return Math.log(onset.weight) - spread / 2 + pulled ** 2 / (seen + shiftSd ** -2) / 2
    })
    const most = Math.max(...logs)
    return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0))
  })
}

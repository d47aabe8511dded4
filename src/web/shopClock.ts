/** When an answer came, by this device's clock. */
export type Came = Readonly<{
  nowMs: number
  /** So long it was asked for. */
  tookMs: number
}>

/**
 * The shop's clock less this device's, from an answer that says the shop's time.
 *
 * The shop's time is that of some moment between the question and the answer, which bounds what
 * was known before: an answer that came soon narrows it, one that was long on its way, as through
 * a device's sleep, leaves it as it was. The first is taken at the middle of its way.
 *
 * @param shopMs the shop's time as the answer says it, ms since 1970
 * @param before what was known before; null: nothing
 * @returns ms
 */
export function aheadOf(
  shopMs: number,
  { came: { nowMs, tookMs }, before }: Readonly<{ came: Came; before: number | null }>,
): number {
  const [low, high] = [shopMs - nowMs, shopMs - nowMs + tookMs]
  return Math.min(Math.max(before ?? (low + high) / 2, low), high)
}

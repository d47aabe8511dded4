const HOUR_MS = 3600_000

/** A coat dries in a cabinet with fans in about so long: common practice, no source. */
export const DRY_HOURS = 2
/** A dry coat in the dark is good for so long: judged; the emulsion's own data sheet comes first. */
export const GOOD_DAYS = 28

/** When a coat is dry, and until when it can be exposed, where nobody says otherwise. */
export function coatingTimes(
  coatedMs: number,
  {
    dryHours = DRY_HOURS,
    goodDays = GOOD_DAYS,
  }: Readonly<{ dryHours?: number; goodDays?: number }> = {},
): Readonly<{ dryMs: number; goodUntilMs: number }> {
  if (!(dryHours >= 0) || !(goodDays * 24 >= dryHours)) {
    throw new RangeError(
      `coating: expected to dry before it is old, got ${dryHours} h, ${goodDays} d`,
    )
  }
  return { dryMs: coatedMs + dryHours * HOUR_MS, goodUntilMs: coatedMs + goodDays * 24 * HOUR_MS }
}

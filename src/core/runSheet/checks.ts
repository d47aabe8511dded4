import type { Asks } from './step.ts'

/** Hands and eyes start and stop a clock no better than this, in seconds. Judged. */
const HAND_SEC = 4
/** A lamp that was lit so far off what was reckoned was set to something else. Judged. */
const LIT_OFF_SHARE = 0.15

type Count = Extract<Asks, Readonly<{ what: 'set' | 'read' }>>

/** What stands on the counter against what was planned. */
export type SetVerdict = 'as planned' | 'should work' | 'off'

/** @param count as it stands on the counter */
export function setVerdict(count: number, { start, low, high }: Count): SetVerdict {
  if (count === start) return 'as planned'
  return count >= low && count <= high ? 'should work' : 'off'
}

/** How long the lamp was lit against what was reckoned. */
export type LitVerdict = 'as reckoned' | 'too short' | 'too long'

/** @returns null where nobody knows how long it should be */
export function litVerdict(
  litSec: number,
  { reckonedSec }: Readonly<{ reckonedSec: Readonly<{ low: number; high: number }> | null }>,
): LitVerdict | null {
  if (reckonedSec === null) return null
  if (litSec < reckonedSec.low * (1 - LIT_OFF_SHARE) - HAND_SEC) return 'too short'
  if (litSec > reckonedSec.high * (1 + LIT_OFF_SHARE) + HAND_SEC) return 'too long'
  return 'as reckoned'
}

/** A gauge that stands so far from where it stood before does not hold as it did. Judged. */
const GAUGE_OFF_SHARE = 0.1

/** Whether a gauge stands where it usually does; true where nobody knows. */
export function isGaugeUsual(
  value: number,
  { usual }: Readonly<{ usual: number | null }>,
): boolean {
  return usual === null || Math.abs(value - usual) <= GAUGE_OFF_SHARE * Math.abs(usual)
}

/** Where a gauge usually stands: in the middle of what was read of it; null where nothing was. */
export function usualGauge(values: readonly number[]): number | null {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? null
}

/** A clock at zero is heard again after so long, and so often. */
const AGAIN_SEC = 20
const LONGEST_SEC = 120
const SOON_SEC = 10

/**
 * Knocks that are due while a clock runs from `fromSec` down to `toSec`: one at 10 s, three at zero
 * and again every 20 s for two minutes. A page that slept hears the last of them alone.
 */
export function knocks({
  fromSec,
  toSec,
}: Readonly<{ fromSec: number; toSec: number }>): 0 | 1 | 3 {
  const passes = (sec: number): boolean => fromSec > sec && toSec <= sec
  for (let sec = -LONGEST_SEC; sec <= 0; sec += AGAIN_SEC) if (passes(sec)) return 3
  return passes(SOON_SEC) ? 1 : 0
}

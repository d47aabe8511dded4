import { countAfter, secondsCorrected, secondsFor, type WarmUp } from '../core/light/warmUp.ts'
import { fitWarmUp, type WarmUpFit, type WarmUpUntold } from '../core/light/warmUpFit.ts'
import type { CountsIn } from './lightRecords.ts'

/** One lighting of the lamp that is in now. */
export type LampTiming = Readonly<{
  /** 2026-11-28 */
  on: string
  from: 'cold' | 'hot'
  /** Null: nobody said; it tells nothing of ageing. */
  lampHours: number | null
  pairs: readonly Readonly<{ clockSec: number; count: number }>[]
}>

/** All that was timed on one day, and what it tells of the warm-up. */
export type TimedDay = Readonly<{
  ofDay: readonly LampTiming[]
  fit: WarmUpFit | WarmUpUntold
}>

/** A dose in seconds of a cold and of a hot lamp. */
export type LampTime = Readonly<{
  /** As on the counter: light units, or seconds of a hot lamp. */
  count: number
  coldSec: number
  hotSec: number
  /** What a cold lamp gives in the hot one's seconds, in the same counts. */
  plainCount: number
}>

/** The light of one step of the usual wedge, D.
 * @source step-wedge */
const STEP_DENSITY = 0.15
/** Less of a step than this is not worth a word; judged. */
const HARDLY_STEPS = 0.1

/** Timings by their day, the newest first, each day with its warm-up. @source warm-up */
export function timedDays(timings: readonly LampTiming[]): readonly TimedDay[] {
  const days = [...new Set(timings.map(({ on }) => on))].sort().reverse()
  return days.map((on) => {
    const ofDay = timings.filter((timing) => timing.on === on)
    return { ofDay, fit: fitWarmUp(ofDay) }
  })
}

/** The newest day that tells a warm-up; null while none does. */
export function newestTold(
  days: readonly TimedDay[],
): Readonly<{ ofDay: readonly LampTiming[]; fit: WarmUpFit }> | null {
  for (const { ofDay, fit } of days) if (typeof fit !== 'string') return { ofDay, fit }
  return null
}

/**
 * How long a dose takes from cold and from hot. A unit without a counter has its doses in seconds of
 * a hot lamp; its timings may be in counts of any scale, as a light meter's are.
 *
 * @source warm-up
 */
export function lampTime(
  warmUp: WarmUp,
  { count, countsIn }: Readonly<{ count: number; countsIn: CountsIn }>,
): LampTime {
  if (countsIn === 'seconds') {
    const given = countAfter(warmUp, { sec: count, from: 'cold' })
    return {
      count,
      hotSec: count,
      coldSec: secondsCorrected(warmUp, { hotSec: count }),
      plainCount: given / warmUp.hotPerSec,
    }
  }
  const hotSec = secondsFor(warmUp, { count, from: 'hot' })
  return {
    count,
    hotSec,
    coldSec: secondsFor(warmUp, { count, from: 'cold' }),
    plainCount: countAfter(warmUp, { sec: hotSec, from: 'cold' }),
  }
}

/** How wrong plain seconds would be, in a sentence. @source step-wedge */
export function plainWords({ count, plainCount }: LampTime, countsIn: CountsIn): string {
  const steps = Math.abs(Math.log10(plainCount / count)) / STEP_DENSITY
  if (steps < HARDLY_STEPS) return 'Cold or hot hardly matters with this lamp.'
  const much = plainCount < count ? 'too little' : 'too much'
  const given =
    countsIn === 'seconds' ? `the light of ${Math.round(plainCount)}` : Math.round(plainCount)
  return `A cold lamp in a hot one’s seconds would give ${given}, ${steps.toFixed(1)} wedge steps ${much}.`
}

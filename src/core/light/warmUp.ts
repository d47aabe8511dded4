import { type Sec, sec } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'
import { lambertW0 } from './lambertW.ts'

/**
 * How a lamp comes to its full light: counts a second when hot and when it lights cold, the time
 * in which the difference falls to 1/e, and how long after the switch the first light comes.
 */
export type WarmUp = Readonly<{
  hotPerSec: number
  coldPerSec: number
  tauSec: number
  lagSec: number
}>

/** Whether the lamp had been off for long, or was hot and waited behind a shutter. */
export type LitFrom = 'cold' | 'hot'

/** Counts a second, in whatever counts. */
export const PER_SEC: Range = { name: 'perSec', low: 0, high: 1e6, unit: 'counts a second' }
/** No lamp is so many times as bright cold as it is hot. */
export const BRIGHTEST_COLD = 10
/** Time constant of the warm-up. */
export const TAU: Range = { name: 'tauSec', low: 0.01, high: 36_000, unit: 's' }
/** From the switch to the first light. */
export const LAG: Range = { name: 'lagSec', low: 0, high: 600, unit: 's' }
/** What the counter shows. */
export const COUNT: Range = { name: 'count', low: 0, high: 1e9, unit: 'counts' }
/** A clock that was started with the lamp. */
export const CLOCK: Range = { name: 'clockSec', low: 0, high: 1e6, unit: 's' }

/**
 * What the counter shows some time after the switch: the integral of
 * E(t) = Eh − (Eh − Ec) exp(−t/τ), t from the first light on.
 *
 * Ec lies below Eh where the lamp gets brighter (metal halide) and above it where it gets dimmer
 * (LEDs, warm tubes). A hot lamp gives Eh from the first moment on.
 *
 * @param lamp Eh = hotPerSec above 0, Ec = coldPerSec 0 … 10 Eh, τ = tauSec, lagSec
 * @param light seconds since the switch or the shutter, 0 or more; from where it was lit
 * @returns counts, not rounded
 * @throws RangeError outside these ranges
 * @source warm-up
 * @limits one and the same rest before each lighting; a lamp just switched off is neither
 */
export function countAfter(
  lamp: WarmUp,
  { sec: clockSec, from }: Readonly<{ sec: number; from: LitFrom }>,
): number {
  expectLamp(lamp)
  expectIn(clockSec, CLOCK)
  if (from === 'hot') return lamp.hotPerSec * clockSec
  const since = Math.max(0, clockSec - lamp.lagSec)
  const { hotPerSec, coldPerSec, tauSec } = lamp
  return hotPerSec * since + (hotPerSec - coldPerSec) * tauSec * Math.expm1(-since / tauSec)
}

/**
 * Seconds until the counter shows N. From hot N/Eh; from cold in closed form: with n = N/(Eh τ) and
 * q = (Eh − Ec)/Eh, t/τ = n + q + W0(−q exp(−(n + q))).
 *
 * @param lamp as for `countAfter`
 * @param light N = count, 0 or more; from where it was lit
 * @throws RangeError outside these ranges
 * @source warm-up, lambert-w
 */
export function secondsFor(
  lamp: WarmUp,
  { count, from }: Readonly<{ count: number; from: LitFrom }>,
): Sec {
  expectLamp(lamp)
  expectIn(count, COUNT)
  const { hotPerSec, coldPerSec, tauSec, lagSec } = lamp
  if (from === 'hot') return sec(count / hotPerSec)
  const n = count / (hotPerSec * tauSec)
  const q = (hotPerSec - coldPerSec) / hotPerSec
  return sec(lagSec + tauSec * Math.max(0, n + q + lambertW0(-q * Math.exp(-(n + q)))))
}

/**
 * Seconds from cold that give as much light as S seconds of a hot lamp: what to set on a unit that
 * counts nothing but time.
 *
 * @param lamp as for `countAfter`; its counts may be of any scale, as a light meter's are
 * @param light S = hotSec, 0 or more
 * @throws RangeError outside these ranges
 * @source warm-up
 */
export function secondsCorrected(lamp: WarmUp, { hotSec }: Readonly<{ hotSec: number }>): Sec {
  return secondsFor(lamp, { count: hotSec * lamp.hotPerSec, from: 'cold' })
}

function expectLamp({ hotPerSec, coldPerSec, tauSec, lagSec }: WarmUp): void {
  expectIn(hotPerSec, { ...PER_SEC, name: 'hotPerSec', low: 1e-9 })
  expectIn(coldPerSec, { ...PER_SEC, name: 'coldPerSec', high: BRIGHTEST_COLD * hotPerSec })
  expectIn(tauSec, TAU)
  expectIn(lagSec, LAG)
}

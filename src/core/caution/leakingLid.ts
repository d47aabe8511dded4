import { type ExposureLimit, exposureLimit, type Ray } from './ultraviolet.ts'

/** Ultraviolet at an exposure unit's glass: weak tubes to a strong lamp, W/m². From memory. */
const AT_GLASS = { low: 20, high: 300 }
/** How much of that comes out beside a lid that does not close. Judged; nobody has measured yours. */
const LEAK_SHARE = { low: 0.01, high: 0.2 }
/**
 * What comes through glass: almost all of it near 365 nm, and at worst one part in a hundred near
 * 313 nm. Judged.
 */
const MILD: readonly Readonly<{ nm: number; share: number }>[] = [{ nm: 365, share: 1 }]
const HARSH: readonly Readonly<{ nm: number; share: number }>[] = [
  { nm: 365, share: 0.99 },
  { nm: 313, share: 0.01 },
]

export type LeakLimit = Readonly<{ worst: ExposureLimit; mildest: ExposureLimit }>

/** The limits beside a leaking lid, at the worst and at the mildest that one may expect. */
export function leakingLid(): LeakLimit {
  const rays = (wattPerM2: number, lines: typeof MILD): readonly Ray[] =>
    lines.map(({ nm, share }) => ({ nm, wattPerM2: wattPerM2 * share }))
  return {
    worst: exposureLimit(rays(AT_GLASS.high * LEAK_SHARE.high, HARSH)),
    mildest: exposureLimit(rays(AT_GLASS.low * LEAK_SHARE.low, MILD)),
  }
}

/** What stands behind the caution at the lamp. */
export function leakSentences({ worst, mildest }: LeakLimit = leakingLid()): readonly string[] {
  return [
    `Beside a lid that leaks, bare eyes reach the published limit of a day in ${span(worst.eyeSec, mildest.eyeSec)}, bare skin in ${span(worst.skinSec, mildest.skinSec)}.`,
    'So wide is it because nobody has measured your unit: a meter for ultraviolet and somebody licensed to use it can.',
    'Do not use a lid that leaks. The unit’s manual and your local rules come before these figures.',
  ]
}

function span(low: number, high: number): string {
  return `${duration(low)} to ${duration(high)}`
}

/** Rounded down to what such a figure can bear. */
function duration(sec: number): string {
  if (sec >= 8 * 3600) return 'the whole day'
  if (sec >= 2 * 3600) return `${Math.floor(sec / 3600)} hours`
  const minutes = sec / 60
  if (minutes < 1) return 'less than a minute'
  const whole = Math.floor(minutes < 10 ? minutes : minutes / 5) * (minutes < 10 ? 1 : 5)
  return whole === 1 ? '1 minute' : `${whole} minutes`
}

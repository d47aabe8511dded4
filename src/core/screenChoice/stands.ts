import { coatingTimes } from '../register/coatingTimes.ts'
import type { ScreenAsked } from './asked.ts'

/** How a screen stands: whether a film can be exposed on it now, later, or not at all. */
export type Stands =
  | Readonly<{ when: 'now'; is: 'ready'; coatedAtMs: number; goodUntilMs: number | null }>
  | Readonly<{ when: 'later'; is: 'drying'; dryAtMs: number }>
  | Readonly<{ when: 'later'; is: 'bare' | 'to reclaim' | 'past its date' | 'of an old bucket' }>
  | Readonly<{ when: 'not'; is: 'taken' | 'exposed' | 'in print' | 'torn' | 'lost' }>
  | Readonly<{ when: 'not'; is: 'kept'; untilMs: number | null }>

/** @limits goes by what was told: a damp room dries a coat later, a warm one spoils it sooner */
export function standsAt(screen: ScreenAsked, nowMs: number): Stands {
  const { state, keptForOther, taken } = screen
  if (state === 'torn' || state === 'lost') return { when: 'not', is: state }
  if (taken) return { when: 'not', is: 'taken' }
  if (state === 'exposed' || state === 'in print') return { when: 'not', is: state }
  if (keptForOther !== null && (keptForOther.untilMs ?? Number.POSITIVE_INFINITY) > nowMs) {
    return { when: 'not', is: 'kept', untilMs: keptForOther.untilMs }
  }
  if (state === 'to reclaim') return { when: 'later', is: 'to reclaim' }
  if (state === 'clean' || screen.coating === null) return { when: 'later', is: 'bare' }
  return coatStands(screen.coating, nowMs)
}

function coatStands(coat: NonNullable<ScreenAsked['coating']>, nowMs: number): Stands {
  const { coatedAtMs, goodUntilMs, bucketExpiresAtMs } = coat
  if (bucketExpiresAtMs !== null && bucketExpiresAtMs < coatedAtMs) {
    return { when: 'later', is: 'of an old bucket' }
  }
  const usual = coatingTimes(coatedAtMs)
  if ((goodUntilMs ?? usual.goodUntilMs) < nowMs) return { when: 'later', is: 'past its date' }
  const dryAtMs = coat.dryAtMs ?? usual.dryMs
  if (dryAtMs > nowMs) return { when: 'later', is: 'drying', dryAtMs }
  return { when: 'now', is: 'ready', coatedAtMs, goodUntilMs }
}

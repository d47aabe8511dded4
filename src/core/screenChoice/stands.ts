import type { ScreenAsked } from './asked.ts'

/** A coat in a cabinet is dry after this, where nobody said when. Common practice, no source. */
const DRIES_MS = 2 * 3600_000
/** A coated screen keeps in the dark for this, where nobody said how long. Common practice, no source. */
const KEEPS_MS = 28 * 24 * 3600_000

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
  if ((goodUntilMs ?? coatedAtMs + KEEPS_MS) < nowMs) return { when: 'later', is: 'past its date' }
  const dryAtMs = coat.dryAtMs ?? coatedAtMs + DRIES_MS
  if (dryAtMs > nowMs) return { when: 'later', is: 'drying', dryAtMs }
  return { when: 'now', is: 'ready', coatedAtMs, goodUntilMs }
}

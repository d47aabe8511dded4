import type { Clocks, ClockTold, NewClock } from '../../api/clocks.ts'

/** A clock that was started on this device; its moments go by this device's clock. */
export type OwnClock = NewClock &
  Readonly<{
    /** Whether the shop has its start, and its end. */
    told: 'nothing' | 'start' | 'end'
  }>

/** A clock as it is shown, by the shop's clock. */
export type RunningClock = Pick<ClockTold, 'key' | 'title' | 'about' | 'sec' | 'screen' | 'run'> &
  Readonly<{ startedMs: number; person: string | null; mine: boolean }>

/** What a device keeps of its clocks; without one that was ended and told. */
export function clocksFrom(text: string | null): readonly OwnClock[] {
  try {
    const kept = JSON.parse(text ?? '[]') as unknown
    return Array.isArray(kept) ? (kept as OwnClock[]).filter(isWhole) : []
  } catch {
    return [] // half of it was kept
  }
}

function isWhole(clock: Partial<OwnClock> | null): boolean {
  return (
    typeof clock?.key === 'string' &&
    typeof clock.screen === 'string' &&
    Number.isFinite(clock.sec) &&
    Number.isFinite(Date.parse(clock.startedAt ?? ''))
  )
}

/** What the shop does not have yet. */
export function untold(own: readonly OwnClock[]): readonly OwnClock[] {
  return own.filter(
    ({ told, endedAt }) => told === 'nothing' || (endedAt !== null && told === 'start'),
  )
}

/** What runs nowhere any more: ended elsewhere, or left and forgotten. */
export function withoutGone(
  own: readonly OwnClock[],
  { answer, nowMs }: Readonly<{ answer: Clocks; nowMs: number }>,
): readonly OwnClock[] {
  const running = new Set(answer.clocks.map(({ key }) => key))
  return own.filter(({ key, told, startedAt }) => {
    const ageMs = nowMs - Date.parse(startedAt)
    // an answer may be older than what was told just now
    const isEndedElsewhere = told === 'start' && !running.has(key) && ageMs > JUST_NOW_MS
    return !isEndedElsewhere && ageMs < FORGOTTEN_MS
  })
}

const ON_THE_WAY_MS = 2000
const JUST_NOW_MS = 60_000
const FORGOTTEN_MS = 16 * 3600_000

/** The shop has these as they were sent; what was ended meanwhile is still to be told. */
export function withTold(own: readonly OwnClock[], sent: readonly OwnClock[]): readonly OwnClock[] {
  return own.flatMap((clock) => {
    const one = sent.find(({ key }) => key === clock.key)
    if (one === undefined) return [clock]
    return one.endedAt === null ? [{ ...clock, told: 'start' as const }] : []
  })
}

export function withEnd(
  own: readonly OwnClock[],
  { key, endedAt }: Readonly<{ key: string; endedAt: string }>,
): readonly OwnClock[] {
  return own.map((clock) =>
    clock.key === key && clock.endedAt === null ? { ...clock, endedAt } : clock,
  )
}

/**
 * All that run, as far as this device knows: the shop's, and its own that the shop has not heard of;
 * what was ended here runs no more. What the shop no longer has was ended elsewhere.
 *
 * @param aheadMs the shop's clock less this device's
 */
export function runningOf(
  own: readonly OwnClock[],
  { answer, aheadMs }: Readonly<{ answer: Clocks | null; aheadMs: number }>,
): readonly RunningClock[] {
  const endedHere = new Set(own.filter(({ endedAt }) => endedAt !== null).map(({ key }) => key))
  const here = new Set(own.map(({ key }) => key))
  const shops = (answer?.clocks ?? [])
    .filter(({ key }) => !endedHere.has(key))
    .map(({ startedAt, mine, ...clock }) => ({
      ...clock,
      startedMs: Date.parse(startedAt),
      mine: mine || here.has(clock.key),
    }))
  const known = new Set(shops.map(({ key }) => key))
  const others = own
    .filter(({ key, endedAt, told, startedAt }) => {
      if (endedAt !== null || known.has(key)) return false
      // an answer from before it began does not have it yet
      const begunMs = Date.parse(startedAt) + aheadMs + ON_THE_WAY_MS
      return answer === null || told === 'nothing' || begunMs > Date.parse(answer.now)
    })
    .map(({ key, screen, sec, startedAt }) => ({
      key,
      title: 'Remover',
      about: `screen ${screen}`,
      sec,
      screen,
      run: null,
      person: null,
      startedMs: Date.parse(startedAt) + aheadMs,
      mine: true,
    }))
  return [...shops, ...others].toSorted(
    (a, b) => a.startedMs + 1000 * a.sec - b.startedMs - 1000 * b.sec,
  )
}

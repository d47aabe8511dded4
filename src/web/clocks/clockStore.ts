import type { Clocks } from '../../api/clocks.ts'
import { PATHS } from '../../api/paths.ts'
import { ask } from '../ask.ts'
import { keep, kept } from '../kept.ts'
import { newKey } from '../newKey.ts'
import { clocksFrom, type OwnClock, untold, withEnd, withoutGone, withTold } from './clocksKept.ts'

/** Told to the window when what is kept of clocks changed. */
export const CLOCKS_CHANGED = 'yellowroom clocks'
export const CLOCKS_KEY = 'yellowroom.clocks'
const AHEAD_KEY = 'yellowroom.ahead'

export function ownClocks(): readonly OwnClock[] {
  return clocksFrom(kept(CLOCKS_KEY))
}

function keepOwn(own: readonly OwnClock[]): void {
  keep(CLOCKS_KEY, own.length === 0 ? '' : JSON.stringify(own))
  dispatchEvent(new Event(CLOCKS_CHANGED))
}

/**
 * The remover is on: kept here at once, told as soon as it can be.
 *
 * @returns why the shop did not let it begin, in a sentence; null: it runs
 */
export async function startClock(screen: string, sec: number): Promise<string | null> {
  const started = {
    key: newKey(),
    screen,
    sec,
    startedAt: new Date().toISOString(),
    endedAt: null,
    told: 'nothing',
  } as const
  keepOwn([...ownClocks(), started])
  const refused = (await tellClocks())?.refused ?? null
  if (refused !== null) keepOwn(ownClocks().filter(({ key }) => key !== started.key))
  return refused
}

/** It is off: the clock ends on every device that it follows. */
export async function endClock(key: string, screen: string, sec: number): Promise<void> {
  const endedAt = new Date().toISOString()
  const own = ownClocks()
  const isOwn = own.some((clock) => clock.key === key)
  // one that was started on another device is ended from here under its own key
  const elsewhere = { key, screen, sec, startedAt: endedAt, endedAt, told: 'start' } as const
  keepOwn(isOwn ? withEnd(own, { key, endedAt }) : [...own, elsewhere])
  await tellClocks()
}

/**
 * What the shop no longer has is let go.
 *
 * @param aheadMs the shop's clock less this device's, told with the next clock
 */
export function hearClocks(answer: Clocks, { aheadMs }: Readonly<{ aheadMs: number }>): void {
  keep(AHEAD_KEY, String(aheadMs), 'tab')
  const own = ownClocks()
  const left = withoutGone(own, { answer, nowMs: Date.now() })
  if (left.length < own.length) keepOwn(left)
}

/** What came back from telling. */
export type Heard = Readonly<{ answer: Clocks | null; refused: string | null }>

/** Tells what the shop does not have yet. @returns null: no connection, or nothing to tell */
export async function tellClocks(): Promise<Heard | null> {
  const sent = untold(ownClocks())
  if (sent.length === 0) return null
  const clocks = sent.map(({ key, screen, sec, startedAt, endedAt }) => ({
    key,
    screen,
    sec,
    startedAt,
    endedAt,
  }))
  const reply = await ask<Clocks>({
    path: PATHS.clocks,
    method: 'POST',
    body: { sentAt: new Date().toISOString(), ...ahead(), clocks },
  })
  if (reply.kind === 'answer') {
    keepOwn(withTold(ownClocks(), sent))
    return { answer: reply.answer, refused: null }
  }
  if (reply.kind !== 'refused') return null
  // the remover is on all the same: the clock goes on here; over, nobody needs it any more
  keepOwn(ownClocks().filter(({ endedAt }) => endedAt === null))
  return { answer: null, refused: reply.message }
}

/** As the shop's answers told it to this page; nothing where none came yet. */
function ahead(): Readonly<{ aheadMs?: number }> {
  const text = kept(AHEAD_KEY, 'tab') ?? ''
  const aheadMs = Number(text)
  return text === '' || !Number.isFinite(aheadMs) ? {} : { aheadMs }
}

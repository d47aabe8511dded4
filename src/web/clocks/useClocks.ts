import { useCallback, useEffect, useRef, useState } from 'react'
import type { Clocks } from '../../api/clocks.ts'
import { PATHS } from '../../api/paths.ts'
import { knocks } from '../../core/runSheet/checks.ts'
import { ask } from '../ask.ts'
import { useDevice } from '../bench/device.ts'
import { knock, wakeSound } from '../bench/sound.ts'
import { aheadOf, type Came } from '../shopClock.ts'
import { CLOCKS_CHANGED, hearClocks, ownClocks, tellClocks } from './clockStore.ts'
import { type RunningClock, runningOf } from './clocksKept.ts'

/** So often the shop is asked; a clock that is known here runs on without it. */
const ASK_MS = 15_000
const AGAIN_MS = 3000
const TICK_MS = 250

export type ClocksNow = Readonly<{
  clocks: readonly RunningClock[]
  /** By the shop's clock. */
  nowMs: number
}>

/** The room's clocks as they run, asked for again and again while somebody looks. */
export function useClocks(): ClocksNow {
  const [own, setOwn] = useState(ownClocks)
  const [heard, setHeard] = useState<Readonly<{ answer: Clocks | null; aheadMs: number }>>({
    answer: null,
    aheadMs: 0,
  })
  const ahead = useRef<number | null>(null)
  const [nowMs, setNow] = useState(() => Date.now())
  const hear = useCallback((answer: Clocks, came: Came): void => {
    const aheadMs = aheadOf(Date.parse(answer.now), { came, before: ahead.current })
    ahead.current = aheadMs
    setHeard({ answer, aheadMs })
    hearClocks(answer, { aheadMs })
  }, [])
  useEffect(() => {
    const stop = new AbortController()
    let timer: ReturnType<typeof setTimeout> | undefined
    const once = async (): Promise<void> => {
      clearTimeout(timer)
      const askedMs = Date.now()
      const told = await tellClocks()
      const reply =
        told?.answer === undefined || told.answer === null
          ? await ask<Clocks>({ path: PATHS.clocks }, stop.signal).catch(() => null)
          : ({ kind: 'answer', answer: told.answer } as const)
      if (stop.signal.aborted) return
      const nowMs = Date.now()
      if (reply?.kind === 'answer') hear(reply.answer, { nowMs, tookMs: nowMs - askedMs })
      timer = setTimeout(() => void once(), reply?.kind === 'answer' ? ASK_MS : AGAIN_MS)
    }
    const changed = (): void => {
      setOwn(ownClocks())
      // what was told just now is in the shop's next answer
      clearTimeout(timer)
      timer = setTimeout(() => void once(), AGAIN_MS / 3)
    }
    const woken = (): void => {
      if (document.visibilityState === 'visible') void once()
    }
    void once()
    addEventListener(CLOCKS_CHANGED, changed)
    addEventListener('online', woken)
    document.addEventListener('visibilitychange', woken)
    return () => {
      stop.abort()
      clearTimeout(timer)
      removeEventListener(CLOCKS_CHANGED, changed)
      removeEventListener('online', woken)
      document.removeEventListener('visibilitychange', woken)
    }
  }, [hear])
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), TICK_MS)
    return () => clearInterval(timer)
  }, [])
  return { clocks: runningOf(own, heard), nowMs: nowMs + heard.aheadMs }
}

/** Seconds left, below 0 when it is over. */
export function leftOf({ startedMs, sec }: RunningClock, nowMs: number): number {
  return sec - (nowMs - startedMs) / 1000
}

/** Clocks are heard and felt at their end, on whichever page one is. */
export function useRinging(clocks: readonly RunningClock[], nowMs: number): void {
  const [{ sound }] = useDevice()
  const before = useRef(new Map<string, number>())
  useEffect(() => {
    addEventListener('pointerdown', wakeSound)
    return () => removeEventListener('pointerdown', wakeSound)
  }, [])
  useEffect(() => {
    for (const clock of clocks) {
      const toSec = leftOf(clock, nowMs)
      const fromSec = before.current.get(clock.key) ?? toSec
      before.current.set(clock.key, toSec)
      const due = knocks({ fromSec, toSec })
      if (due !== 0 && sound) knock(due)
    }
  }, [clocks, nowMs, sound])
}

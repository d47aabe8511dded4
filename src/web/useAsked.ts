import { useCallback, useEffect, useReducer, useState } from 'react'
import { ask, notReady, type Question, type Reply } from './ask.ts'
import {
  AGAIN_MS,
  type Asked,
  type AskedEvent,
  NOTHING_ASKED,
  nextAsked,
  OPENING_MS,
  SLOW_MS,
} from './asked.ts'

/**
 * Asks a question whenever it changes, and again by itself while there is no connection or the
 * records are being opened. The old answer stays meanwhile.
 *
 * @param question null: nothing to ask yet
 * @param pauseMs waits so long for further changes before asking
 */
export function useAsked<Answer>(
  question: Question<Answer> | null,
  { pauseMs = 0 }: Readonly<{ pauseMs?: number }> = {},
): readonly [Asked<Answer>, () => void] {
  const [state, tell] = useReducer<Asked<Answer>, [AskedEvent<Answer>]>(nextAsked, NOTHING_ASKED)
  const [round, setRound] = useState(0)
  const key = question === null ? null : JSON.stringify([question, round])
  useEffect(() => {
    if (key === null) return undefined
    const [asked] = JSON.parse(key) as [Question<Answer>, number]
    const stop = new AbortController()
    const timers: ReturnType<typeof setTimeout>[] = []
    const after = (ms: number, act: () => void): void => {
      timers.push(setTimeout(act, ms))
    }
    const answered = async (wasOpening: boolean): Promise<Reply<Answer>> =>
      (wasOpening ? await notReady(stop.signal) : null) ?? ask<Answer>(asked, stop.signal)
    const once = async (wasOpening = false): Promise<void> => {
      const askedMs = Date.now()
      const reply = await answered(wasOpening).catch(() => null)
      if (reply === null || stop.signal.aborted) return
      const at = new Date()
      tell({ kind: 'reply', reply, at, tookMs: at.getTime() - askedMs })
      if (reply.kind === 'no connection') after(AGAIN_MS, () => void once())
      if (reply.kind === 'opening') after(OPENING_MS, () => void once(true))
    }
    tell({ kind: 'asked' })
    after(pauseMs, () => void once())
    after(pauseMs + SLOW_MS, () => tell({ kind: 'slow' }))
    const online = (): void => void once()
    addEventListener('online', online)
    return () => {
      stop.abort()
      timers.forEach(clearTimeout)
      removeEventListener('online', online)
    }
  }, [key, pauseMs])
  const again = useCallback(() => setRound((before) => before + 1), [])
  return [state, again]
}

import { useCallback, useEffect, useRef, useState } from 'react'
import type { Run, RunEventTold } from '../../api/bench.ts'
import { runEventsPath, runPath } from '../../api/paths.ts'
import { ask, type Reply } from '../ask.ts'
import { keep, kept } from '../kept.ts'
import { newKey } from '../newKey.ts'
import { logFrom, type RunLog, withAnswer, withEvent } from './runLog.ts'

/** After so long what was not sent is sent again. */
const AGAIN_MS = 3000

export type Happening = Pick<RunEventTold, 'kind' | 'step'> &
  Partial<Pick<RunEventTold, 'cause' | 'value' | 'second'>>

export type RunKept = Readonly<{
  log: RunLog | null
  /** Since when there is no connection; null: there is. */
  cutSince: Date | null
  /** Why the shop did not take something, in a sentence. */
  message: string | null
  tell: (happening: Happening) => void
}>

const keyOf = (id: string): string => `yellowroom.bench.${id}`

/**
 * An exposure as this device knows it. What happens is kept here first and counts at once; it is
 * sent until the shop says that it has it.
 */
export function useRun(id: string): RunKept {
  const [log, setLog] = useState(() => logFrom(kept(keyOf(id))))
  const [cutSince, setCutSince] = useState<Date | null>(null)
  const [message, setMessage] = useState<string | null>(null)
  const [round, setRound] = useState(0)
  const now = useRef(log)
  const change = useCallback(
    (next: RunLog) => {
      now.current = next
      keep(keyOf(id), JSON.stringify(next))
      setLog(next)
    },
    [id],
  )
  const tell = useCallback(
    ({ kind, step, cause = null, value = null, second = null }: Happening) => {
      if (now.current === null) return
      const at = new Date().toISOString()
      change(withEvent(now.current, { key: newKey(), kind, step, cause, value, second, at }))
      setRound((before) => before + 1)
    },
    [change],
  )
  // `round` alone asks again: once at first, and whenever something happened
  // biome-ignore lint/correctness/useExhaustiveDependencies: as said
  useEffect(() => {
    const stop = new AbortController()
    let timer: ReturnType<typeof setTimeout> | undefined
    const once = async (): Promise<void> => {
      clearTimeout(timer)
      const askedMs = Date.now()
      const reply = await sent(id, { log: now.current, signal: stop.signal }).catch(() => null)
      if (reply === null || stop.signal.aborted) return
      if (reply.kind === 'answer') {
        const nowMs = Date.now()
        const came = { nowMs, tookMs: nowMs - askedMs }
        change(withAnswer(now.current, { run: reply.answer, came }))
        setCutSince(null)
        setMessage(reply.answer.notTaken)
        return
      }
      if (reply.kind === 'refused') setMessage(reply.message)
      else setCutSince((since) => since ?? new Date())
      timer = setTimeout(() => void once(), AGAIN_MS)
    }
    const online = (): void => void once()
    void once()
    addEventListener('online', online)
    return () => {
      stop.abort()
      clearTimeout(timer)
      removeEventListener('online', online)
    }
  }, [id, round, change])
  return { log, cutSince, message, tell }
}

function sent(
  id: string,
  { log, signal }: Readonly<{ log: RunLog | null; signal: AbortSignal }>,
): Promise<Reply<Run>> {
  if (log === null || log.own.length === 0) return ask<Run>({ path: runPath(id) }, signal)
  const { aheadMs, own: events } = log
  const body = { sentAt: new Date().toISOString(), aheadMs, events }
  return ask<Run>({ path: runEventsPath(id), method: 'POST', body }, signal)
}

import { useCallback, useEffect, useRef, useState } from 'react'
import { sendFile } from './sendFile.ts'

/** How far a file is on its way. */
export type Sending =
  | Readonly<{ state: 'still' | 'cut' }>
  | Readonly<{ state: 'sending'; share: number }>
  | Readonly<{ state: 'refused'; message: string }>

/** Sends a file. @param onTaken it has arrived: the answer as the contract has it */
export function useSending(
  path: string,
  onTaken: (answer: unknown) => void,
): Readonly<{
  sending: Sending
  send: (file: File, question: object) => void
  stop: () => void
}> {
  const [sending, setSending] = useState<Sending>({ state: 'still' })
  const stopping = useRef<AbortController | null>(null)
  useEffect(() => () => stopping.current?.abort(), [])
  const send = useCallback(
    (file: File, question: object) => {
      stopping.current?.abort()
      const { signal } = (stopping.current = new AbortController())
      const told = (next: Sending): void => {
        if (!signal.aborted) setSending(next)
      }
      told({ state: 'sending', share: 0 })
      sendFile<unknown>(
        file,
        { path, question },
        { signal, onShare: (share) => told({ state: 'sending', share }) },
      )
        .then((sent) => {
          if (sent.kind === 'refused') told({ state: 'refused', message: sent.message })
          if (sent.kind === 'cut') told({ state: 'cut' })
          if (sent.kind !== 'taken' || signal.aborted) return
          told({ state: 'still' })
          onTaken(sent.answer)
        })
        .catch(() => told({ state: 'cut' }))
    },
    [path, onTaken],
  )
  const stop = useCallback(() => {
    stopping.current?.abort()
    setSending({ state: 'still' })
  }, [])
  return { sending, send, stop }
}

import { useCallback, useEffect, useRef, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Photo, PhotoQuestion } from '../../api/photos.ts'
import { sendFile } from '../sendFile.ts'

/** How far a photo is on its way. */
export type PhotoSending =
  | Readonly<{ state: 'still' | 'cut' }>
  | Readonly<{ state: 'sending'; share: number }>
  | Readonly<{ state: 'refused'; message: string }>

/** Sends a photo. @param onTaken it has arrived */
export function useSendPhoto(onTaken: (photo: Photo) => void): Readonly<{
  sending: PhotoSending
  send: (file: File, question: PhotoQuestion) => void
  stop: () => void
}> {
  const [sending, setSending] = useState<PhotoSending>({ state: 'still' })
  const stopping = useRef<AbortController | null>(null)
  useEffect(() => () => stopping.current?.abort(), [])
  const send = useCallback(
    (file: File, question: PhotoQuestion) => {
      stopping.current?.abort()
      const { signal } = (stopping.current = new AbortController())
      const told = (next: PhotoSending): void => {
        if (!signal.aborted) setSending(next)
      }
      told({ state: 'sending', share: 0 })
      sendFile<Photo>(
        file,
        { path: PATHS.photos, question },
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
    [onTaken],
  )
  const stop = useCallback(() => {
    stopping.current?.abort()
    setSending({ state: 'still' })
  }, [])
  return { sending, send, stop }
}

import { useCallback, useEffect, useRef, useState } from 'react'
import type { Film, UploadQuestion } from '../../api/films.ts'
import { filmPath } from '../../api/paths.ts'
import { ask } from '../ask.ts'
import { sendFilm } from './sendFilm.ts'

/** How far a file is on its way to being a film. */
export type Upload =
  | Readonly<{ state: 'still' }>
  | Readonly<{ state: 'sending'; share: number }>
  /** Null while nobody tells how far it is: there is no connection. */
  | Readonly<{ state: 'reading'; share: number | null }>
  | Readonly<{ state: 'refused'; message: string; field: string | null }>
  | Readonly<{ state: 'cut' | 'stopped' | 'not stopped' }>

const AGAIN_MS = 250
/** Why one no longer waits: whoever only leaves the page leaves the film to be read. */
const STOPPED = 'stopped'

/**
 * Sends a file and waits until its picture stands or it is refused. The file is kept by whoever
 * chose it: a refusal loses nothing. What is stopped is forgotten by the shop as well.
 *
 * @param onRead the film is there to be looked at
 */
export function useUpload(onRead: (film: Film) => void): Readonly<{
  upload: Upload
  send: (file: File, question: UploadQuestion) => void
  stop: () => void
}> {
  const [upload, setUpload] = useState<Upload>({ state: 'still' })
  const stopping = useRef<AbortController | null>(null)
  useEffect(() => () => stopping.current?.abort(), [])

  const send = useCallback(
    (file: File, question: UploadQuestion) => {
      stopping.current?.abort()
      const { signal } = (stopping.current = new AbortController())
      const told = (next: Upload): void => {
        if (!signal.aborted) setUpload(next)
      }
      const run = async (): Promise<void> => {
        told({ state: 'sending', share: 0 })
        const sent = await sendFilm(file, question, {
          signal,
          onShare: (share) => told({ state: 'sending', share }),
        })
        if (sent.kind === 'refused') told({ ...sent, state: 'refused' })
        if (sent.kind === 'cut') told({ state: 'cut' })
        if (sent.kind !== 'taken') return
        const { id } = sent.film
        const forget = async (): Promise<void> => {
          if (signal.reason !== STOPPED) return
          const isGone = await forgotten(id)
          if (stopping.current?.signal === signal && !isGone) setUpload({ state: 'not stopped' })
        }
        if (signal.aborted) return forget()
        signal.addEventListener('abort', () => void forget())
        const film = await readFilm(sent.film, {
          signal,
          onShare: (share) => told({ state: 'reading', share }),
        })
        if (film === null || signal.aborted) return
        if (film.status === 'failed') {
          told({ state: 'refused', message: film.message ?? '', field: null })
          // what could not be read is no film: it would stand in the list for nothing
          await ask({ path: filmPath(id), method: 'DELETE' }, signal)
        } else {
          onRead(film)
        }
      }
      run().catch(() => told({ state: 'cut' }))
    },
    [onRead],
  )

  const stop = useCallback(() => {
    stopping.current?.abort(STOPPED)
    setUpload({ state: 'stopped' })
  }, [])

  return { upload, send, stop }
}

/** Takes a film out of the shop, and whoever reads it stops; false when nobody answered. */
async function forgotten(film: string): Promise<boolean> {
  const { kind } = await ask({ path: filmPath(film), method: 'DELETE' })
  return kind === 'answer' || kind === 'refused'
}

/** Asks until the film's picture stands or it failed; null when nobody waits any more. */
async function readFilm(
  first: Film,
  { signal, onShare }: Readonly<{ signal: AbortSignal; onShare: (share: number | null) => void }>,
): Promise<Film | null> {
  let film = first
  onShare(film.progressShare)
  while (film.status === 'waiting' || (film.status === 'reading' && film.widthMm === null)) {
    if (signal.aborted) return null
    await new Promise((later) => setTimeout(later, AGAIN_MS))
    const reply = await ask<Film>({ path: filmPath(first.id) }, signal)
    if (reply.kind === 'answer') film = reply.answer
    onShare(reply.kind === 'no connection' ? null : film.progressShare)
    if (reply.kind === 'refused') {
      return { ...film, status: 'failed', message: reply.message }
    }
  }
  return film
}

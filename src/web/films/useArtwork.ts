import { useCallback, useEffect, useMemo, useRef, useState } from 'react'
import type { Artwork, ArtworkChange } from '../../api/artwork.ts'
import type { Film } from '../../api/films.ts'
import { artworkFilmsPath, artworkPath, madeShopFilmPath } from '../../api/paths.ts'
import { ask, type Question } from '../ask.ts'
import type { Asked } from '../asked.ts'
import { useAsked } from '../useAsked.ts'

/** How often one asks how far it is. */
const AGAIN_MS = 500

export type ArtworkAsked = Readonly<{
  asked: Asked<Artwork>
  artwork: Artwork | null
  askAgain: () => void
  /** What the last act was refused for. */
  message: string | null
  change: (change: ArtworkChange) => Promise<void>
  make: () => Promise<void>
  stop: () => Promise<void>
  remove: () => Promise<boolean>
  /** The film of the shop that a made one became; null when it was refused. */
  intoShop: (film: string, layer: string | null) => Promise<Film | null>
}>

/** One artwork, asked after as long as something is done with it. */
export function useArtwork(id: string): ArtworkAsked {
  const [asked, askAgain] = useAsked<Artwork>(useMemo(() => ({ path: artworkPath(id) }), [id]))
  const [told, setTold] = useState<Artwork | null>(null)
  const [message, setMessage] = useState<string | null>(null)
  const { answer, answeredAt } = asked
  useEffect(() => setTold(null), [answer])
  const artwork = told ?? answer
  const goesOn =
    artwork !== null &&
    (artwork.status === 'waiting' ||
      artwork.looksAgain ||
      artwork.making?.status === 'waiting' ||
      artwork.making?.status === 'making')
  const again = useRef(askAgain)
  useEffect(() => {
    again.current = askAgain
  }, [askAgain])
  useEffect(() => {
    if (!goesOn || answeredAt === null) return undefined
    const timer = setTimeout(() => again.current(), AGAIN_MS)
    return () => clearTimeout(timer)
  }, [goesOn, answeredAt, told])

  const acted = useCallback(async <Answer>(question: Question<Answer>): Promise<Answer | null> => {
    const reply = await ask<Answer>(question)
    setMessage(reply.kind === 'refused' ? reply.message : null)
    return reply.kind === 'answer' ? reply.answer : null
  }, [])
  const toldAnew = useCallback(
    async (question: Question<Artwork>): Promise<void> => {
      const next = await acted<Artwork>(question)
      if (next !== null) setTold(next)
    },
    [acted],
  )
  return {
    asked,
    artwork,
    askAgain,
    message,
    change: useCallback(
      (body) => toldAnew({ path: artworkPath(id), method: 'PATCH', body }),
      [id, toldAnew],
    ),
    make: useCallback(
      () => toldAnew({ path: artworkFilmsPath(id), method: 'POST' }),
      [id, toldAnew],
    ),
    stop: useCallback(
      () => toldAnew({ path: artworkFilmsPath(id), method: 'DELETE' }),
      [id, toldAnew],
    ),
    remove: useCallback(async () => {
      const reply = await ask({ path: artworkPath(id), method: 'DELETE' })
      setMessage(reply.kind === 'refused' ? reply.message : null)
      return reply.kind === 'answer'
    }, [id]),
    intoShop: useCallback(
      (film, layer) =>
        acted<Film>({
          path: madeShopFilmPath(id, film),
          method: 'POST',
          body: layer === null ? {} : { layer },
        }),
      [id, acted],
    ),
  }
}

import { useEffect, useMemo, useState } from 'react'
import { type FilmCover, useFilmCover } from '../film/useFilmCover.ts'
import { keep, kept } from '../kept.ts'
import { darkPicture } from './darkPicture.ts'

/** The film's picture in one colour, as this device keeps it for when there is no connection. */
export type HeldFilm = Readonly<{
  film: string
  /** A PNG, lit where marks are. */
  url: string
  widthPx: number
  heightPx: number
  /** The passage that opens last, in shares of the picture; null: none is weaker than the rest. */
  ring: Readonly<{ left: number; top: number; width: number; height: number }> | null
}>

/** One film at a time is held to the light. */
const KEY = 'yellowroom.bench.film'
const WIDTH_PX = 480

/** Fetched once while there is a connection, then kept. @param film null: a medium, without a picture */
export function useHeldFilm(film: string | null): HeldFilm | null {
  const [held, setHeld] = useState(() => heldBefore(film))
  const isHeld = held !== null && held.film === film
  const cover = useFilmCover(isHeld ? null : film, { widthPx: WIDTH_PX })
  const made = useMemo(
    () => (cover === null || !cover.isWhole || film === null ? null : heldOf(film, cover)),
    [cover, film],
  )
  useEffect(() => {
    if (made === null) return
    keep(KEY, JSON.stringify(made))
    setHeld(made)
  }, [made])
  return isHeld ? held : null
}

function heldBefore(film: string | null): HeldFilm | null {
  try {
    const held = JSON.parse(kept(KEY) ?? 'null') as HeldFilm | null
    return held !== null && held.film === film ? held : null
  } catch {
    return null // half of it was kept
  }
}

function heldOf(film: string, cover: FilmCover): HeldFilm | null {
  const { widthPx, heightPx } = cover
  const canvas = document.createElement('canvas')
  canvas.width = widthPx
  canvas.height = heightPx
  const brush = canvas.getContext('2d')
  if (brush === null) return null
  const image = brush.createImageData(widthPx, heightPx)
  for (const [at, is] of darkPicture(cover).entries()) image.data[4 * at + 3] = 255 * is
  brush.putImageData(image, 0, 0)
  return { film, url: canvas.toDataURL('image/png'), widthPx, heightPx, ring: ringOf(cover) }
}

/** Around the weakest passage, a little wider than it is. */
function ringOf({ forecast: { findings }, film }: FilmCover): HeldFilm['ring'] {
  const reach = findings[0]?.reach
  const { widthMm, heightMm } = film
  if (reach === undefined || widthMm === null || heightMm === null) return null
  const around = (from: number, to: number, whole: number) => {
    const [middle, half] = [
      (from + to) / 2 / whole,
      Math.max(LEAST, (WIDER * (to - from)) / 2 / whole),
    ]
    const [low, high] = [Math.max(0, middle - half), Math.min(1, middle + half)]
    return { low, size: high - low }
  }
  const across = around(reach.leftMm, reach.rightMm, widthMm)
  const down = around(reach.topMm, reach.bottomMm, heightMm)
  if (across.size > MOST && down.size > MOST) return null
  return { left: across.low, top: down.low, width: across.size, height: down.size }
}

const WIDER = 1.3
const LEAST = 0.06
/** A ring around all of it says nothing. */
const MOST = 0.95

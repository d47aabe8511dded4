import { type RefObject, useEffect, useLayoutEffect, useRef } from 'react'
import type { SurfaceDoses } from '../../core/emulsion/doses.ts'
import type { View } from '../../raster/tilesView.ts'
import {
  type FilmPalette,
  type FilmSource,
  type LaidView,
  layView,
  paintDose,
  paintFilm,
  tilesOfView,
} from '../../workflow/filmForecastView.ts'
import type { FilmTiles } from './filmTiles.ts'

/** How the film is looked at. */
export type Look = 'as drawn' | 'what will open'

export type Shown = Readonly<{
  /** Which picture of the page this is: its tiles are waited for until it wants others. */
  who: string
  view: View
  source: FilmSource
  /** The finest level that is there to be fetched. */
  finest: number
  tiles: FilmTiles
  /** Counts up with each tile that came. */
  tilesCome: number
  look: Look
  doses: SurfaceDoses
  doseLu: number
  palette: FilmPalette
}>

/**
 * Keeps a canvas painted. A view is laid out anew when it moves or tiles come; a dose alone is only
 * painted, in the very frame in which it changes.
 */
export function useCanvasPicture(shown: Shown): RefObject<HTMLCanvasElement | null> {
  const canvas = useRef<HTMLCanvasElement>(null)
  const laid = useRef<LaidView | null>(null)
  const image = useRef<ImageData | null>(null)
  const { who, view, source, finest, tiles, tilesCome, look, doses, doseLu, palette } = shown

  useEffect(
    () => tiles.want(who, tilesOfView(view, source, { finest })),
    [who, view, source, finest, tiles],
  )

  // before the paint and in the same turn: what is printed or resized is never an old picture
  useLayoutEffect(() => {
    laid.current = layView(view, source)
  }, [view, source, tilesCome])

  useLayoutEffect(() => {
    const element = canvas.current
    const brush = element?.getContext('2d') ?? null
    if (element === null || brush === null || laid.current === null) return
    const { widthPx, heightPx } = laid.current
    if (image.current?.width !== widthPx || image.current.height !== heightPx) {
      element.width = widthPx
      element.height = heightPx
      image.current = brush.createImageData(widthPx, heightPx)
    }
    const target = new Uint32Array(image.current.data.buffer)
    if (look === 'as drawn') paintFilm(laid.current, palette, target)
    else paintDose(laid.current, { doses, doseLu }, palette, target)
    brush.putImageData(image.current, 0, 0)
  }, [view, source, tilesCome, look, doses, doseLu, palette])

  return canvas
}

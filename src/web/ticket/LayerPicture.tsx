import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react'
import type { Film, FilmForecast } from '../../api/films.ts'
import { filmForecastPath, filmPath } from '../../api/paths.ts'
import type { Layer } from '../../api/tickets.ts'
import { TILE_SIDE } from '../../raster/tiles.ts'
import {
  filmPalette,
  filmSource,
  layView,
  paintFilm,
  tilesOfView,
} from '../../workflow/filmForecastView.ts'
import { filmTiles } from '../film/filmTiles.ts'
import { useAsked } from '../useAsked.ts'

/** Cover is painted as black on white, then taken as how much ink lies there. */
const COVER = filmPalette({
  sheet: [255, 255, 255],
  ink: [0, 0, 0],
  cut: [0, 0, 0],
  soft: [0, 0, 0],
})
const AGAIN_MS = 2000
/** An ink above this opacity hides what lies under it. */
const HIDES = 0.5

type Ink = NonNullable<Layer['ink']>

/** An ink's colour as style sheets write it: they have CIELAB under D50 too. */
export function inkColour({ lab: [lightness, a, b] }: Ink): string {
  return `lab(${lightness} ${a} ${b})`
}

/** A layer's film as it would print in its ink; nothing where the film is not read yet. */
export function LayerPicture({
  film,
  ink,
  widthPx,
}: Readonly<{ film: string; ink: Ink; widthPx: number }>): ReactNode {
  const [{ answer: record }] = useAsked<Film>({ path: filmPath(film) })
  const [{ answer: forecast }, askAgain] = useAsked<FilmForecast>({ path: filmForecastPath(film) })
  const isWaiting = forecast !== null && forecast.pyramid === null
  useEffect(() => {
    if (!isWaiting) return undefined
    const timer = setTimeout(askAgain, AGAIN_MS)
    return () => clearTimeout(timer)
  }, [isWaiting, askAgain, forecast])
  const seen = useMemo(() => {
    const pyramid = forecast?.pyramid ?? null
    if (pyramid === null || forecast === null || record === null) return null
    const { widthMm, heightMm, pixelUm } = record
    if (widthMm === null || heightMm === null || pixelUm === null) return null
    const px = (mm: number): number => Math.round((mm * 1000) / pixelUm)
    return { id: forecast.id, pyramid, film: { widthPx: px(widthMm), heightPx: px(heightMm) } }
  }, [forecast, record])
  const canvas = useInkCanvas(seen, { ink, widthPx })
  return (
    <canvas
      ref={canvas}
      className={ink.opacity > HIDES ? 'layer-ink layer-hides' : 'layer-ink'}
      aria-hidden="true"
    />
  )
}

type Seen = Readonly<{
  id: string
  pyramid: NonNullable<FilmForecast['pyramid']>
  film: Readonly<{ widthPx: number; heightPx: number }>
}>

function useInkCanvas(
  seen: Seen | null,
  { ink, widthPx }: Readonly<{ ink: Ink; widthPx: number }>,
): React.RefObject<HTMLCanvasElement | null> {
  const canvas = useRef<HTMLCanvasElement>(null)
  const [come, setCome] = useState(0)
  const forecast = seen?.id ?? null
  const tiles = useMemo(
    () => (forecast === null ? null : filmTiles(forecast, () => setCome((before) => before + 1))),
    [forecast],
  )
  useEffect(() => () => tiles?.stop(), [tiles])
  const laid = useMemo(() => {
    if (seen === null || tiles === null) return null
    const { film, pyramid } = seen
    const source = filmSource(film, { levels: pyramid.levels.length, tileAt: tiles.at })
    const scale = widthPx / film.widthPx
    const heightPx = Math.max(1, Math.round(film.heightPx * scale))
    return { source, view: { widthPx, heightPx, left: 0, top: 0, scale, density: 1 } }
  }, [seen, tiles, widthPx])
  useEffect(() => {
    if (laid === null || tiles === null) return
    tiles.want('print', tilesOfView(laid.view, laid.source))
  }, [laid, tiles])
  useEffect(() => {
    const brush = canvas.current?.getContext('2d') ?? null
    if (canvas.current === null || brush === null || laid === null) return
    const { widthPx: across, heightPx: down } = laid.view
    canvas.current.width = across
    canvas.current.height = down
    const image = brush.createImageData(across, down)
    paintFilm(layView(laid.view, laid.source), COVER, new Uint32Array(image.data.buffer))
    const [red, green, blue] = rgbOf(inkColour(ink))
    for (let at = 0; at < image.data.length; at += 4) {
      const light = image.data[at] ?? 255
      image.data.set([red, green, blue, 255 - light], at)
    }
    brush.putImageData(image, 0, 0)
  }, [laid, ink, come])
  return canvas
}

/** What the screen makes of a colour. */
function rgbOf(colour: string): readonly [number, number, number] {
  const probe = document.createElement('canvas')
  probe.width = 1
  probe.height = 1
  const brush = probe.getContext('2d')
  if (brush === null) return [0, 0, 0]
  brush.fillStyle = colour
  brush.fillRect(0, 0, 1, 1)
  const [red = 0, green = 0, blue = 0] = brush.getImageData(0, 0, 1, 1).data
  return [red, green, blue]
}

/** Sheets are drawn no finer than so: a few tiles of the film. */
export const PRINT_WIDTH_PX: number = 3 * TILE_SIDE

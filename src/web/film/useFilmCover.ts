import { useEffect, useMemo, useState } from 'react'
import type { Film, FilmForecast } from '../../api/films.ts'
import { filmForecastPath, filmPath } from '../../api/paths.ts'
import {
  filmPalette,
  filmSource,
  layView,
  paintFilm,
  tilesOfView,
} from '../../workflow/filmForecastView.ts'
import { useAsked } from '../useAsked.ts'
import { filmTiles } from './filmTiles.ts'

/** A film painted small: how much ink lies where. */
export type FilmCover = Readonly<{
  widthPx: number
  heightPx: number
  /** Row by row, 0 none … 255 all of it. */
  ink: Uint8Array
  /** All of its tiles have come. */
  isWhole: boolean
  forecast: FilmForecast
  film: Film
}>

/** Cover is painted as black on white, then taken as how much ink lies there. */
const COVER = filmPalette({
  sheet: [255, 255, 255],
  ink: [0, 0, 0],
  cut: [0, 0, 0],
  soft: [0, 0, 0],
})
const AGAIN_MS = 2000

/** How much ink lies where on a film; null before it is read. @param filmId null: nothing is asked */
export function useFilmCover(
  filmId: string | null,
  { widthPx }: Readonly<{ widthPx: number }>,
): FilmCover | null {
  const path = filmId === null ? null : { path: filmPath(filmId) }
  const forecastPath = filmId === null ? null : { path: filmForecastPath(filmId) }
  const [{ answer: film }] = useAsked<Film>(path)
  const [{ answer: forecast }, askAgain] = useAsked<FilmForecast>(forecastPath)
  const isWaiting = forecast !== null && forecast.pyramid === null
  useEffect(() => {
    if (!isWaiting) return undefined
    const timer = setTimeout(askAgain, AGAIN_MS)
    return () => clearTimeout(timer)
  }, [isWaiting, askAgain, forecast])
  const [come, setCome] = useState(0)
  const id = forecast?.id ?? null
  const tiles = useMemo(
    () => (id === null ? null : filmTiles(id, () => setCome((before) => before + 1))),
    [id],
  )
  useEffect(() => () => tiles?.stop(), [tiles])
  const laid = useMemo(() => {
    const pyramid = forecast?.pyramid ?? null
    if (pyramid === null || tiles === null || film === null) return null
    const size = sizeOf(film)
    if (size === null) return null
    const source = filmSource(size, { levels: pyramid.levels.length, tileAt: tiles.at })
    const scale = widthPx / size.widthPx
    const heightPx = Math.max(1, Math.round(size.heightPx * scale))
    return { source, view: { widthPx, heightPx, left: 0, top: 0, scale, density: 1 } }
  }, [forecast, film, tiles, widthPx])
  useEffect(() => {
    if (laid === null || tiles === null) return
    tiles.want('print', tilesOfView(laid.view, laid.source))
  }, [laid, tiles])
  // biome-ignore lint/correctness/useExhaustiveDependencies: painted anew as tiles come
  return useMemo(() => {
    if (laid === null || tiles === null || forecast === null || film === null) return null
    const { widthPx: across, heightPx: down } = laid.view
    const painted = new Uint32Array(across * down)
    paintFilm(layView(laid.view, laid.source), COVER, painted)
    const isWhole = tilesOfView(laid.view, laid.source).every((at) => tiles.at(at) !== undefined)
    const ink = Uint8Array.from(painted, (pixel) => 255 - (pixel & 255))
    return { widthPx: across, heightPx: down, ink, isWhole, forecast, film }
  }, [laid, tiles, come, forecast, film])
}

function sizeOf({
  widthMm,
  heightMm,
  pixelUm,
}: Film): Readonly<{ widthPx: number; heightPx: number }> | null {
  if (widthMm === null || heightMm === null || pixelUm === null) return null
  const px = (mm: number): number => Math.round((mm * 1000) / pixelUm)
  return { widthPx: px(widthMm), heightPx: px(heightMm) }
}

import type { Spread } from '../core/forecast/spread.ts'
import type { Film } from '../raster/film.ts'
import { type FilmPart, filmOfPart } from '../raster/filmParts.ts'
import { leakMapper } from '../raster/leakMap.ts'
import { type MarkLimits, type MarkRows, markRowFinder, rowsAround } from '../raster/markRows.ts'
import type { Hand } from './inTurns.ts'

/** What all parts of a search for marks have in common; plain data, for any thread. */
export type MarkTask = Readonly<{
  film: Omit<Film, 'bands'>
  spread: Spread
  limits: MarkLimits
}>

/** The rows of a part's marks, from top to bottom. */
export type MarkPart = readonly MarkRows[]

/** Finds the marks in parts that have `rowsAround` more rows, and as many as the spread reaches. */
export function markHand({ film, spread, limits }: MarkTask): Hand<FilmPart, MarkPart> {
  const { widthPx, heightPx } = film
  const mapper = leakMapper(film, spread)
  const around = rowsAround(limits)
  return async (part) => {
    const wanted = part.rows
    const found: MarkRows[] = []
    const finder = markRowFinder(widthPx, { ...limits, wanted }, (rows) => found.push(rows))
    const bands = mapper.bands(filmOfPart(part, film), {
      top: Math.max(0, wanted.top - around),
      end: Math.min(heightPx, wanted.end + around),
    })
    for await (const band of bands) finder.push(band)
    finder.finish()
    return found
  }
}

import type { Spread } from '../core/forecast/spread.ts'
import type { BlockDeflater } from '../formats/tileStore.ts'
import type { Film } from '../raster/film.ts'
import { type FilmPart, filmOfPart } from '../raster/filmParts.ts'
import { type LeakBand, leakMapper, type Rows } from '../raster/leakMap.ts'
import { type MarkLimits, type MarkRows, markRowFinder, rowsAround } from '../raster/markRows.ts'
import { pyramidMaker } from '../raster/pyramid.ts'
import type { StoredTile } from './filmPicturePart.ts'
import type { Hand } from './inTurns.ts'

/** What all parts of a search for marks have in common; plain data, for any thread. */
export type MarkTask = Readonly<{
  film: Omit<Film, 'bands'>
  spread: Spread
  limits: MarkLimits
  /** Tiles of the levels below `finest` are made by the way; null: none. */
  fine: Readonly<{ finest: number; marksAbove: number }> | null
}>

/** The rows of a part's marks from top to bottom, and its fine tiles. */
export type MarkPart = Readonly<{ rows: readonly MarkRows[]; tiles: readonly StoredTile[] }>

/**
 * Finds the marks in parts that have `rowsAround` more rows, and as many as the spread reaches.
 *
 * @param deflater null where no tiles are asked for
 */
export function markHand(
  { film, spread, limits, fine }: MarkTask,
  { deflater }: Readonly<{ deflater: BlockDeflater | null }>,
): Hand<FilmPart, MarkPart> {
  const { widthPx, heightPx } = film
  const mapper = leakMapper(film, spread)
  const around = rowsAround(limits)
  const maker =
    fine === null
      ? null
      : pyramidMaker(film, { marksAbove: fine.marksAbove, last: fine.finest - 1 })
  return async (part) => {
    const wanted = part.rows
    const rows: MarkRows[] = []
    const tiles: StoredTile[] = []
    const finder = markRowFinder(widthPx, { ...limits, wanted }, (found) => rows.push(found))
    const bands = mapper.bands(filmOfPart(part, film), {
      top: Math.max(0, wanted.top - around),
      end: Math.min(heightPx, wanted.end + around),
    })
    const looked = async function* (): AsyncGenerator<LeakBand> {
      for await (const band of bands) {
        finder.push(band)
        const own = within(band, wanted)
        if (own !== null) yield own
      }
    }
    if (maker === null || deflater === null) for await (const _ of looked());
    else {
      await maker.part(looked(), wanted, async ({ level, x, y, bytes }) => {
        tiles.push({ place: { level, x, y }, deflated: await deflater.whole(bytes) })
      })
    }
    finder.finish()
    return { rows, tiles }
  }
}

/** What of a band lies in these rows; null where nothing does. */
function within(band: LeakBand, { top, end }: Rows): LeakBand | null {
  const first = Math.max(band.top, top)
  const rows = Math.min(band.top + band.rows, end) - first
  if (rows <= 0) return null
  const from = (first - band.top) * band.widthPx
  const size = rows * band.widthPx
  return {
    top: first,
    rows,
    widthPx: band.widthPx,
    codes: band.codes.subarray(from, from + size),
    filmCodes: band.filmCodes.subarray(from, from + size),
  }
}

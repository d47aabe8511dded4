import type { Spread } from '../core/forecast/spread.ts'
import type { BlockDeflater, StoredPlace } from '../formats/tileStore.ts'
import type { Film } from '../raster/film.ts'
import { leakMapper, type Rows } from '../raster/leakMap.ts'
import { type PyramidPart, pyramidMaker } from '../raster/pyramid.ts'

/** What all parts of a picture have in common; plain data, so that any thread can be told of it. */
export type PictureTask = Readonly<{
  film: Omit<Film, 'bands'>
  spread: Spread
  marksAbove: number
}>

/** A part of a picture: its tiles as they are stored, and what the coarser ones are made of. */
export type PicturePart = PyramidPart &
  Readonly<{ tiles: readonly Readonly<{ place: StoredPlace; deflated: Uint8Array }>[] }>

/** Makes parts of a picture from films that hold the rows of each. One at a time. */
export type PictureParts = (film: Film, rows: Rows) => Promise<PicturePart>

export function pictureParts(
  { film, spread, marksAbove }: PictureTask,
  { deflater }: Readonly<{ deflater: BlockDeflater }>,
): PictureParts {
  const mapper = leakMapper(film, spread)
  const maker = pyramidMaker(film, { marksAbove })
  return async (rowsOf, rows) => {
    const tiles: PicturePart['tiles'][number][] = []
    const part = await maker.part(
      mapper.bands(rowsOf, rows),
      rows,
      async ({ level, x, y, bytes }) => {
        tiles.push({ place: { level, x, y }, deflated: await deflater.whole(bytes) })
      },
    )
    return { ...part, tiles }
  }
}

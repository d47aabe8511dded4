import type { Spread } from '../core/forecast/spread.ts'
import type { BlockDeflater, StoredPlace } from '../formats/tileStore.ts'
import type { Film } from '../raster/film.ts'
import { type FilmPart, filmOfPart } from '../raster/filmParts.ts'
import { leakMapper, type Rows } from '../raster/leakMap.ts'
import { type PyramidPart, pyramidMaker } from '../raster/pyramid.ts'
import type { Hand } from './inTurns.ts'

/** What all parts of a picture have in common; plain data, so that any thread can be told of it. */
export type PictureTask = Readonly<{
  film: Omit<Film, 'bands'>
  spread: Spread
  marksAbove: number
  /** The finest level whose tiles are kept. */
  finest: number
}>

/** A tile as it is stored. */
export type StoredTile = Readonly<{ place: StoredPlace; deflated: Uint8Array }>

/** A part of a picture: its tiles, and what the coarser ones are made of. */
export type PicturePart = PyramidPart & Readonly<{ tiles: readonly StoredTile[] }>

/** Makes parts of a picture, each from a film that has at least its rows. One at a time. */
export function pictureMaker(
  { film, spread, marksAbove, finest }: PictureTask,
  { deflater }: Readonly<{ deflater: BlockDeflater }>,
): (rowsOf: Film, rows: Rows) => Promise<PicturePart> {
  const mapper = leakMapper(film, spread)
  const maker = pyramidMaker(film, { marksAbove, finest })
  return async (rowsOf, rows) => {
    const tiles: StoredTile[] = []
    const bands = mapper.bands(rowsOf, rows)
    const part = await maker.part(bands, rows, async ({ level, x, y, bytes }) => {
      tiles.push({ place: { level, x, y }, deflated: await deflater.whole(bytes) })
    })
    return { ...part, tiles }
  }
}

export function pictureHand(
  task: PictureTask,
  options: Readonly<{ deflater: BlockDeflater }>,
): Hand<FilmPart, PicturePart> {
  const make = pictureMaker(task, options)
  return (part) => make(filmOfPart(part, task.film), part.rows)
}

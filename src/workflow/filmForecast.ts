import type { ByteSink } from '../formats/bytes.ts'
import { type BlockDeflater, tileWriter } from '../formats/tileStore.ts'
import type { Film } from '../raster/film.ts'
import { leakMap } from '../raster/leakMap.ts'
import { pyramidMaker } from '../raster/pyramid.ts'
import { pyramidLevels, TILE_SIDE } from '../raster/tiles.ts'
import { expectFolding, spreadOf } from './exposurePhysics.ts'
import type { Setup } from './setup.ts'
import { MARKS_ABOVE } from './watchStencil.ts'

/** A film under one setup as a picture for any dose: its tiles are in the sink, this is the rest. */
export type FilmPicture = Readonly<{
  kind: 'film picture'
  widthPx: number
  heightPx: number
  pixelUm: number
  pyramid: Readonly<{
    tileSide: number
    /** Level 0 is the film's own pixels, each next one half as fine. */
    levels: readonly Readonly<{ cellPx: number; across: number; down: number }>[]
  }>
  /** How many film pixels have each leak code >> 4: the shares of any dose to half a percent. */
  leakCounts: readonly number[]
  sizeBytes: number
}>

/** Asked between strips of film; throws the caller's own reason when the work is to end. */
export type Stop = () => void

/**
 * One pass over a film: its leak map, cut into a pyramid of tiles, into the sink. Holds a strip of
 * leak map and a row of tiles, whatever the film's height. Dose-free: gel, hold and full dose may
 * come later.
 *
 * @param onRows told how many of the film's rows are done
 * @throws Failure where the light spreads over too many pixels; what the film's bands, the sink or
 *   `stop` throw
 */
export async function filmPicture(
  film: Film,
  setup: Setup,
  options: Readonly<{
    sink: Pick<ByteSink, 'write'>
    deflater: BlockDeflater
    marksAbove?: number
    onRows?: (rowsDone: number) => void
    stop?: Stop
  }>,
): Promise<FilmPicture> {
  const { sink, deflater, marksAbove = MARKS_ABOVE, onRows, stop } = options
  const { widthPx, heightPx, pixelUm } = film
  const spread = spreadOf(setup)
  expectFolding(spread, film)
  const writer = await tileWriter({ widthPx, heightPx, tileSide: TILE_SIDE }, { sink, deflater })
  const maker = pyramidMaker(film, {
    marksAbove,
    put: ({ level, x, y, bytes }) => writer.put({ level, x, y }, bytes),
  })
  for await (const band of leakMap(film, spread)) {
    stop?.()
    await maker.push(band)
    onRows?.(band.top + band.rows)
  }
  const sizeBytes = await writer.finish()
  return {
    kind: 'film picture',
    widthPx,
    heightPx,
    pixelUm,
    pyramid: {
      tileSide: TILE_SIDE,
      levels: pyramidLevels(film).map(({ cellPx, across, down }) => ({ cellPx, across, down })),
    },
    leakCounts: [...maker.leakCounts],
    sizeBytes,
  }
}

import type { ByteSink } from '../formats/bytes.ts'
import { type BlockDeflater, tileWriter } from '../formats/tileStore.ts'
import type { Film } from '../raster/film.ts'
import { type FilmPart, filmParts } from '../raster/filmParts.ts'
import { leakRowsAround } from '../raster/leakMap.ts'
import { finestShown, pyramidParts, pyramidTopMaker } from '../raster/pyramid.ts'
import { pyramidLevels, TILE_SIDE } from '../raster/tiles.ts'
import { expectFolding, spreadOf } from './exposurePhysics.ts'
import { type PicturePart, type PictureTask, pictureHand, pictureMaker } from './filmPicturePart.ts'
import { type Hand, inTurns } from './inTurns.ts'
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
    /** The finest level that is there; finer ones are still to be made. */
    finest: number
  }>
  /** How many film pixels have each leak code >> 4: the shares of any dose to half a percent. */
  leakCounts: readonly number[]
  sizeBytes: number
}>

/** Those who make the parts of a picture, told what all parts have in common. */
export type PictureHands = (task: PictureTask) => readonly Hand<FilmPart, PicturePart>[]

/** The finest level of a film's picture that is wanted at once: what is finer may come later. */
export function finestWanted(film: Omit<Film, 'bands'>): number {
  return finestShown(film)
}

/**
 * One pass over a film: its leak map, cut into a pyramid of tiles, into the sink. Holds for each
 * hand two parts of film and a row of tiles, whatever the film's height. Dose-free: gel, hold and
 * full dose may come later. The bytes are the same however many hands there are.
 *
 * @param finest the finest level that is made: filmFindings can make the others
 * @param hands one in this thread unless given; a film of one part is always made here
 * @param onRows told how many of the film's rows are done
 * @throws Failure where the light spreads over too many pixels; what the film's bands, the hands
 *   or the sink throw
 */
export async function filmPicture(
  film: Film,
  setup: Setup,
  options: Readonly<{
    sink: Pick<ByteSink, 'write'>
    deflater: BlockDeflater
    hands?: PictureHands
    marksAbove?: number
    finest?: number
    onRows?: (rowsDone: number) => void
  }>,
): Promise<FilmPicture> {
  const { sink, deflater, marksAbove = MARKS_ABOVE, finest = 0 } = options
  const { widthPx, heightPx, pixelUm, transmissionOf } = film
  const spread = spreadOf(setup)
  expectFolding(spread, film)
  const task = { film: { widthPx, heightPx, pixelUm, transmissionOf }, spread, marksAbove, finest }
  const writer = await tileWriter({ widthPx, heightPx, tileSide: TILE_SIDE }, { sink, deflater })
  const tops = pyramidTopMaker(film, {
    marksAbove,
    put: ({ level, x, y, bytes }) => writer.put({ level, x, y }, bytes),
  })
  const leakCounts: number[] = []
  for await (const { tiles, top, leakCounts: own } of partsMade(film, task, options)) {
    for (const [bin, count] of own.entries()) leakCounts[bin] = (leakCounts[bin] ?? 0) + count
    for (const { place, deflated } of tiles) await writer.putDeflated(place, deflated)
    if (top !== null) await tops.push(top)
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
      finest,
    },
    leakCounts,
    sizeBytes,
  }
}

/** The parts from top to bottom, made by whoever is free. */
async function* partsMade(
  film: Film,
  task: PictureTask,
  { deflater, hands, onRows = () => undefined }: Parameters<typeof filmPicture>[2],
): AsyncGenerator<PicturePart> {
  const { parts } = pyramidParts(film)
  const [first] = parts
  if (first !== undefined && parts.length === 1) {
    yield await pictureMaker(task, { deflater })(watched(film, onRows), first)
    return
  }
  let rowsDone = 0
  yield* inTurns(
    filmParts(film, { parts, margin: leakRowsAround(film, task.spread) }),
    (hands?.(task) ?? [pictureHand(task, { deflater })]).map((hand) => async (part) => {
      const made = await hand(part)
      rowsDone += part.rows.end - part.rows.top
      onRows(rowsDone)
      return made
    }),
  )
}

/** The film, telling how many of its rows have been asked for. */
function watched(film: Film, onRows: (rowsDone: number) => void): Film {
  return {
    ...film,
    async *bands() {
      for await (const band of film.bands()) {
        yield band
        onRows(band.top + band.rows)
      }
    },
  }
}

import { type CellRows, pyramidRows } from '../kernels/pyramidRows.ts'
import { codeOfLeak } from './leakCode.ts'
import type { LeakBand, Rows } from './leakMap.ts'
import {
  CLEAR_CODE,
  CLEAR_DENSITY,
  densityByte,
  densityByteOfCodes,
  densityOfByte,
  type PyramidLevel,
  pyramidLevels,
  TILE_SIDE,
  type Tile,
} from './tiles.ts'

type Size = Readonly<{ widthPx: number; heightPx: number }>
/** Takes a tile, which is its own from then on. */
type Put = (tile: Tile) => Promise<void>

/** What coarser levels are made of: row y of tiles of the last level that a part has. */
export type PyramidTop = CellRows & Readonly<{ y: number }>

export type PyramidPart = Readonly<{
  /** How many of the part's pixels have each leak code >> 4. */
  leakCounts: Uint32Array
  /** Null where the part is the whole pyramid, or no coarser level is made of it. */
  top: PyramidTop | null
}>

/** Makes a film's pyramid part by part, in any order; keeps what the parts share. One at a time. */
export type PyramidMaker = Readonly<{
  /** Tiles of rows top … end − 1, in an order that depends on the film alone. */
  part: (bands: AsyncIterable<LeakBand>, rows: Rows, put: Put) => Promise<PyramidPart>
}>

/** Which levels a pyramid is made of; all that a part can have unless said. */
type PyramidRange = Readonly<{
  /** The finest level whose tiles are put. */
  finest?: number
  /** The coarsest level that is made. */
  last?: number
}>

/** Film and leak within this of clear are clear: a tile of nothing else is not made. */
const CLEAR_WITHIN_DENSITY = 0.02
/** A part is as high as a tile of this level at most, and has about so many pixels at most. */
const MOST_PART_LEVEL = 2
const MOST_PART_PIXELS = 2 ** 24
/** As high as this, if it has half as many pixels as that: it is handed about with its margins. */
const FINE_PART_ROWS = 1024
/** What a screen shows of a whole film has no more cells than this. */
const MOST_SHOWN_CELLS = 2 ** 23

/** How a film's pyramid is made in parts: all levels up to the last of each are its own. */
export function pyramidParts(film: Size): Readonly<{ lastLevel: number; parts: readonly Rows[] }> {
  const top = pyramidLevels(film).length - 1
  let lastLevel = Math.min(MOST_PART_LEVEL, top)
  const rows = (): number => TILE_SIDE * 2 ** lastLevel
  while (lastLevel > 1 && rows() * film.widthPx > MOST_PART_PIXELS) lastLevel -= 1
  // of a film wider than that a part would be too large to be handed about: it stays in one
  if (rows() * film.widthPx > MOST_PART_PIXELS) {
    return { lastLevel: top, parts: [{ top: 0, end: film.heightPx }] }
  }
  const parts = Array.from({ length: Math.ceil(film.heightPx / rows()) }, (_, at) => ({
    top: at * rows(),
    end: Math.min(film.heightPx, (at + 1) * rows()),
  }))
  return { lastLevel, parts }
}

/**
 * The finest level that shows a whole film on any screen: what is finer is wanted only when one
 * comes nearer, and may be made later. 0 where there is nothing to put off.
 */
export function finestShown(film: Size): number {
  const { lastLevel, parts } = pyramidParts(film)
  if (parts.length === 1) return 0
  const cells = (level: number): number => (film.widthPx * film.heightPx) / 4 ** level
  let level = 0
  while (level < lastLevel && cells(level) > MOST_SHOWN_CELLS) level += 1
  return level
}

/** Parts of a film in which the levels below `finest` can be made by themselves. */
export function fineParts(film: Size, { finest }: Readonly<{ finest: number }>): readonly Rows[] {
  let high = TILE_SIDE * 2 ** Math.max(0, finest - 1)
  while (2 * high <= FINE_PART_ROWS && 4 * high * film.widthPx <= MOST_PART_PIXELS) high *= 2
  return Array.from({ length: Math.ceil(film.heightPx / high) }, (_, at) => ({
    top: at * high,
    end: Math.min(film.heightPx, (at + 1) * high),
  }))
}

/**
 * Makes a film's pyramid of tiles while its leak map streams past: level 0 row of tiles by row of
 * tiles, each coarser level as soon as the rows under it are whole.
 *
 * Memory: one row of tiles a level.
 *
 * @param marksAbove density from which a pixel belongs to a mark
 * @param last where it is given, nothing coarser will be made of the parts
 */
export function pyramidMaker(
  film: Size,
  { marksAbove, finest = 0, last }: PyramidRange & Readonly<{ marksAbove: number }>,
): PyramidMaker {
  const { widthPx } = film
  const levels = pyramidLevels(film)
  const lastLevel = last ?? pyramidParts(film).lastLevel
  const rows = pyramidRows({ widthPx, first: 0, last: lastLevel, ...sameForAll(marksAbove) })
  return {
    part: async (bands, { end }, put) => {
      rows.begin()
      let top: PyramidTop | null = null
      const take = async (level: number, y: number): Promise<void> => {
        if (level >= finest) await putRow({ rows, level: levels[level], y }, put)
        if (level === lastLevel && last === undefined && level + 1 < levels.length) {
          top = { ...rows.lastCells(), y }
        }
        rows.clear(level)
        if (level < lastLevel && isRowOver(levels[level], y)) await take(level + 1, y >> 1)
      }
      for await (const band of bands) {
        for (let row = 0; row < band.rows; row += 1) {
          const from = row * widthPx
          rows.pixels(
            band.codes.subarray(from, from + widthPx),
            band.filmCodes.subarray(from, from + widthPx),
          )
          const next = band.top + row + 1
          if (next === end) rows.end()
          if (next % TILE_SIDE === 0 || next === end) {
            await take(0, Math.ceil(next / TILE_SIDE) - 1)
          }
        }
      }
      return { leakCounts: rows.counts.slice(), top }
    },
  }
}

/** Makes the levels that parts have not, from what parts hand on, first to last. */
export function pyramidTopMaker(
  film: Size,
  { marksAbove, put }: Readonly<{ marksAbove: number; put: Put }>,
): Readonly<{ push: (top: PyramidTop) => Promise<void> }> {
  const levels = pyramidLevels(film)
  const { lastLevel } = pyramidParts(film)
  const rows = pyramidRows({
    widthPx: film.widthPx,
    first: lastLevel,
    last: levels.length - 1,
    ...sameForAll(marksAbove),
  })
  rows.begin()
  const take = async (level: number, y: number): Promise<void> => {
    if (level > lastLevel) await putRow({ rows, level: levels[level], y }, put)
    rows.clear(level)
    if (level + 1 < levels.length && isRowOver(levels[level], y)) await take(level + 1, y >> 1)
  }
  return {
    push: async (top) => {
      rows.cells(top)
      if (top.y + 1 === levels[lastLevel].down) rows.end()
      await take(lastLevel, top.y)
    },
  }
}

function isRowOver({ down }: PyramidLevel, y: number): boolean {
  return y % 2 === 1 || y + 1 === down
}

async function putRow(
  {
    rows,
    level: { level, across },
    y,
  }: Readonly<{ rows: ReturnType<typeof pyramidRows>; level: PyramidLevel; y: number }>,
  put: Put,
): Promise<void> {
  for (let x = 0; x < across; x += 1) {
    const bytes = rows.tile(level, x)
    if (bytes !== null) await put({ level, x, y, bytes: bytes.slice() })
  }
}

function sameForAll(marksAbove: number) {
  const densityOf = densityByteOfCodes()
  const film = [...densityOf.keys()].filter((code) => {
    return Math.abs(densityOf[code] - CLEAR_DENSITY) <= 1
  })
  return {
    markByte: densityByte(marksAbove),
    densityOf,
    transmissionOf: Float32Array.from({ length: 256 }, (_, byte) => 10 ** -densityOfByte(byte)),
    clear: {
      leak: [
        codeOfLeak(10 ** -CLEAR_WITHIN_DENSITY),
        codeOfLeak(10 ** CLEAR_WITHIN_DENSITY),
      ] as const,
      film: [Math.min(...film), Math.max(...film)] as const,
      code: CLEAR_CODE,
    },
  }
}

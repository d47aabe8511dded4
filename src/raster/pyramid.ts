import { codeOfLeak, codeRow } from './leakCode.ts'
import type { LeakBand } from './leakMap.ts'
import { foldCells, foldPixels, type GrowingTile, growingTile } from './pyramidFold.ts'
import {
  CLEAR_DENSITY,
  densityByte,
  densityByteOfCodes,
  pyramidLevels,
  TILE_SIDE,
  type Tile,
} from './tiles.ts'

export type PyramidMaker = Readonly<{
  /** The next rows; resolves when the tiles they completed have been taken. */
  push: (band: LeakBand) => Promise<void>
}>

/** Film and leak within this of clear are clear: a tile of nothing else is not made. */
const CLEAR_WITHIN_DENSITY = 0.02
const CELLS: number = TILE_SIDE * TILE_SIDE

/**
 * Makes a film's pyramid of tiles while its leak map streams past: level 0 row of tiles by row of
 * tiles, each coarser level as soon as the rows under it are whole.
 *
 * Memory: one row of tiles a level, and of those only the ones that are not clear film.
 *
 * @param options marksAbove: density from which a pixel belongs to a mark; put takes each tile,
 *   which is its own from then on, in an order that depends on the film alone
 */
export function pyramidMaker(
  film: Readonly<{ widthPx: number; heightPx: number }>,
  { marksAbove, put }: Readonly<{ marksAbove: number; put: (tile: Tile) => Promise<void> }>,
): PyramidMaker {
  const { widthPx, heightPx } = film
  const levels = pyramidLevels(film)
  const rows = levels.map(() => new Map<number, GrowingTile>())
  const markByte = densityByte(marksAbove)
  const densityOf = densityByteOfCodes()
  const clearFrom = codeOfLeak(10 ** -CLEAR_WITHIN_DENSITY)
  const clearTo = codeOfLeak(10 ** CLEAR_WITHIN_DENSITY)
  const filmCodes = new Uint16Array(widthPx)
  const filmLine = new Uint8Array(widthPx)

  /** One row of film pixels into its row of tiles. */
  const addRow = (band: LeakBand, row: number): void => {
    const from = row * widthPx
    readFilmRow(band, row, filmCodes)
    for (let x = 0; x < widthPx; x += 1) filmLine[x] = densityOf[filmCodes[x]]
    const line = ((band.top + row) % TILE_SIDE) * TILE_SIDE
    for (let tileX = 0, left = 0; left < widthPx; tileX += 1, left += TILE_SIDE) {
      const end = Math.min(widthPx, left + TILE_SIDE)
      let tile = rows[0].get(tileX)
      if (tile === undefined) {
        if (isClear(band.codes, from, left, end)) continue
        tile = growingTile(0)
        rows[0].set(tileX, tile)
      }
      const { bytes } = tile
      for (let x = left, to = line; x < end; x += 1, to += 1) {
        const code = band.codes[from + x]
        bytes[to] = code >> 8
        bytes[CELLS + to] = code & 0xf0
        bytes[2 * CELLS + to] = filmLine[x]
      }
    }
  }

  const isClear = (codes: Uint16Array, from: number, left: number, end: number): boolean => {
    for (let x = left; x < end; x += 1) {
      const code = codes[from + x]
      if (code < clearFrom || code > clearTo) return false
      if (Math.abs(filmLine[x] - CLEAR_DENSITY) > 1) return false
    }
    return true
  }

  /** Hands over a whole row of tiles, folded into the row above it. */
  const closeRow = async (level: number, y: number): Promise<void> => {
    const last = level + 1 === levels.length
    for (const [x, tile] of [...rows[level]].sort(([a], [b]) => a - b)) {
      if (!last) {
        const above = rows[level + 1]
        const parent = above.get(x >> 1) ?? growingTile(level + 1)
        above.set(x >> 1, parent)
        const quarter = { x: x & 1, y: y & 1 }
        if (level === 0) foldPixels(tile, parent, { quarter, markByte })
        else foldCells(tile, parent, { quarter })
      }
      await put({ level, x, y, bytes: tile.bytes })
    }
    rows[level].clear()
    if (!last && (y % 2 === 1 || y + 1 === levels[level].down)) await closeRow(level + 1, y >> 1)
  }

  return {
    push: async (band) => {
      for (let row = 0; row < band.rows; row += 1) {
        addRow(band, row)
        const next = band.top + row + 1
        if (next % TILE_SIDE === 0 || next === heightPx) {
          await closeRow(0, Math.ceil(next / TILE_SIDE) - 1)
        }
      }
    },
  }
}

/** Codes of the film's own transmissions along a row of a band. */
function readFilmRow({ film, widthPx }: LeakBand, row: number, target: Uint16Array): void {
  const { values } = film
  const first = film.start + row * film.stride
  const bits = new Uint32Array(values.buffer, values.byteOffset + 4 * first, widthPx)
  codeRow(bits, target, { at: 0, count: widthPx })
}

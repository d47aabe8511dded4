import { codeOfLeak } from './leakCode.ts'
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
  /** How many film pixels so far have each leak code >> 4. */
  leakCounts: Float64Array
}>

/** Film and leak within this of clear are clear: a tile of nothing else is not made. */
const CLEAR_WITHIN_DENSITY = 0.02
const LEAK_BINS = 4096
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
  const leakCounts = new Float64Array(LEAK_BINS)

  /** One row of film pixels into its row of tiles. */
  const addRow = ({ top, codes, filmCodes }: LeakBand, row: number): void => {
    const line = ((top + row) % TILE_SIDE) * TILE_SIDE
    for (let tileX = 0, left = 0; left < widthPx; tileX += 1, left += TILE_SIDE) {
      const count = Math.min(TILE_SIDE, widthPx - left)
      const from = row * widthPx + left
      const end = from + count
      let tile = rows[0].get(tileX)
      if (isOneValue(codes, from, end) && isOneValue(filmCodes, from, end)) {
        const code = codes[from]
        const density = densityOf[filmCodes[from]]
        leakCounts[code >> 4] += count
        if (tile === undefined && isClear(code, density)) continue
        tile ??= startTile(tileX)
        tile.bytes.fill(code >> 8, line, line + count)
        tile.bytes.fill(code & 0xf0, CELLS + line, CELLS + line + count)
        tile.bytes.fill(density, 2 * CELLS + line, 2 * CELLS + line + count)
        continue
      }
      for (let at = from; at < end; at += 1) leakCounts[codes[at] >> 4] += 1
      if (tile === undefined && isClearRun(codes, filmCodes, from, end)) continue
      tile ??= startTile(tileX)
      const { bytes } = tile
      for (let at = from, to = line; at < end; at += 1, to += 1) {
        const code = codes[at]
        bytes[to] = code >> 8
        bytes[CELLS + to] = code & 0xf0
        bytes[2 * CELLS + to] = densityOf[filmCodes[at]]
      }
    }
  }

  const startTile = (tileX: number): GrowingTile => {
    const tile = growingTile(0)
    rows[0].set(tileX, tile)
    return tile
  }
  const isClear = (code: number, density: number): boolean =>
    code >= clearFrom && code <= clearTo && Math.abs(density - CLEAR_DENSITY) <= 1
  const isClearRun = (
    codes: Uint16Array,
    filmCodes: Uint16Array,
    from: number,
    end: number,
  ): boolean => {
    for (let at = from; at < end; at += 1) {
      if (!isClear(codes[at], densityOf[filmCodes[at]])) return false
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
    leakCounts,
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

function isOneValue(values: Uint16Array, from: number, end: number): boolean {
  const first = values[from]
  for (let at = from + 1; at < end; at += 1) if (values[at] !== first) return false
  return true
}

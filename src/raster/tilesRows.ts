import { codeOfLeak } from './leakCode.ts'
import type { LeakBand } from './leakMap.ts'
import {
  CLEAR_CODE,
  CLEAR_DENSITY,
  densityOfByte,
  PIXEL_PLANES,
  TILE_SIDE,
  tileBytes,
} from './tiles.ts'

/** Rows of level 0 tiles as bands of a leak map. */
export type PixelRows = Readonly<{
  across: number
  down: number
  /** Row y of tiles, null where the film is clear; valid until the next is asked for. */
  band: (y: number, tiles: readonly (Uint8Array | null)[]) => LeakBand
}>

const CELLS: number = TILE_SIDE * TILE_SIDE

export function pixelRows({
  widthPx,
  heightPx,
}: Readonly<{ widthPx: number; heightPx: number }>): PixelRows {
  const codes = new Uint16Array(widthPx * TILE_SIDE)
  const filmCodes = new Uint16Array(widthPx * TILE_SIDE)
  const filmCodeOf = Uint16Array.from({ length: 256 }, (_, byte) =>
    codeOfLeak(10 ** -densityOfByte(byte)),
  )
  const across = Math.ceil(widthPx / TILE_SIDE)
  const clearCode = CLEAR_CODE & 0xfff0
  return {
    across,
    down: Math.ceil(heightPx / TILE_SIDE),
    band: (y, tiles) => {
      const top = y * TILE_SIDE
      const rows = Math.min(TILE_SIDE, heightPx - top)
      for (let x = 0; x < across; x += 1) {
        const left = x * TILE_SIDE
        const count = Math.min(TILE_SIDE, widthPx - left)
        const bytes = tiles[x] ?? null
        if (bytes !== null && bytes.length !== tileBytes(0)) {
          throw new RangeError(`tiles: expected ${tileBytes(0)} bytes, got ${bytes.length}`)
        }
        for (let row = 0; row < rows; row += 1) {
          const to = row * widthPx + left
          if (bytes === null) {
            codes.fill(clearCode, to, to + count)
            filmCodes.fill(filmCodeOf[CLEAR_DENSITY], to, to + count)
            continue
          }
          const from = row * TILE_SIDE
          for (let at = 0; at < count; at += 1) {
            codes[to + at] = (bytes[from + at] << 8) | bytes[CELLS + from + at]
            filmCodes[to + at] = filmCodeOf[bytes[PIXEL_PLANES.film * CELLS + from + at]]
          }
        }
      }
      const size = rows * widthPx
      return {
        top,
        rows,
        widthPx,
        codes: codes.subarray(0, size),
        filmCodes: filmCodes.subarray(0, size),
      }
    },
  }
}

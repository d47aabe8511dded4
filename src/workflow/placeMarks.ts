import type { Box } from '../core/placement/problem.ts'
import { CELL_PLANES, pyramidLevels, TILE_SIDE } from '../raster/tiles.ts'

/** A film as its picture is cut into tiles. */
type TiledFilm = Readonly<{ widthPx: number; heightPx: number; pixelUm: number }>

/** The level of a film’s picture that is one tile: all of it, small. */
export function wholeLevel(film: TiledFilm): number {
  return pyramidLevels(film).length - 1
}

/**
 * The part of a sheet that has marks, to the cells of its smallest picture: outward, so that no
 * mark is left out.
 *
 * @param tile planes of the one tile of `wholeLevel`
 * @returns null where there are no marks, or the film is so small that it has no cells
 */
export function marksExtent(tile: Uint8Array, film: TiledFilm): Box | null {
  const level = wholeLevel(film)
  if (level === 0) return null
  const cells = TILE_SIDE * TILE_SIDE
  const marks = tile.subarray(CELL_PLANES.marks * cells, (CELL_PLANES.marks + 1) * cells)
  let [left, top, right, bottom] = [TILE_SIDE, TILE_SIDE, -1, -1]
  for (let at = 0; at < cells; at++) {
    if (!marks[at]) continue
    const [x, y] = [at % TILE_SIDE, Math.floor(at / TILE_SIDE)]
    left = Math.min(left, x)
    right = Math.max(right, x)
    top = Math.min(top, y)
    bottom = Math.max(bottom, y)
  }
  if (right < 0) return null
  const cellMm = (2 ** level * film.pixelUm) / 1000
  const sheet = {
    widthMm: (film.widthPx * film.pixelUm) / 1000,
    heightMm: (film.heightPx * film.pixelUm) / 1000,
  }
  return {
    xMm: left * cellMm,
    yMm: top * cellMm,
    widthMm: Math.min(sheet.widthMm, (right + 1) * cellMm) - left * cellMm,
    heightMm: Math.min(sheet.heightMm, (bottom + 1) * cellMm) - top * cellMm,
  }
}

import {
  CELL_PLANES,
  densityByte,
  PIXEL_PLANES,
  pyramidLevels,
  TILE_SIDE,
  type TilePlace,
} from '../raster/tiles.ts'
import { MARKS_ABOVE } from './watchStencil.ts'

/** How much of a film is marks, and how much of the marks lies close to an edge; 0 … 1. */
export type MarksCover = Readonly<{ coverShare: number; edgeShare: number }>

/** Cells that are looked at are about so wide: what is not whole in one has an edge in it. Judged. */
const CELL_UM = 500
const WHOLE = 250

/** The level to count on, and the places of its tiles. */
export function coverTiles(
  film: Readonly<{ widthPx: number; heightPx: number; pixelUm: number }>,
): readonly TilePlace[] {
  const levels = pyramidLevels(film)
  const level = Math.max(
    0,
    Math.min(levels.length - 1, Math.round(Math.log2(CELL_UM / film.pixelUm))),
  )
  const { across, down } = levels[level] ?? { across: 0, down: 0 }
  return Array.from({ length: across * down }, (_, at) => ({
    level,
    x: at % across,
    y: Math.floor(at / across),
  }))
}

/**
 * Counts the marks of a film in its picture.
 *
 * @param tiles of `coverTiles`, inflated; null where the film is clear
 */
export function marksCover(
  film: Readonly<{ widthPx: number; heightPx: number }>,
  tiles: readonly Readonly<{ place: TilePlace; bytes: Uint8Array | null }>[],
): MarksCover {
  const cells = TILE_SIDE * TILE_SIDE
  let [covered, whole] = [0, 0]
  const level = tiles[0]?.place.level ?? 0
  for (const { bytes } of tiles) {
    if (bytes === null) continue
    const plane = level === 0 ? PIXEL_PLANES.film : CELL_PLANES.marks
    const mark = densityByte(MARKS_ABOVE)
    for (let at = plane * cells; at < (plane + 1) * cells; at++) {
      const byte = bytes[at] ?? 0
      const marks = level === 0 ? (byte >= mark ? 255 : 0) : byte
      covered += marks
      if (marks >= WHOLE) whole += marks
    }
  }
  const filmCells = (film.widthPx * film.heightPx) / 4 ** level
  const coverShare = Math.min(1, covered / 255 / filmCells)
  return { coverShare, edgeShare: covered === 0 ? 0 : (covered - whole) / covered }
}

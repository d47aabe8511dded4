import { codeOfLeak } from './leakCode.ts'

/** Cells along a side of a tile, on every level. */
export const TILE_SIDE = 256
const CELLS: number = TILE_SIDE * TILE_SIDE

/**
 * A tile is its planes of TILE_SIDE² bytes, one after another; what lies outside the film is clear.
 *
 * Level 0, one cell a film pixel: the leak code's high byte, its low byte (the last four bits 0:
 * twelve tell doses 0.4 % apart), the film's density.
 *
 * Level k, one cell 2^k × 2^k pixels: four leak codes >> 8 in rising order, each for a quarter of
 * what the cell speaks of; the film's density there; the share of marks 0 … 255, at least 1 where
 * there is any. A cell speaks of its mark pixels as soon as it has one, else of its ground: so a
 * thin line keeps its own leak however small it is drawn.
 */
export const PIXEL_PLANES: Readonly<{ high: 0; low: 1; film: 2; count: 3 }> = {
  high: 0,
  low: 1,
  film: 2,
  count: 3,
}
export const CELL_PLANES: Readonly<{ codes: 0; film: 4; marks: 5; count: 6 }> = {
  codes: 0,
  film: 4,
  marks: 5,
  count: 6,
}

export type TilePlace = Readonly<{ level: number; x: number; y: number }>
export type Tile = TilePlace & Readonly<{ bytes: Uint8Array }>

/** How a film falls into tiles: level 0 the finest, the last one a single tile. */
export type PyramidLevel = Readonly<{ level: number; cellPx: number; across: number; down: number }>

export function tileBytes(level: number): number {
  return CELLS * (level === 0 ? PIXEL_PLANES.count : CELL_PLANES.count)
}

export function pyramidLevels(
  film: Readonly<{ widthPx: number; heightPx: number }>,
): readonly PyramidLevel[] {
  const levels: PyramidLevel[] = []
  for (let level = 0; ; level += 1) {
    const cellPx = 2 ** level
    const across = Math.ceil(film.widthPx / (cellPx * TILE_SIDE))
    const down = Math.ceil(film.heightPx / (cellPx * TILE_SIDE))
    levels.push({ level, cellPx, across, down })
    if (across === 1 && down === 1) return levels
  }
}

/** Densities are kept in steps of 0.02 from −0.1: 255 is 5 and more. */
const STEPS_PER_DENSITY = 50
const LEAST_DENSITY = -0.1

/** The byte of a density; from a step's lower end on, so 0.3 is the first of its step. */
export function densityByte(density: number): number {
  const step = Math.floor((density - LEAST_DENSITY) * STEPS_PER_DENSITY + 1e-6)
  return Math.min(255, Math.max(0, step))
}

/** The middle of what a byte stands for. */
export function densityOfByte(byte: number): number {
  return (byte + 0.5) / STEPS_PER_DENSITY + LEAST_DENSITY
}

/** Density byte of every leak code, for film transmissions that are coded like leaks. */
export function densityByteOfCodes(): Uint8Array {
  const bytes = new Uint8Array(65536)
  let end = 65536
  for (let byte = 0; byte < 255; byte += 1) {
    // codes from the one that is just less dense than the byte's upper end
    const first = codeOfLeak(10 ** -((byte + 1) / STEPS_PER_DENSITY + LEAST_DENSITY)) + 1
    bytes.fill(byte, first, end)
    end = first
  }
  return bytes.fill(255, 0, end)
}

/** What clear film reads as. */
export const CLEAR_CODE: number = codeOfLeak(1)
export const CLEAR_DENSITY: number = densityByte(0)

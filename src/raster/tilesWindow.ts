import {
  CELL_PLANES,
  CLEAR_CODE,
  CLEAR_DENSITY,
  PIXEL_PLANES,
  TILE_SIDE,
  type TilePlace,
} from './tiles.ts'

/** Cells of one level in a rectangle, gathered from the tiles that are at hand. */
export type CellWindow = Readonly<{
  left: number
  top: number
  across: number
  down: number
  level: number
  /** As ViewPlanes has them. */
  codes: Uint32Array
  /** How much ink a cell's marks are worth, 0 … 255. */
  cover: Uint8Array
  film: Uint8Array
}>

/** A tile's planes; null where the film is clear, undefined while it has not come. */
export type TileAt = (place: TilePlace) => Uint8Array | null | undefined

const CELLS: number = TILE_SIDE * TILE_SIDE
const CLEAR_FOUR: number = (CLEAR_CODE >> 8) * 0x01010101
const CLEAR_ONE: number = CLEAR_CODE & 0xfff0

/** Ink for a share of marks: never less than a third once there is any, full from two thirds. */
const SEEN: Uint8Array = new Uint8Array(256).map((_, share) =>
  share === 0 ? 0 : Math.min(255, 85 + share),
)

/**
 * Where a tile has not come yet its cells are taken from the nearest coarser one that has, so a
 * picture is never empty while it becomes sharp.
 */
export function cellWindow(
  place: Readonly<{ level: number; left: number; top: number; across: number; down: number }>,
  { tileAt, levels, markByte }: Readonly<{ tileAt: TileAt; levels: number; markByte: number }>,
): CellWindow {
  const { level, left, top, across, down } = place
  const size = across * down
  const window: CellWindow = {
    ...place,
    codes: new Uint32Array(size).fill(level === 0 ? CLEAR_ONE : CLEAR_FOUR),
    cover: new Uint8Array(size),
    film: new Uint8Array(size).fill(CLEAR_DENSITY),
  }
  for (let y = Math.max(0, Math.floor(top / TILE_SIDE)); y * TILE_SIDE < top + down; y += 1) {
    for (let x = Math.max(0, Math.floor(left / TILE_SIDE)); x * TILE_SIDE < left + across; x += 1) {
      for (let up = 0; level + up < levels; up += 1) {
        const bytes = tileAt({ level: level + up, x: x >> up, y: y >> up })
        if (bytes === undefined) continue
        if (bytes !== null) {
          if (level === 0 && up === 0) copyPixels(window, { x, y, bytes, markByte })
          else copyCells(window, { x, y, up, bytes })
        }
        break
      }
    }
  }
  return window
}

type Copied = Readonly<{ x: number; y: number; bytes: Uint8Array }>

function copyPixels(
  window: CellWindow,
  { x, y, bytes, markByte }: Copied & Readonly<{ markByte: number }>,
): void {
  const { left, top, across, codes, cover, film } = window
  const area = overlap(window, x, y)
  for (let row = area.top; row < area.bottom; row += 1) {
    let to = (row - top) * across + area.left - left
    let from = (row - y * TILE_SIDE) * TILE_SIDE + area.left - x * TILE_SIDE
    for (let column = area.left; column < area.right; column += 1, to += 1, from += 1) {
      const density = bytes[PIXEL_PLANES.film * CELLS + from]
      codes[to] = (bytes[from] << 8) | bytes[CELLS + from]
      film[to] = density
      cover[to] = density >= markByte ? 255 : 0
    }
  }
}

/** A tile of this level, or of a level `up` coarser whose cells are spread out. */
function copyCells(
  window: CellWindow,
  { x, y, up, bytes }: Copied & Readonly<{ up: number }>,
): void {
  const { level, left, top, across, codes, cover, film } = window
  const area = overlap(window, x, y)
  const firstX = (x >> up) * TILE_SIDE
  const firstY = (y >> up) * TILE_SIDE
  for (let row = area.top; row < area.bottom; row += 1) {
    let to = (row - top) * across + area.left - left
    const line = ((row >> up) - firstY) * TILE_SIDE - firstX
    for (let column = area.left; column < area.right; column += 1, to += 1) {
      const from = line + (column >> up)
      const marks = bytes[CELL_PLANES.marks * CELLS + from]
      film[to] = bytes[CELL_PLANES.film * CELLS + from]
      if (level === 0) {
        codes[to] = (bytes[CELLS + from] << 8) | 0x80
        cover[to] = SEEN[marks]
      } else {
        codes[to] =
          bytes[from] |
          (bytes[CELLS + from] << 8) |
          (bytes[2 * CELLS + from] << 16) |
          (bytes[3 * CELLS + from] << 24)
        cover[to] = SEEN[marks]
      }
    }
  }
}

function overlap({ left, top, across, down }: CellWindow, x: number, y: number) {
  return {
    left: Math.max(left, x * TILE_SIDE),
    top: Math.max(top, y * TILE_SIDE),
    right: Math.min(left + across, (x + 1) * TILE_SIDE),
    bottom: Math.min(top + down, (y + 1) * TILE_SIDE),
  }
}

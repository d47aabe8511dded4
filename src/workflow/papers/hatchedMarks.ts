import { rowBytesOf } from '../../formats/bilevel.ts'
import type { PageItem } from '../../formats/filmPage.ts'
import type { Place } from '../../formats/pagePath.ts'
import type { Plane } from '../../raster/inspect/plane.ts'

/** Dots of the picture, and how many of them from hatch to hatch. */
const DOT_UM = 200
const HATCH = 5

/**
 * Marks as a light picture to find one's way by: outlined and hatched, so that rings and numbers
 * stand out and little ink is used.
 *
 * @param marks shares, cell by cell; cellUm: their side
 */
export function hatchedMarks(
  marks: Plane,
  { xMm, yMm, cellUm }: Place & Readonly<{ cellUm: number }>,
): PageItem {
  const widthPx = Math.max(1, Math.round((marks.widthPx * cellUm) / DOT_UM))
  const heightPx = Math.max(1, Math.round((marks.heightPx * cellUm) / DOT_UM))
  const isMark = (x: number, y: number): boolean => {
    const column = Math.floor(((x + 0.5) * DOT_UM) / cellUm)
    const row = Math.floor(((y + 0.5) * DOT_UM) / cellUm)
    const inside = column >= 0 && row >= 0 && column < marks.widthPx && row < marks.heightPx
    return inside && (marks.values[row * marks.widthPx + column] ?? 0) > 0.5
  }
  const rowBytes = rowBytesOf({ widthPx })
  const bits = new Uint8Array(rowBytes * heightPx)
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      if (!isMark(x, y)) continue
      const isEdge =
        !isMark(x - 1, y) || !isMark(x + 1, y) || !isMark(x, y - 1) || !isMark(x, y + 1)
      const at = y * rowBytes + (x >> 3)
      if (isEdge || (x + y) % HATCH === 0) bits[at] = (bits[at] ?? 0) | (0x80 >> (x & 7))
    }
  }
  return {
    kind: 'bitmap',
    film: { widthPx, heightPx, pixelUm: DOT_UM, bands: [{ rows: heightPx, bits }] },
    xMm,
    yMm,
  }
}

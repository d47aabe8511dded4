import type { Plane } from './plane.ts'

/** What a cell is, against what it should be. */
export const DIFFERENCE = {
  none: 0,
  openWeak: 1,
  openStrong: 2,
  shutWeak: 3,
  shutStrong: 4,
} as const

export type Limits = Readonly<{
  /** Openness above (open) or below (shut) what can be expected, from which a cell counts. */
  openWeak: number
  openStrong: number
  shutWeak: number
  shutStrong: number
}>

/**
 * Cells that are more open or more shut than anything the film puts within one cell of them: so
 * much may the straightened photo be off.
 *
 * @param openness 0 … 1; expected: the film as blurred as the photo
 */
export function differences(openness: Plane, expected: Plane, limits: Limits): Uint8Array {
  const { widthPx, heightPx, values } = openness
  const out = new Uint8Array(widthPx * heightPx)
  const { openWeak, openStrong, shutWeak, shutStrong } = limits
  for (let y = 0, at = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1, at += 1) {
      const full = values[at]
      // brighter than open is still only open
      const seen = full > 1 ? 1 : full
      const off = seen - expected.values[at]
      // the neighbours can only bring it nearer
      if (off > openWeak) {
        const over = seen - around(expected, x, y, Math.max)
        if (over > openWeak)
          out[at] = over > openStrong ? DIFFERENCE.openStrong : DIFFERENCE.openWeak
      } else if (-off > shutWeak) {
        const under = around(expected, x, y, Math.min) - seen
        if (under > shutWeak)
          out[at] = under > shutStrong ? DIFFERENCE.shutStrong : DIFFERENCE.shutWeak
      }
    }
  }
  return out
}

/** Least or most of a cell and its eight neighbours. */
function around(
  { widthPx, heightPx, values }: Plane,
  x: number,
  y: number,
  end: (a: number, b: number) => number,
): number {
  const [left, right] = [Math.max(0, x - 1), Math.min(widthPx - 1, x + 1)]
  let found = values[y * widthPx + x]
  for (let row = Math.max(0, y - 1); row <= Math.min(heightPx - 1, y + 1); row += 1) {
    for (let column = left; column <= right; column += 1)
      found = end(found, values[row * widthPx + column])
  }
  return found
}

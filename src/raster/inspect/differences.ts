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
  const { widthPx, heightPx } = openness
  const out = new Uint8Array(widthPx * heightPx)
  const low = new Float32Array(widthPx)
  const high = new Float32Array(widthPx)
  for (let y = 0; y < heightPx; y += 1) {
    columnEnds(expected, y, low, high)
    const from = y * widthPx
    for (let x = 0; x < widthPx; x += 1) {
      const left = x > 0 ? x - 1 : 0
      const right = x < widthPx - 1 ? x + 1 : x
      let least = low[left]
      if (low[x] < least) least = low[x]
      if (low[right] < least) least = low[right]
      let most = high[left]
      if (high[x] > most) most = high[x]
      if (high[right] > most) most = high[right]
      const full = openness.values[from + x]
      // brighter than open is still only open
      const seen = full > 1 ? 1 : full
      if (seen - most > limits.openWeak) out[from + x] = seen - most > limits.openStrong ? 2 : 1
      else if (least - seen > limits.shutWeak)
        out[from + x] = least - seen > limits.shutStrong ? 4 : 3
    }
  }
  return out
}

/** Least and most of three rows, column by column. */
function columnEnds(
  { widthPx, heightPx, values }: Plane,
  y: number,
  low: Float32Array,
  high: Float32Array,
): void {
  const above = Math.max(0, y - 1) * widthPx
  const here = y * widthPx
  const below = Math.min(heightPx - 1, y + 1) * widthPx
  for (let x = 0; x < widthPx; x += 1) {
    const [a, b, c] = [values[above + x], values[here + x], values[below + x]]
    low[x] = a < b ? (a < c ? a : c) : b < c ? b : c
    high[x] = a > b ? (a > c ? a : c) : b > c ? b : c
  }
}

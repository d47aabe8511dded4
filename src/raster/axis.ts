import { FAR, type Mask, type NearestGround } from './nearestGround.ts'

/** Rows of slope that the axis test looks up and down. */
export const AXIS_LOOK = 3

/**
 * Width of the mark in pixels where its medial axis passes, 0 beside it, along one row's runs;
 * −1 where no ground is within the limit.
 *
 * A pixel is on the axis when it and its right or lower neighbour have their nearest ground on
 * different sides: the two ground points at least 1.75 times their distance apart (180 degrees
 * gives 2, a square corner's branch 1.4). Lines one pixel wide have ground on both sides at once.
 * Spurs into a rough edge are dropped: from them the distance to the ground climbs steeply.
 *
 * @param near nearest ground of rows row − 3 … row + 3 at least, `row` counted in its arrays
 * @source integer-medial-axis
 */
export function axisRow(
  mask: Mask,
  near: NearestGround,
  { maskRow, row, rows }: Readonly<{ maskRow: number; row: number; rows: number }>,
  runs: Readonly<{ spans: Int32Array; count: number }>,
  widths: Float32Array,
): void {
  const { widthPx } = mask
  const at = row * widthPx
  for (let run = 0; run < runs.count; run += 1) {
    const from = runs.spans[2 * run]
    const to = runs.spans[2 * run + 1]
    for (let x = from; x <= to; x += 1) {
      const own = near.squared[at + x]
      if (own === FAR) {
        widths[x] = -1
        continue
      }
      // each look is at a neighbour that is a mark too and no further from the ground
      let apart = 0
      if (x < to) apart = groundsApart(near, widthPx, at, x, 1, 0, own + 1)
      if (x > from) apart = Math.max(apart, groundsApart(near, widthPx, at, x, -1, 0, own))
      if (row + 1 < rows) apart = Math.max(apart, groundsApart(near, widthPx, at, x, 0, 1, own + 1))
      if (row > 0) apart = Math.max(apart, groundsApart(near, widthPx, at, x, 0, -1, own))
      let width = apart >= 8 && apart >= 3.06 * own ? Math.sqrt(apart) - 1 : 0
      if (width === 0 && own === 1 && isOneWide(mask, maskRow, x, from === to)) width = 1
      widths[x] = width > 0 && !climbs(near, widthPx, row, rows, x) ? width : 0
    }
  }
}

/**
 * Squared distance between the ground points of (x, row) and of its neighbour, 0 where the
 * neighbour is ground itself or its squared distance is not below `under`.
 */
function groundsApart(
  { squared, column, down }: NearestGround,
  widthPx: number,
  at: number,
  x: number,
  dx: number,
  dy: number,
  under: number,
): number {
  const there = at + dy * widthPx
  const other = squared[there + x + dx]
  if (other === 0 || other >= under) return 0
  const px = column[at + x]
  const qx = column[there + x + dx]
  // a column outside the film is ground beside the pixel
  const py = px < 0 || px >= widthPx ? 0 : down[at + px]
  const qy = qx < 0 || qx >= widthPx ? 0 : down[there + qx]
  return (px - qx) ** 2 + (py - qy - dy) ** 2
}

/** Ground on both sides at once: left and right, or above and below. */
function isOneWide(
  { widthPx, rows, values }: Mask,
  row: number,
  x: number,
  alone: boolean,
): boolean {
  if (alone) return true
  const above = row > 0 && values[(row - 1) * widthPx + x] === 1
  const below = row + 1 < rows && values[(row + 1) * widthPx + x] === 1
  return !above && !below
}

/** Steps of about three pixels, and the rise over each that is too steep for an axis. */
const LOOKS: readonly Readonly<{ dx: number; dy: number; rise: number }>[] = [
  { dx: AXIS_LOOK, dy: 0 },
  { dx: -AXIS_LOOK, dy: 0 },
  { dx: 0, dy: AXIS_LOOK },
  { dx: 0, dy: -AXIS_LOOK },
  { dx: 2, dy: 2 },
  { dx: -2, dy: 2 },
  { dx: 2, dy: -2 },
  { dx: -2, dy: -2 },
].map(({ dx, dy }) => ({ dx, dy, rise: 0.75 * Math.hypot(dx, dy) }))

function climbs(
  { squared }: NearestGround,
  widthPx: number,
  row: number,
  rows: number,
  x: number,
): boolean {
  const own = Math.sqrt(squared[row * widthPx + x])
  for (let look = 0; look < LOOKS.length; look += 1) {
    const column = x + LOOKS[look].dx
    const line = row + LOOKS[look].dy
    if (column < 0 || column >= widthPx || line < 0 || line >= rows) continue
    const there = squared[line * widthPx + column]
    if (there > 0 && Math.sqrt(there) - own > LOOKS[look].rise) return true
  }
  return false
}

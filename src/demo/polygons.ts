import type { Point } from './curve.ts'

/** Outlines, each closed; an inner one running the other way round is a hole. */
export type Piece = readonly (readonly Point[])[]

/**
 * Exact areas: for each edge and row, the area to its right is added up; a running sum along the
 * row then gives the share of each pixel inside (signed area, as in any exact polygon filler).
 */
export function shareInside(
  piece: Piece,
  band: Readonly<{ widthPx: number; top: number; rows: number; pixelMm: number }>,
): Shares | null {
  let left = Infinity
  let right = -Infinity
  let high = Infinity
  let low = -Infinity
  for (const ring of piece) {
    for (const { xMm, yMm } of ring) {
      left = Math.min(left, xMm)
      right = Math.max(right, xMm)
      high = Math.min(high, yMm)
      low = Math.max(low, yMm)
    }
  }
  const { widthPx, top, rows, pixelMm } = band
  const startColumn = Math.max(0, Math.floor(left / pixelMm))
  const endColumn = Math.min(widthPx, Math.ceil(right / pixelMm) + 1)
  const startRow = Math.max(top, Math.floor(high / pixelMm))
  const endRow = Math.min(top + rows, Math.ceil(low / pixelMm) + 1)
  const columns = endColumn - startColumn
  if (columns <= 0 || endRow <= startRow) return null
  const sums = new Float32Array((columns + 2) * (endRow - startRow))
  const shares = {
    startColumn,
    columns,
    startRow,
    rows: endRow - startRow,
    stride: columns + 2,
    sums,
  }
  for (const ring of piece) {
    let from = ring[ring.length - 1]
    for (const to of ring) {
      addEdge(shares, {
        x0: from.xMm / pixelMm - startColumn,
        y0: from.yMm / pixelMm - startRow,
        x1: to.xMm / pixelMm - startColumn,
        y1: to.yMm / pixelMm - startRow,
      })
      from = to
    }
  }
  for (let row = 0; row < shares.rows; row += 1) {
    let sum = 0
    for (let at = row * shares.stride; at < (row + 1) * shares.stride; at += 1) {
      sum += sums[at]
      sums[at] = Math.min(1, Math.abs(sum))
    }
  }
  return shares
}

export type Shares = Readonly<{
  startColumn: number
  columns: number
  startRow: number
  rows: number
  stride: number
  sums: Float32Array
}>

type Edge = Readonly<{ x0: number; y0: number; x1: number; y1: number }>

function addEdge({ sums, rows, stride, columns }: Shares, { x0, y0, x1, y1 }: Edge): void {
  if (y0 === y1) return
  const sign = y0 < y1 ? 1 : -1
  const topX = y0 < y1 ? x0 : x1
  const topY = Math.min(y0, y1)
  const bottomY = Math.max(y0, y1)
  const slope = (x1 - x0) / (y1 - y0)
  const lastRow = Math.min(rows, Math.ceil(bottomY))
  for (let row = Math.max(0, Math.floor(topY)); row < lastRow; row += 1) {
    const fromY = Math.max(row, topY)
    const toY = Math.min(row + 1, bottomY)
    if (toY <= fromY) continue
    const xa = held(topX + (fromY - topY) * slope, columns)
    const xb = held(topX + (toY - topY) * slope, columns)
    const tall = sign * (toY - fromY)
    const lowX = Math.min(xa, xb)
    const highX = Math.max(xa, xb)
    const first = Math.floor(lowX)
    const base = row * stride
    if (highX <= first + 1) {
      const middle = (lowX + highX) / 2 - first
      sums[base + first] += tall * (1 - middle)
      sums[base + first + 1] += tall * middle
      continue
    }
    // The edge crosses several pixels of this row: how far it has come down at each border.
    const per = tall / (highX - lowX)
    let before = 0
    for (let column = first; column < highX; column += 1) {
      const in0 = Math.max(lowX, column) - column
      const in1 = Math.min(highX, column + 1) - column
      const here = per * (in1 - in0)
      const covered = here * (1 - (in0 + in1) / 2)
      sums[base + column] += covered + before
      before = here - covered
    }
    sums[base + Math.floor(Math.ceil(highX) - 1) + 1] += before
  }
}

function held(x: number, columns: number): number {
  return x < 0 ? 0 : x > columns ? columns : x
}

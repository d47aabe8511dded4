import type { Point } from './curve.ts'

/** How deep inside an outline each place lies (below 0: outside), on a coarse grid. */
export type Depths = Readonly<{
  leftMm: number
  topMm: number
  cellMm: number
  columns: number
  rows: number
  depthMm: Float32Array
}>

export function depthsOf(
  outline: readonly Point[],
  { cellMm, marginMm }: Readonly<{ cellMm: number; marginMm: number }>,
): Depths {
  const xs = outline.map((point) => point.xMm)
  const ys = outline.map((point) => point.yMm)
  const leftMm = Math.min(...xs) - marginMm
  const topMm = Math.min(...ys) - marginMm
  const columns = Math.ceil((Math.max(...xs) + marginMm - leftMm) / cellMm) + 2
  const rows = Math.ceil((Math.max(...ys) + marginMm - topMm) / cellMm) + 2
  const depthMm = new Float32Array(columns * rows)
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      depthMm[row * columns + column] = depthOf(
        outline,
        leftMm + column * cellMm,
        topMm + row * cellMm,
      )
    }
  }
  return { leftMm, topMm, cellMm, columns, rows, depthMm }
}

/** Depth between the grid's points; far outside for places off the grid. */
export function depthAt(depths: Depths, xMm: number, yMm: number): number {
  const { leftMm, topMm, cellMm, columns, rows, depthMm } = depths
  const x = (xMm - leftMm) / cellMm
  const y = (yMm - topMm) / cellMm
  const column = Math.floor(x)
  const row = Math.floor(y)
  if (column < 0 || row < 0 || column + 1 >= columns || row + 1 >= rows) return -1000
  const at = row * columns + column
  const upper = depthMm[at] + (depthMm[at + 1] - depthMm[at]) * (x - column)
  const below = at + columns
  const lower = depthMm[below] + (depthMm[below + 1] - depthMm[below]) * (x - column)
  return upper + (lower - upper) * (y - row)
}

/**
 * The squared height, mm², of a skin blown up over the outline, on the same grid: over a circle of
 * radius r it is r² − (distance from the middle)², half a ball. Solves Poisson's equation,
 * Laplacian −4, zero on the outline, by over-relaxed sweeps.
 */
export function domeOf(depths: Depths): Depths {
  const { columns, rows, cellMm, depthMm } = depths
  const squared = new Float32Array(columns * rows)
  const source = 4 * cellMm * cellMm
  for (let pass = 0; pass < 160; pass += 1) {
    for (let row = 1; row + 1 < rows; row += 1) {
      for (let column = 1; column + 1 < columns; column += 1) {
        const at = row * columns + column
        if (depthMm[at] <= 0) continue
        const around =
          squared[at - 1] + squared[at + 1] + squared[at - columns] + squared[at + columns]
        squared[at] += 1.9 * ((around + source) / 4 - squared[at])
      }
    }
  }
  return { ...depths, depthMm: squared }
}

function depthOf(outline: readonly Point[], xMm: number, yMm: number): number {
  let nearest = Infinity
  let inside = false
  let from = outline[outline.length - 1]
  for (const to of outline) {
    const edgeX = to.xMm - from.xMm
    const edgeY = to.yMm - from.yMm
    const relX = xMm - from.xMm
    const relY = yMm - from.yMm
    const square = edgeX * edgeX + edgeY * edgeY
    const part = square === 0 ? 0 : Math.max(0, Math.min(1, (relX * edgeX + relY * edgeY) / square))
    const offX = relX - part * edgeX
    const offY = relY - part * edgeY
    nearest = Math.min(nearest, offX * offX + offY * offY)
    if (from.yMm > yMm !== to.yMm > yMm && relX < (relY / edgeY) * edgeX) inside = !inside
    from = to
  }
  return inside ? Math.sqrt(nearest) : -Math.sqrt(nearest)
}

import type { MarkLook, MarkLookPlan } from '../kernels/markLook.ts'
import { axisRow } from './axis.ts'
import { nearestGround, nearestGroundFor } from './nearestGround.ts'

/** Looks for marks in plain loops: what kernels/markLook.ts is held to, number by number. */
export function plainMarkLook({ widthPx, held, looked, limitPx }: MarkLookPlan): MarkLook {
  const film = new Uint16Array(widthPx * held)
  const values = new Uint8Array(widthPx * held)
  const near = nearestGroundFor(widthPx, looked)
  const axis = new Float32Array(widthPx)
  const spans = new Int32Array(widthPx + 2)
  const deepest = new Int32Array(widthPx + 2)
  const points = new Int32Array(widthPx)
  const columns = new Int32Array(widthPx)
  const widths = new Float32Array(widthPx)
  let rowsHeld = 0
  return {
    film,
    stride: widthPx,
    mask: (row, belowCode) => {
      const at = row * widthPx
      for (let x = 0; x < widthPx; x += 1) values[at + x] = film[at + x] < belowCode ? 1 : 0
    },
    drop: (gone, count) => {
      film.copyWithin(0, gone * widthPx, count * widthPx)
      values.copyWithin(0, gone * widthPx, count * widthPx)
    },
    look: ({ first, count, rows }) => {
      rowsHeld = rows
      nearestGround({ widthPx, rows, values }, { first, count, limitPx }, near)
    },
    row: (place, throughDeep) => {
      const mask = { widthPx, rows: rowsHeld, values }
      const count = runsOf(values, place.held * widthPx, widthPx, spans)
      axisRow(mask, near, { ...place, maskRow: place.held }, { spans, count }, axis)
      const line = place.row * widthPx
      let all = 0
      for (let run = 0; run < count; run += 1) {
        const [first, last] = [spans[2 * run], spans[2 * run + 1]]
        const before = all
        let deep = first
        for (let x = first; x <= last; x += 1) {
          if (near.squared[line + x] > near.squared[line + deep]) deep = x
          const width = axis[x]
          if (width === 0 || (width < 0 && !throughDeep)) continue
          columns[all] = x
          widths[all] = width < 0 ? 2 * limitPx : width
          all += 1
        }
        deepest[2 * run] = deep
        deepest[2 * run + 1] = Math.min(limitPx * limitPx, near.squared[line + deep])
        points[run] = all - before
      }
      return count
    },
    spans,
    deepest,
    points,
    columns,
    widths,
  }
}

function runsOf(values: Uint8Array, at: number, widthPx: number, spans: Int32Array): number {
  let count = 0
  for (let x = 0; x < widthPx; x += 1) {
    if (values[at + x] === 0) continue
    spans[2 * count] = x
    while (x + 1 < widthPx && values[at + x + 1] === 1) x += 1
    spans[2 * count + 1] = x
    count += 1
  }
  return count
}

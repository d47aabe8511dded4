import type { Canvas } from './canvas.ts'
import { distanceMm, type Knot } from './curve.ts'

/** What a tool meets at a pixel of its path. One record serves all pixels: do not keep it. */
export type Spot = {
  /** Of the pixel in the canvas. */
  index: number
  xMm: number
  yMm: number
  /** Way from the start of the path. */
  alongMm: number
  /** −1 … 1 from one edge of the path to the other, straight on past its ends. */
  across: number
  /** Way inwards from the edge; below 0 outside. */
  insideMm: number
  halfWidthMm: number
  load: number
}

export type Reach = Readonly<{
  /** How far outside its half width a path may still leave something. */
  beyondMm?: number
}>

/** Calls `touch` once for each pixel near the path; more often only where it crosses itself. */
export function sweep(
  canvas: Canvas,
  path: readonly Knot[],
  touch: (spot: Spot) => void,
  { beyondMm = 0 }: Reach = {},
): void {
  const { widthPx, heightPx, pixelMm } = canvas
  const spot: Spot = {
    index: 0,
    xMm: 0,
    yMm: 0,
    alongMm: 0,
    across: 0,
    insideMm: 0,
    halfWidthMm: 0,
    load: 0,
  }
  let startMm = 0
  for (let at = 0; at + 1 < path.length; at += 1) {
    const from = path[at]
    const to = path[at + 1]
    const stretchMm = distanceMm(from, to)
    if (stretchMm === 0) continue
    const dirX = (to.xMm - from.xMm) / stretchMm
    const dirY = (to.yMm - from.yMm) / stretchMm
    const start = facing(path[at - 1], from, to)
    const end = facing(from, to, path[at + 2])
    const reachMm = Math.max(from.halfWidthMm, to.halfWidthMm) + beyondMm + pixelMm
    const left = Math.max(0, Math.floor((Math.min(from.xMm, to.xMm) - reachMm) / pixelMm))
    const right = Math.min(widthPx - 1, Math.ceil((Math.max(from.xMm, to.xMm) + reachMm) / pixelMm))
    const top = Math.max(0, Math.floor((Math.min(from.yMm, to.yMm) - reachMm) / pixelMm))
    const bottom = Math.min(
      heightPx - 1,
      Math.ceil((Math.max(from.yMm, to.yMm) + reachMm) / pixelMm),
    )
    for (let row = top; row <= bottom; row += 1) {
      const yMm = (row + 0.5) * pixelMm
      const relY = yMm - from.yMm
      const span = narrowed({ left, right }, { start, end, from, to, yMm, pixelMm })
      for (let column = span.left; column <= span.right; column += 1) {
        const xMm = (column + 0.5) * pixelMm
        const relX = xMm - from.xMm
        const runMm = relX * dirX + relY * dirY
        if (start !== null && relX * start.x + relY * start.y < 0) continue
        if (end !== null && (xMm - to.xMm) * end.x + (yMm - to.yMm) * end.y >= 0) continue
        const heldMm = runMm < 0 ? 0 : runMm > stretchMm ? stretchMm : runMm
        const part = heldMm / stretchMm
        const halfWidthMm = from.halfWidthMm + (to.halfWidthMm - from.halfWidthMm) * part
        const offX = relX - heldMm * dirX
        const offY = relY - heldMm * dirY
        const offSquare = offX * offX + offY * offY
        const farMm = halfWidthMm + beyondMm + pixelMm
        if (offSquare > farMm * farMm) continue
        const offMm = Math.sqrt(offSquare)
        spot.index = row * widthPx + column
        spot.xMm = xMm
        spot.yMm = yMm
        spot.alongMm = startMm + runMm
        spot.across = (relX * dirY - relY * dirX) / Math.max(halfWidthMm, 1e-6)
        spot.insideMm = halfWidthMm - offMm
        spot.halfWidthMm = halfWidthMm
        spot.load = from.load + (to.load - from.load) * part
        touch(spot)
      }
    }
    startMm += stretchMm
  }
}

type Columns = Readonly<{ left: number; right: number }>

type Joints = Readonly<{
  start: Facing | null
  end: Facing | null
  from: Knot
  to: Knot
  yMm: number
  pixelMm: number
}>

/** The columns of a row that can lie between the two joints' lines, with a pixel of margin. */
function narrowed(
  { left, right }: Columns,
  { start, end, from, to, yMm, pixelMm }: Joints,
): Columns {
  let first = left
  let last = right
  if (start !== null && start.x !== 0) {
    const column = (from.xMm - (start.y * (yMm - from.yMm)) / start.x) / pixelMm - 0.5
    if (start.x > 0) first = Math.max(first, Math.floor(column) - 1)
    else last = Math.min(last, Math.ceil(column) + 1)
  }
  if (end !== null && end.x !== 0) {
    const column = (to.xMm - (end.y * (yMm - to.yMm)) / end.x) / pixelMm - 0.5
    if (end.x > 0) last = Math.min(last, Math.ceil(column) + 1)
    else first = Math.max(first, Math.floor(column) - 1)
  }
  return { left: first, right: last }
}

/** Share of a pixel that a path covers, also where the path is finer than the pixel. */
export function coverage(insideMm: number, halfWidthMm: number, pixelMm: number): number {
  const near = 0.5 + insideMm / pixelMm
  if (near <= 0) return 0
  const far = 0.5 + (insideMm - 2 * halfWidthMm) / pixelMm
  return Math.min(1, near) - Math.max(0, Math.min(1, far))
}

type Facing = Readonly<{ x: number; y: number }>

/** Across a joint the line that halves its angle parts the pixels; none at an end of the path. */
function facing(before: Knot | undefined, joint: Knot, after: Knot | undefined): Facing | null {
  if (before === undefined || after === undefined) return null
  const inMm = distanceMm(before, joint) || 1
  const outMm = distanceMm(joint, after) || 1
  return {
    x: (joint.xMm - before.xMm) / inMm + (after.xMm - joint.xMm) / outMm,
    y: (joint.yMm - before.yMm) / inMm + (after.yMm - joint.yMm) / outMm,
  }
}

import { seenAt, type View } from '../../core/inspection/lens.ts'
import type { Knots } from '../../kernels/photoPlanes.ts'
import type { PhotoLight, Sheet } from './photoLight.ts'

/** Places are reckoned exactly every so many pixels both ways, and lie on a line between. */
const STRETCH = 16

/** A rectangle of the plane, in its mm. */
export type SheetBox = Readonly<{
  xMm: number
  yMm: number
  widthMm: number
  heightMm: number
}>

type Where = Readonly<{
  /** From mm of the plane to photo pixels (the first pixel's middle is at 0.5, 0.5). */
  view: View
  box: SheetBox
  pixelMm: number
}>

/**
 * A rectangle of the plane laid true to size out of the photo, by straight interpolation.
 *
 * @returns light; NaN where the photo does not reach
 */
export function laidFlat(photo: PhotoLight, where: Where): Sheet {
  const size = sizeOf(where)
  const { widthPx, heightPx } = size
  const values = new Float32Array(widthPx * heightPx)
  inStretches(size, where, ({ first, count }, [above, below]) => {
    const between = emptyKnots(above.x.length)
    for (let row = 0; row < count; row += 1) {
      const part = row / STRETCH
      for (let knot = 0; knot < between.x.length; knot += 1) {
        between.x[knot] = above.x[knot] + part * (below.x[knot] - above.x[knot])
        between.y[knot] = above.y[knot] + part * (below.y[knot] - above.y[knot])
      }
      const from = (first + row) * widthPx
      layRow(photo, {
        xs: between.x,
        ys: between.y,
        out: values.subarray(from, from + widthPx),
      })
    }
  })
  return { ...size, pixelMm: where.pixelMm, values }
}

/** The same, for a sheet about as large as the photo: by machine code, where that holds the photo. */
export function laidLarge(photo: PhotoLight, where: Where): Sheet {
  const size = sizeOf(where)
  const lent = photo.planes?.lend(size) ?? null
  if (lent === null) return laidFlat(photo, where)
  inStretches(size, where, lent.lay)
  return { ...size, pixelMm: where.pixelMm, values: lent.values, lent }
}

function sizeOf({ box, pixelMm }: Where): Readonly<{ widthPx: number; heightPx: number }> {
  return {
    widthPx: Math.max(1, Math.round(box.widthMm / pixelMm)),
    heightPx: Math.max(1, Math.round(box.heightMm / pixelMm)),
  }
}

/** Hands on every so many rows with the knots above and below them. */
function inStretches(
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
  { view, box, pixelMm }: Where,
  lay: (rows: Readonly<{ first: number; count: number }>, knots: readonly [Knots, Knots]) => void,
): void {
  const count = Math.ceil(widthPx / STRETCH) + 1
  const knotsAt = (row: number): Knots => {
    const knots = emptyKnots(count)
    const yMm = box.yMm + (row + 0.5) * pixelMm
    for (let knot = 0; knot < count; knot += 1) {
      const xMm = box.xMm + (knot * STRETCH + 0.5) * pixelMm
      const { x, y } = seenAt(view, { x: xMm, y: yMm })
      knots.x[knot] = x - 0.5
      knots.y[knot] = y - 0.5
    }
    return knots
  }
  let above = knotsAt(0)
  for (let first = 0; first < heightPx; first += STRETCH) {
    const below = knotsAt(first + STRETCH)
    lay({ first, count: Math.min(STRETCH, heightPx - first) }, [above, below])
    above = below
  }
}

/** Light as it is: nothing taken off, divided by 1. */
function emptyKnots(count: number): Knots {
  return {
    x: new Float64Array(count),
    y: new Float64Array(count),
    ground: new Float64Array(count),
    gain: new Float64Array(count).fill(1),
  }
}

function layRow(
  { widthPx, heightPx, values }: PhotoLight,
  { xs, ys, out }: Readonly<{ xs: Float64Array; ys: Float64Array; out: Float32Array }>,
): void {
  for (let start = 0, knot = 0; start < out.length; start += STRETCH, knot += 1) {
    const end = Math.min(out.length, start + STRETCH)
    let [x, y] = [xs[knot], ys[knot]]
    const [dx, dy] = [(xs[knot + 1] - x) / STRETCH, (ys[knot + 1] - y) / STRETCH]
    for (let at = start; at < end; at += 1, x += dx, y += dy) {
      if (!(x >= 0 && y >= 0 && x < widthPx - 1 && y < heightPx - 1)) {
        out[at] = Number.NaN
        continue
      }
      const left = x | 0
      const top = y | 0
      const share = x - left
      const from = top * widthPx + left
      const below = from + widthPx
      const upper = values[from] + share * (values[from + 1] - values[from])
      const lower = values[below] + share * (values[below + 1] - values[below])
      out[at] = upper + (y - top) * (lower - upper)
    }
  }
}

/** How large a photo's pixel is on the plane about a point of it, in mm: the geometric mean of both ways. */
export function photoPixelMm(view: View, { x, y }: Readonly<{ x: number; y: number }>): number {
  const step = 0.5
  const [at, right, down] = [
    seenAt(view, { x, y }),
    seenAt(view, { x: x + step, y }),
    seenAt(view, { x, y: y + step }),
  ]
  const area = Math.abs((right.x - at.x) * (down.y - at.y) - (right.y - at.y) * (down.x - at.x))
  return step / Math.sqrt(area)
}

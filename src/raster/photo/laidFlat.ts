import { seenAt, type View } from '../../core/inspection/lens.ts'
import type { PhotoLight, Sheet } from './photoLight.ts'

/** Places are reckoned exactly every so many pixels, and lie on a line between. */
const STRETCH = 16

/** A rectangle of the plane, in its mm. */
export type SheetBox = Readonly<{
  xMm: number
  yMm: number
  widthMm: number
  heightMm: number
}>

/**
 * A rectangle of the plane laid true to size out of the photo, by straight interpolation.
 *
 * @param view from mm of the plane to photo pixels (the first pixel's middle is at 0.5, 0.5)
 * @returns light; NaN where the photo does not reach
 */
export function laidFlat(
  photo: PhotoLight,
  { view, box, pixelMm }: Readonly<{ view: View; box: SheetBox; pixelMm: number }>,
): Sheet {
  const widthPx = Math.max(1, Math.round(box.widthMm / pixelMm))
  const heightPx = Math.max(1, Math.round(box.heightMm / pixelMm))
  const values = new Float32Array(widthPx * heightPx)
  const knots = Math.ceil(widthPx / STRETCH) + 1
  const [xs, ys] = [new Float64Array(knots), new Float64Array(knots)]
  for (let row = 0; row < heightPx; row += 1) {
    const yMm = box.yMm + (row + 0.5) * pixelMm
    for (let knot = 0; knot < knots; knot += 1) {
      const xMm = box.xMm + (knot * STRETCH + 0.5) * pixelMm
      const { x, y } = seenAt(view, { x: xMm, y: yMm })
      xs[knot] = x - 0.5
      ys[knot] = y - 0.5
    }
    layRow(photo, {
      xs,
      ys,
      out: values.subarray(row * widthPx, (row + 1) * widthPx),
    })
  }
  return { widthPx, heightPx, pixelMm, values }
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

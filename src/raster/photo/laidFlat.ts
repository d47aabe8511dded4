import { seenAt, type View } from '../../core/inspection/lens.ts'
import type { Knots } from '../../kernels/photoPlanes.ts'
import { emptyKnots, knotsBetween, rowLayer, STRETCH } from './laidRow.ts'
import type { PhotoLight, Sheet } from './photoLight.ts'

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
  const { lent, ...sheet } = laidLarge(photo, where)
  if (lent === undefined) return sheet
  const values = sheet.values.slice()
  lent.giveBack()
  return { ...sheet, values }
}

/**
 * The same in the kernel's own memory, where one holds the photo and nothing else lies there: for a
 * sheet about as large as the photo.
 */
export function laidLarge(photo: PhotoLight, where: Where): Sheet {
  const size = sizeOf(where)
  const sheet = { ...size, pixelMm: where.pixelMm }
  const lent = photo.planes?.lend(size) ?? null
  if (lent === null) return { ...sheet, values: plainlyLaid(photo, where, size) }
  inStretches(size, where, lent.lay)
  return { ...sheet, values: lent.values, lent }
}

function plainlyLaid(photo: PhotoLight, where: Where, size: Size): Float32Array {
  const { widthPx, heightPx } = size
  const values = new Float32Array(widthPx * heightPx)
  const layRow = rowLayer(photo)
  inStretches(size, where, ({ first, count }, knots) => {
    const own = emptyKnots(knots[0].x.length)
    for (let row = 0; row < count; row += 1) {
      knotsBetween(knots, row / STRETCH, own)
      const from = (first + row) * widthPx
      layRow(own, values.subarray(from, from + widthPx))
    }
  })
  return values
}

type Size = Readonly<{ widthPx: number; heightPx: number }>

function sizeOf({ box, pixelMm }: Where): Size {
  return {
    widthPx: Math.max(1, Math.round(box.widthMm / pixelMm)),
    heightPx: Math.max(1, Math.round(box.heightMm / pixelMm)),
  }
}

/** Hands on every so many rows with the knots above and below them. */
function inStretches(
  { widthPx, heightPx }: Size,
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

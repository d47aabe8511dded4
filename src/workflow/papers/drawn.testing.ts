import { type FilmPage, POINTS_PER_MM } from '../../formats/filmPage.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { byPdfium } from '../../formats/pdfReaders.testing.ts'
import { memorySink, testDeflater } from '../../formats/sink.testing.ts'
import type { Box } from './shapes.ts'

/** A page as its PDF. */
export async function pdfOf(page: FilmPage): Promise<Uint8Array<ArrayBuffer>> {
  const { sink, bytes } = memorySink()
  await writeFilmPdf([page], { sink, deflater: testDeflater })
  return bytes()
}

/** A stretch of black along a row or a column. */
export type Stretch = Readonly<{ middleMm: number; widthMm: number }>

/** A part of a page as pdfium draws it, very large. */
export type Drawn = Readonly<{
  /** Black along a row of the page, from left to right. */
  across: (yMm: number) => readonly Stretch[]
  /** Black along a column, from the top. */
  down: (xMm: number) => readonly Stretch[]
  /** How much of a box is black, 0 … 1. */
  blackShare: (box: Box) => number
  /** Uppermost and lowest black in a box; null where there is none. */
  inkIn: (box: Box) => Readonly<{ topMm: number; bottomMm: number }> | null
}>

/** Draws a part of a one-page PDF with so many pixels to the millimetre. */
export async function drawn(
  pdf: Uint8Array,
  { xMm, yMm, widthMm, heightMm, pxPerMm }: Box & Readonly<{ pxPerMm: number }>,
): Promise<Drawn> {
  const whole = await byPdfium(pdf, { widthPx: 1, heightPx: 1 })
  const [xPx, yPx] = [Math.round(xMm * pxPerMm), Math.round(yMm * pxPerMm)]
  const [widthPx, heightPx] = [Math.round(widthMm * pxPerMm), Math.round(heightMm * pxPerMm)]
  const pageWidthPx = Math.round((whole.width / POINTS_PER_MM) * pxPerMm)
  const pageHeightPx = Math.round((whole.height / POINTS_PER_MM) * pxPerMm)
  // a page is drawn to whole pixels: a share of a pixel over its length
  const perMmX = pageWidthPx / (whole.width / POINTS_PER_MM)
  const perMmY = pageHeightPx / (whole.height / POINTS_PER_MM)
  const { grey } = await byPdfium(pdf, {
    widthPx,
    heightPx,
    window: { xPx, yPx, pageWidthPx, pageHeightPx },
  })
  const dark = (x: number, y: number): number => 1 - (grey[y * widthPx + x] ?? 255) / 255
  const column = (mm: number): number =>
    Math.min(widthPx, Math.max(0, Math.round(mm * perMmX - xPx)))
  const row = (mm: number): number => Math.min(heightPx, Math.max(0, Math.round(mm * perMmY - yPx)))
  const bounds = (box: Box): readonly [number, number, number, number] => [
    column(box.xMm),
    column(box.xMm + box.widthMm),
    row(box.yMm),
    row(box.yMm + box.heightMm),
  ]
  return {
    across: (at) =>
      stretches(
        Array.from({ length: widthPx }, (_, x) => dark(x, row(at))),
        { fromPx: xPx, perMm: perMmX },
      ),
    down: (at) =>
      stretches(
        Array.from({ length: heightPx }, (_, y) => dark(column(at), y)),
        { fromPx: yPx, perMm: perMmY },
      ),
    blackShare: (box) => {
      const [left, right, top, bottom] = bounds(box)
      let sum = 0
      for (let y = top; y < bottom; y++) for (let x = left; x < right; x++) sum += dark(x, y)
      return sum / ((right - left) * (bottom - top))
    },
    inkIn: (box) => {
      const [left, right, top, bottom] = bounds(box)
      const inked = Array.from({ length: bottom - top }, (_, at) => top + at).filter((y) => {
        for (let x = left; x < right; x++) if (dark(x, y) > 0.5) return true
        return false
      })
      const [first, last] = [inked[0], inked.at(-1)]
      if (first === undefined || last === undefined) return null
      return { topMm: (first + yPx) / perMmY, bottomMm: (last + 1 + yPx) / perMmY }
    },
  }
}

/** Grey pixels at both ends count as the part of them that is covered. */
function stretches(
  darkness: readonly number[],
  { fromPx, perMm }: Readonly<{ fromPx: number; perMm: number }>,
): readonly Stretch[] {
  const found: Stretch[] = []
  let [weight, moment] = [0, 0]
  for (const [at, value] of [...darkness, 0].entries()) {
    if (value > 0) {
      weight += value
      moment += value * (at + 0.5)
    } else if (weight > 0) {
      found.push({ middleMm: (moment / weight + fromPx) / perMm, widthMm: weight / perMm })
      weight = 0
      moment = 0
    }
  }
  return found
}

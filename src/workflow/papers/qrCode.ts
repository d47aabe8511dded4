import type { PageItem } from '../../formats/filmPage.ts'
import type { Place } from '../../formats/pagePath.ts'
import { filledBox } from './shapes.ts'

/** Squares of a QR code, row by row: true is dark. */
export type CodeSquares = Readonly<{
  side: number
  isDark: (row: number, column: number) => boolean
}>

/** A QR code wants four squares of white around it: ISO/IEC 18004. */
const QUIET_SQUARES = 4

/** A code, its white border in the side, whole squares at a time, rows of dark ones as one box each. */
export function qrCode(
  { side, isDark }: CodeSquares,
  { xMm, yMm, sideMm }: Place & Readonly<{ sideMm: number }>,
): readonly PageItem[] {
  const step = sideMm / (side + 2 * QUIET_SQUARES)
  const left = xMm + QUIET_SQUARES * step
  const top = yMm + QUIET_SQUARES * step
  const boxes: PageItem[] = []
  for (let row = 0; row < side; row++) {
    for (let from = 0; from < side; from++) {
      if (!isDark(row, from)) continue
      let end = from + 1
      while (end < side && isDark(row, end)) end++
      const widthMm = (end - from) * step
      boxes.push(
        filledBox({ xMm: left + from * step, yMm: top + row * step, widthMm, heightMm: step }),
      )
      from = end
    }
  }
  return boxes
}

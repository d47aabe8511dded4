import type { Marks } from '../../core/separation/plan.ts'
import type { FilmSize } from './filmSize.ts'

/** Where the artwork and its marks lie on the page, in whole pixels. */
export type PageLayout = Readonly<{
  widthPx: number
  heightPx: number
  artLeftPx: number
  artTopPx: number
  /** Rows above and below the artwork that hold marks. */
  topPx: number
  bottomPx: number
  pixelMm: number
  widthMm: number
  heightMm: number
}>

const SIDE_MM = 10
const TOP_MM = 15
const ROW_MM = 14
/** A cross at each end, and between them the longest of what is asked for. */
const CROSS_ROOM_MM = 16
export const BAR_MM = 114
export const STRIP_MM = 92
const LABEL_MM = 70

export function pageLayout(
  { widthPx, heightPx, pixelUm, widthMm, heightMm }: FilmSize,
  marks: Marks,
): PageLayout {
  const pixelMm = pixelUm / 1000
  const plain = { artLeftPx: 0, artTopPx: 0, topPx: 0, bottomPx: 0, pixelMm }
  if (!hasMarks(marks)) return { ...plain, widthPx, heightPx, widthMm, heightMm }
  const px = (mm: number): number => Math.ceil(mm / pixelMm)
  const needMm = Math.max(
    marks.label ? LABEL_MM : 0,
    marks.scaleBar ? BAR_MM : 0,
    marks.stepStrip ? STRIP_MM : 0,
  )
  const least = px(needMm + 2 * CROSS_ROOM_MM)
  const side = Math.max(px(SIDE_MM), Math.ceil((least - widthPx) / 2))
  const artLeftPx = 8 * Math.ceil(side / 8) // whole bytes
  const topPx = marks.label || marks.registration ? px(TOP_MM) : 0
  const rows = rowsBelow(marks, needMm)
  const bottomPx = px(rows * ROW_MM)
  const page = { widthPx: widthPx + 2 * artLeftPx, heightPx: heightPx + topPx + bottomPx }
  return {
    ...page,
    artLeftPx,
    artTopPx: topPx,
    topPx,
    bottomPx,
    pixelMm,
    widthMm: widthMm + 2 * artLeftPx * pixelMm,
    heightMm: heightMm + (topPx + bottomPx) * pixelMm,
  }
}

export function hasMarks(marks: Marks): boolean {
  return Object.values(marks).some(Boolean)
}

/** Bar and strip each have a row of their own. */
function rowsBelow({ registration, scaleBar, stepStrip }: Marks, needMm: number): number {
  const own = [scaleBar, stepStrip].filter(Boolean).length
  return own > 0 ? own : registration || needMm > 0 ? 1 : 0
}

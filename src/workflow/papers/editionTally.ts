import type { PageItem } from '../../formats/filmPage.ts'
import type { Path } from '../../formats/pagePath.ts'
import { type Block, FLOW_LEFT_MM, FLOW_WIDTH_MM } from './editionFlow.ts'

const STROKE_MM = 2
const FIVE_MM = 5 * STROKE_MM
const HEIGHT_MM = 5
const ROW_MM = HEIGHT_MM + 2.2
/** More than this is a number, not strokes. */
const MOST = 400

/** Sheets in strokes, each fifth across the four before it. */
export function tallies(count: number): Block {
  if (count < 1 || count > MOST) return { heightMm: 0, items: () => [] }
  const inRow = 5 * Math.floor(FLOW_WIDTH_MM / FIVE_MM)
  const rows = Math.ceil(count / inRow)
  return {
    heightMm: rows * ROW_MM,
    items: (topMm): readonly PageItem[] => [
      {
        kind: 'stroke',
        widthMm: 0.4,
        path: Array.from({ length: count }, (_, at) => at).flatMap((at): Path => {
          const yMm = topMm + Math.floor(at / inRow) * ROW_MM
          const fives = Math.floor((at % inRow) / 5)
          const xMm = FLOW_LEFT_MM + fives * FIVE_MM
          const place = at % 5
          return place === 4
            ? [
                { kind: 'move', xMm: xMm - 0.6, yMm: yMm + HEIGHT_MM - 0.8 },
                { kind: 'line', xMm: xMm + 3 * STROKE_MM + 0.6, yMm: yMm + 0.8 },
              ]
            : [
                { kind: 'move', xMm: xMm + place * STROKE_MM, yMm },
                { kind: 'line', xMm: xMm + place * STROKE_MM, yMm: yMm + HEIGHT_MM },
              ]
        }),
      },
    ],
  }
}

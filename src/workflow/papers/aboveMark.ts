import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import type { Place } from '../../formats/pagePath.ts'
import { line } from './lines.ts'
import { polygon } from './shapes.ts'

/** An F cut by hand, within a box of 18 by 22.4 mm: it cannot be read from the wrong side. */
const CUT = [
  [0.2, 0.5],
  [17.9, 0],
  [17.6, 4.9],
  [6.2, 5.1],
  [6.1, 9.6],
  [14.7, 9.2],
  [14.3, 13.8],
  [6.2, 14.1],
  [6.5, 22.2],
  [0.5, 22.4],
] as const

/** The F with its two lines of words, its right side and top at a place. */
export function aboveMark(
  { xMm, yMm }: Place,
  { letters, sizeMm }: Readonly<{ letters: Letters; sizeMm: number }>,
): readonly PageItem[] {
  const corners = CUT.map(([x, y]) => ({ xMm: xMm - 18 + x, yMm: yMm + y }))
  const words = ['You read this', 'from above the glass.']
  return [
    { kind: 'fill', path: polygon(corners) },
    ...words.flatMap((text, at) =>
      line(letters, text, {
        face: 'bold',
        sizeMm,
        xMm,
        yMm: yMm + 27 + at * 1.28 * sizeMm,
        anchor: 'end',
      }),
    ),
  ]
}

import type { Path } from '../../formats/pagePath.ts'
import type { Box } from './shapes.ts'

/** Widths of the test film's reeds, and of its comb's teeth and gaps, in mm. Judged. */
export const REED_WIDTHS_MM: readonly number[] = [0.06, 0.08, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1]

/** How tall each stands, and how far it leans over, as shares of the height; drawn by eye. */
const STANDS = [
  { tall: 0.82, lean: 0.12 },
  { tall: 0.97, lean: 0.17 },
  { tall: 0.88, lean: 0.07 },
  { tall: 1, lean: 0.15 },
  { tall: 0.8, lean: 0.1 },
  { tall: 0.95, lean: 0.18 },
  { tall: 1, lean: 0.06 },
  { tall: 0.86, lean: 0.15 },
  { tall: 0.98, lean: 0.1 },
]

/** The upright foot, which alone has the reed's true width all along; above it the reed tapers. */
export const STEM_SHARE = 0.42

/** Where a reed's foot stands, and the middle of its number above it. */
export function reedAt(
  { xMm, widthMm }: Pick<Box, 'xMm' | 'widthMm'>,
  number: number,
): Readonly<{ footMm: number; numberMm: number }> {
  const pitch = widthMm / REED_WIDTHS_MM.length
  return { footMm: xMm + (number + 0.3) * pitch, numberMm: xMm + (number + 0.5) * pitch }
}

/** Reeds as a brush would draw them: an upright stem of one width, leaning over to a point. */
export function reeds(box: Box): readonly Path[] {
  const foot = box.yMm + box.heightMm
  return REED_WIDTHS_MM.map((width, number) => {
    const { tall = 1, lean = 0.1 } = STANDS[number] ?? {}
    const { footMm } = reedAt(box, number)
    const [left, right] = [footMm - width / 2, footMm + width / 2]
    const height = tall * box.heightMm
    const stemTop = foot - STEM_SHARE * height
    const tip = { xMm: footMm + lean * Math.min(box.heightMm, 24), yMm: foot - height }
    const bend = stemTop - 0.24 * height
    const near = { xMm: footMm + 0.42 * (tip.xMm - footMm), yMm: tip.yMm + 0.19 * height }
    return [
      { kind: 'move', xMm: left, yMm: foot },
      { kind: 'line', xMm: left, yMm: stemTop },
      {
        kind: 'curve',
        firstXMm: left,
        firstYMm: bend,
        secondXMm: near.xMm - width / 2,
        secondYMm: near.yMm,
        ...tip,
      },
      {
        kind: 'curve',
        firstXMm: near.xMm + width / 2,
        firstYMm: near.yMm,
        secondXMm: right,
        secondYMm: bend,
        xMm: right,
        yMm: stemTop,
      },
      { kind: 'line', xMm: right, yMm: foot },
      { kind: 'close' },
    ]
  })
}

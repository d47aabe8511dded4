import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { rectanglePath } from '../../formats/pagePath.ts'
import { dayWords } from './dayWords.ts'
import { foot, type PaperShop } from './foot.ts'
import { fittingMm, line, wrapped } from './lines.ts'
import { PAPERS } from './paperSizes.ts'
import { type CodeSquares, qrCode } from './qrCode.ts'

/** A label: large words, small ones under them, and a code that leads to its page. */
export type Label = Readonly<{ large: string; small: readonly string[]; square: CodeSquares }>

export type Labels = Readonly<{
  labels: readonly Label[]
  /** What the sheet is, at its foot: `Screen labels`. */
  about: string
  shop: PaperShop
  /** As 2026-11-09. */
  date: string
}>

const MARGIN = 12
const COLUMNS = 3
const ROWS = 7
const WIDTH = (PAPERS.a4.widthMm - 2 * MARGIN) / COLUMNS
const HEIGHT = 36
const CODE = 32
const PAD = 2.5
const LARGE = 10
/** 10.5 points, the least on paper. */
const SMALL = 3.7
const MOST_ROWS = 4

/** Labels on a sheet. */
export const LABELS_ON_A_SHEET: number = COLUMNS * ROWS

/**
 * Sheets of labels to cut out, 62 by 36 mm: plain paper under clear tape, or self-adhesive. A4,
 * upright, 21 on each.
 *
 * @throws RangeError where the date cannot be
 */
export function labelPages(
  { labels, about, shop, date }: Labels,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const sheets = Math.max(1, Math.ceil(labels.length / LABELS_ON_A_SHEET))
  return Array.from({ length: sheets }, (_, sheet) => {
    const own = labels.slice(sheet * LABELS_ON_A_SHEET, (sheet + 1) * LABELS_ON_A_SHEET)
    const of = sheets === 1 ? '' : `, sheet ${sheet + 1} of ${sheets}`
    return {
      ...PAPERS.a4,
      items: [
        ...own.flatMap((label, at) => labelAt(label, { at, letters })),
        ...foot(
          { shop, about: `${about}, ${dayWords(date)}${of}` },
          {
            letters,
            sizeMm: SMALL,
            leftMm: MARGIN,
            rightMm: PAPERS.a4.widthMm - MARGIN,
            yMm: PAPERS.a4.heightMm - 10,
          },
        ),
      ],
    }
  })
}

function labelAt(
  { large, small, square }: Label,
  { at, letters }: Readonly<{ at: number; letters: Letters }>,
): readonly PageItem[] {
  const xMm = MARGIN + (at % COLUMNS) * WIDTH
  const yMm = MARGIN + Math.floor(at / COLUMNS) * HEIGHT
  const words = xMm + CODE + PAD
  const room = WIDTH - CODE - 2 * PAD
  const set = { face: 'bold', sizeMm: LARGE, widthMm: room } as const
  const sizeMm = fittingMm(letters, [large], set)
  const plain = { face: 'plain', sizeMm: SMALL, widthMm: room } as const
  const rows = small
    .flatMap((text) => wrapped(letters, text, plain))
    .slice(0, MOST_ROWS)
    .flatMap((text, row) =>
      line(letters, text, {
        face: 'plain',
        sizeMm: fittingMm(letters, [text], plain),
        xMm: words,
        yMm: yMm + 18.5 + row * 4.8,
      }),
    )
  return [
    {
      kind: 'stroke',
      widthMm: 0.15,
      path: rectanglePath({ xMm, yMm, widthMm: WIDTH, heightMm: HEIGHT }),
    },
    ...qrCode(square, { xMm: xMm + 1, yMm: yMm + (HEIGHT - CODE) / 2, sideMm: CODE }),
    ...line(letters, large, { face: 'bold', sizeMm, xMm: words, yMm: yMm + 12.5 }),
    ...rows,
  ]
}

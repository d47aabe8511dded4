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
const CODE = 30
const PAD = 2.5
const LARGE = 10
/** 10.5 points, the least on paper. */
const SMALL = 3.7
const FIRST_ROW = 17.6
const ROW = 4.3
/** Rows that stand under the large words, in what is left of the label. */
const MOST_ROWS = Math.floor((HEIGHT - 1 - FIRST_ROW) / ROW) + 1

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
  const rows = fewEnough(small.map((text) => wrapped(letters, text, plain)))
    .flat()
    .flatMap((text, row) =>
      line(letters, text, {
        face: 'plain',
        sizeMm: fittingMm(letters, [text], plain),
        xMm: words,
        yMm: yMm + FIRST_ROW + row * ROW,
      }),
    )
  return [
    {
      kind: 'stroke',
      widthMm: 0.15,
      path: rectanglePath({ xMm, yMm, widthMm: WIDTH, heightMm: HEIGHT }),
    },
    ...qrCode(square, { xMm: xMm + 1, yMm: yMm + (HEIGHT - CODE) / 2, sideMm: CODE }),
    ...line(letters, large, { face: 'bold', sizeMm, xMm: words, yMm: yMm + 11.8 }),
    ...rows,
  ]
}

/** No text is lost whole: the one with most rows gives up its last ones, and shows that it goes on. */
function fewEnough(texts: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const most = Math.max(0, ...texts.map((rows) => rows.length))
  if (texts.flat().length <= MOST_ROWS || most <= 1) return texts.slice(0, MOST_ROWS)
  const longest = texts.findIndex((rows) => rows.length === most)
  const fewer = texts.map((rows, at) => {
    if (at !== longest) return rows
    const kept = rows.slice(0, -1)
    return [...kept.slice(0, -1), `${(kept.at(-1) ?? '').replace(/[ .…,]*$/, '')}…`]
  })
  return fewEnough(fewer)
}

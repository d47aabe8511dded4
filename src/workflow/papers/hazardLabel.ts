import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { fittingMm, line, wrapped } from './lines.ts'
import { filledBox } from './shapes.ts'

export type HazardLabel = Readonly<{
  /** What is in the bottle. */
  name: string
  /** The shop's own words, from the data sheet it has. */
  text: string
  shop: PaperShop
  /** As 2026-11-09. */
  date: string
}>

/** A6, upright: as large as a bottle's side. */
const PAGE = { widthMm: 105, heightMm: 148 }
const MARGIN = 8
const TEXT = 4.2
/** 10.5 points, the least on paper. */
const SMALL = 3.7
const ROW = 1.35
const FIRST_ROW = 42
const LAST_ROW = 108

/**
 * A label for what was decanted: its name, the shop's own hazard text, and lines for the day and who.
 * A long text goes on further labels, each whole.
 */
export function hazardLabelPages(
  label: HazardLabel,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const setting = { face: 'plain', sizeMm: TEXT, widthMm: PAGE.widthMm - 2 * MARGIN } as const
  const rows = label.text.split('\n').flatMap((part) => wrapped(letters, part, setting))
  const most = Math.floor((LAST_ROW - FIRST_ROW) / (TEXT * ROW)) + 1
  const sheets = Math.max(1, Math.ceil(rows.length / most))
  return Array.from({ length: sheets }, (_, sheet) => ({
    ...PAGE,
    items: sheetOf(label, {
      letters,
      rows: rows.slice(sheet * most, (sheet + 1) * most),
      of: sheets === 1 ? '' : `, ${sheet + 1} of ${sheets}`,
    }),
  }))
}

function sheetOf(
  { name, shop, date }: HazardLabel,
  { letters, rows, of }: Readonly<{ letters: Letters; rows: readonly string[]; of: string }>,
): readonly PageItem[] {
  const right = PAGE.widthMm - MARGIN
  const width = right - MARGIN
  const title = { face: 'title', sizeMm: 10 } as const
  const blank = (words: string, yMm: number): readonly PageItem[] => [
    ...line(letters, words, { face: 'bold', sizeMm: SMALL, xMm: MARGIN, yMm }),
    filledBox({ xMm: MARGIN + 28, yMm, widthMm: width - 28, heightMm: 0.25 }),
  ]
  return [
    ...(shop.demo ? demoTape(shop.name, { letters, unitMm: 0.62, rightMm: right, yMm: 6 }) : []),
    ...line(letters, name, {
      ...title,
      sizeMm: fittingMm(letters, [name], { ...title, widthMm: width }),
      xMm: MARGIN,
      yMm: 27,
    }),
    filledBox({ xMm: MARGIN, yMm: 32, widthMm: width, heightMm: 0.6 }),
    ...rows.flatMap((text, at) =>
      line(letters, text, {
        face: 'plain',
        sizeMm: TEXT,
        xMm: MARGIN,
        yMm: FIRST_ROW + at * TEXT * ROW,
      }),
    ),
    ...blank('Decanted on', 118),
    ...blank('by', 126),
    ...line(letters, 'The safety data sheet comes first.', {
      face: 'bold',
      sizeMm: SMALL,
      xMm: MARGIN,
      yMm: 133.5,
    }),
    ...foot(
      { shop, about: `${date}${of}` },
      { letters, sizeMm: SMALL, leftMm: MARGIN, rightMm: right, yMm: PAGE.heightMm - 5 },
    ),
  ]
}

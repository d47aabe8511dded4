import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { dayWords } from './dayWords.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { fittingMm, line, wrapped } from './lines.ts'
import { PAPERS } from './paperSizes.ts'
import { filledBox } from './shapes.ts'

/** A record on paper: one student's work, a handover, a year. A heading each, and what stands under it. */
export type EvidencePaper = Readonly<{
  name: string
  about: string
  sections: readonly Readonly<{ title: string; lines: readonly string[] }>[]
  shop: PaperShop
  /** As 2026-11-09. */
  date: string
}>

const MARGIN = 15
const TOP = 22
const BOTTOM = PAPERS.a4.heightMm - 20
/** 10.5 points, the least on paper. */
const TEXT = 3.7
const STEP = 5.4
const HEADING = 13
/** Only where they save a sheet. */
const CLOSER_HEADINGS = [11.5, 10] as const
const UNDER_HEADING = 2

type Row = Readonly<{ kind: 'title' | 'text'; text: string }>

/**
 * A record on paper, A4 upright: as many sheets as it takes, no heading alone at the foot.
 *
 * @throws RangeError where the date cannot be
 */
export function evidencePages(
  { name, about, sections, shop, date }: EvidencePaper,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const widthMm = PAPERS.a4.widthMm - 2 * MARGIN
  const rows = sections.flatMap(({ title, lines }): readonly Row[] => [
    { kind: 'title', text: title },
    ...lines.flatMap((text) =>
      wrapped(letters, text, { face: 'plain', sizeMm: TEXT, widthMm }).map(
        (part): Row => ({ kind: 'text', text: part }),
      ),
    ),
  ])
  const sheets = CLOSER_HEADINGS.map((headingMm) => sheetsOf(rows, headingMm)).reduce(
    (few, own) => (own.length < few.length ? own : few),
    sheetsOf(rows, HEADING),
  )
  return sheets.map((own, sheet) => ({
    ...PAPERS.a4,
    items: [
      ...(sheet === 0 ? head({ name, about, shop }, letters) : []),
      ...own.flatMap(({ yMm, kind, text }) => rowAt({ yMm, kind, text }, letters)),
      ...foot(
        {
          shop,
          about: `${name}, ${dayWords(date)}, sheet ${sheet + 1} of ${sheets.length}`,
        },
        {
          letters,
          sizeMm: TEXT,
          leftMm: MARGIN,
          rightMm: PAPERS.a4.widthMm - MARGIN,
          yMm: PAPERS.a4.heightMm - 10,
        },
      ),
    ],
  }))
}

type Placed = Row & Readonly<{ yMm: number }>

function sheetsOf(rows: readonly Row[], headingMm: number): readonly (readonly Placed[])[] {
  const sheets: Placed[][] = [[]]
  let yMm = TOP + 22
  for (const row of rows) {
    const room = row.kind === 'title' ? headingMm + STEP : 0
    yMm += row.kind === 'title' ? headingMm : STEP
    if (yMm + room > BOTTOM) {
      sheets.push([])
      yMm = TOP
    }
    sheets.at(-1)?.push({ ...row, yMm })
    if (row.kind === 'title') yMm += UNDER_HEADING
  }
  return sheets
}

function head(
  { name, about, shop }: Pick<EvidencePaper, 'name' | 'about' | 'shop'>,
  letters: Letters,
): readonly PageItem[] {
  const right = PAPERS.a4.widthMm - MARGIN
  const set = { face: 'title', sizeMm: 13, widthMm: right - MARGIN } as const
  const sizeMm = fittingMm(letters, [name], set)
  return [
    ...(shop.demo ? demoTape(shop.name, { letters, unitMm: 0.8, rightMm: right, yMm: 8 }) : []),
    ...line(letters, name, { face: 'title', sizeMm, xMm: MARGIN - 0.5, yMm: TOP + 8 }),
    ...line(letters, about, { face: 'plain', sizeMm: TEXT, xMm: MARGIN, yMm: TOP + 15 }),
  ]
}

function rowAt({ yMm, kind, text }: Placed, letters: Letters): readonly PageItem[] {
  if (kind === 'text') return line(letters, text, { face: 'plain', sizeMm: TEXT, xMm: MARGIN, yMm })
  const widthMm = PAPERS.a4.widthMm - 2 * MARGIN
  return [
    ...line(letters, text, { face: 'bold', sizeMm: 4.6, xMm: MARGIN, yMm }),
    filledBox({ xMm: MARGIN, yMm: yMm + 1.8, widthMm, heightMm: 0.3 }),
  ]
}

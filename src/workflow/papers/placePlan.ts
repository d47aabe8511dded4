import { sheetOf } from '../../core/placement/boxes.ts'
import type { PlacementCheck } from '../../core/placement/check.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { dayWords } from './dayWords.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { fewRows, fittingMm, line, wrapped } from './lines.ts'
import { PAPERS } from './paperSizes.ts'
import { lengthText, type PlaceDrawn, placeContent } from './placeContent.ts'
import { windowOf } from './placeSheet.ts'
import { scaleBar } from './scaleBar.ts'
import { filledBox } from './shapes.ts'

export type PlacePaper = PlaceDrawn &
  Readonly<{
    /** Its tag. */
    screen: string
    check: PlacementCheck
    shop: PaperShop
    paper: 'a4' | 'letter'
    /** As 2026-11-09. */
    date: string
  }>

const MARGIN = 12
const TEXT = 4.2
const SMALL = 3.7
const DRAWING_TOP = 58
const ROW = 6
/** Rows of the table beside the drawing’s page; the rest goes on a second sheet. */
const FEW_ROWS = 6
const MOST_ROWS = 36
/** One so many of these is one on paper: scales that one can reckon with. */
const SCALES = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100, 200]

/**
 * Films on a screen on one small sheet: the drawing to a round scale with its dimensions, what a
 * ruler shows for each film, and how the rules are kept.
 */
export function placePlanPages(
  paper: PlacePaper,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const { problem, names, screen } = paper
  const size = PAPERS[paper.paper]
  const right = size.widthMm - MARGIN
  const rows = rowsOf(paper)
  const few = Math.min(rows.length, FEW_ROWS)
  const tableTop = size.heightMm - 36 - few * ROW
  const { insideWidthMm, insideHeightMm } = problem.frame
  const room = { widthMm: right - MARGIN - 2, heightMm: tableTop - 10 - DRAWING_TOP }
  const least = Math.max(insideWidthMm / room.widthMm, insideHeightMm / room.heightMm)
  const by = SCALES.find((each) => each >= least) ?? Math.ceil(least)
  const [wide, high] = [insideWidthMm / by, insideHeightMm / by]
  const origin = { xMm: (size.widthMm - wide) / 2, yMm: DRAWING_TOP + (room.heightMm - high) / 2 }
  const items: PageItem[] = [
    ...head(paper, { letters, right }),
    ...line(letters, `1 : ${by}. This side away from you.`, {
      face: 'plain',
      sizeMm: SMALL,
      xMm: size.widthMm / 2,
      yMm: origin.yMm - 2,
      anchor: 'middle',
    }),
    ...windowOf(placeContent(paper, { scale: 1 / by }), {
      origin,
      window: { xMm: 0, yMm: 0, ...size },
      letters,
    }),
    ...line(letters, 'This side towards you.', {
      face: 'plain',
      sizeMm: SMALL,
      xMm: size.widthMm / 2,
      yMm: origin.yMm + high + 5,
      anchor: 'middle',
    }),
    ...table(rows.slice(0, few), { letters, right, yMm: tableTop }),
    ...scaleBar({ xMm: MARGIN + 2, yMm: size.heightMm - 29 }, { letters, sizeMm: SMALL }),
  ]
  const more = Array.from({ length: Math.ceil((rows.length - few) / MOST_ROWS) }, (_, at) =>
    rows.slice(few + at * MOST_ROWS, few + (at + 1) * MOST_ROWS),
  )
  const sheets = 1 + more.length
  const ended = (at: number): readonly PageItem[] =>
    foot(
      {
        shop: paper.shop,
        about: `Screen ${screen}, ${names.length === 1 ? (names[0] ?? '') : `${names.length} films`}, ${dayWords(paper.date)}${sheets === 1 ? '' : `, sheet ${at} of ${sheets}`}`,
      },
      { letters, sizeMm: SMALL, leftMm: MARGIN, rightMm: right, yMm: size.heightMm - 10 },
    )
  return [
    { ...size, items: [...items, ...ended(1)] },
    ...more.map((part, at) => ({
      ...size,
      items: [...table(part, { letters, right, yMm: 26 }), ...ended(at + 2)],
    })),
  ]
}

function head(
  { screen, problem, check, shop }: PlacePaper,
  { letters, right }: Readonly<{ letters: Letters; right: number }>,
): readonly PageItem[] {
  const { insideWidthMm, insideHeightMm } = problem.frame
  const about = `Screen ${screen}, inside ${lengthText(insideWidthMm)} by ${lengthText(insideHeightMm)} mm. Seen from above the glass, the way the print will be: right-reading. Lengths in mm, from the inside of the frame to the edge of the sheet.`
  const plain = { face: 'plain', sizeMm: TEXT } as const
  const lines = wrapped(letters, about, { ...plain, widthMm: right - MARGIN })
  const said = fewRows(letters, ruleWords(check), {
    face: 'bold',
    sizeMm: TEXT,
    widthMm: right - MARGIN,
    rows: 2,
  })
  return [
    ...line(letters, shop.name, { face: 'bold', sizeMm: 4, xMm: MARGIN, yMm: 14 }),
    ...(shop.demo ? demoTape(shop.name, { letters, unitMm: 0.8, rightMm: right, yMm: 8 }) : []),
    ...line(letters, 'Where to lay it', { face: 'title', sizeMm: 12, xMm: MARGIN - 0.5, yMm: 29 }),
    ...lines.flatMap((text, at) =>
      line(letters, text, { ...plain, xMm: MARGIN, yMm: 36.5 + at * 5.2 }),
    ),
    ...said.flatMap(({ text, sizeMm }, at) =>
      line(letters, text, {
        face: 'bold',
        sizeMm,
        xMm: MARGIN,
        yMm: 36.5 + (lines.length + at) * 5.2,
      }),
    ),
  ]
}

/** How the rules are kept, in one sentence. */
export function ruleWords({ verdict, worst }: PlacementCheck): string {
  const { rule, leastMm, askedMm, shortMm } = worst
  const figures = `${lengthText(leastMm)} mm, ${lengthText(askedMm)} wanted`
  return verdict === 'fits'
    ? `All rules are kept. Closest: ${rule}, ${figures}.`
    : `A rule is not kept: ${rule}, ${figures}: ${lengthText(Math.ceil(shortMm * 10 - 1e-4) / 10)} mm short.`
}

type Row = Readonly<{ name: string; cells: readonly string[] }>

const COLUMNS = ['from the left', 'from the back', 'from the right', 'from the front']

function rowsOf({ problem, placed, names }: PlaceDrawn): readonly Row[] {
  const { frame, films } = problem
  return films.flatMap((film, at) => {
    const place = placed[at]
    if (place === undefined) return []
    const { xMm, yMm, widthMm, heightMm } = sheetOf(film, place)
    const right = frame.insideWidthMm - xMm - widthMm
    const front = frame.insideHeightMm - yMm - heightMm
    const name = `${names[at] ?? film.name}${place.turned ? ', turned' : ''}`
    return [{ name, cells: [xMm, yMm, right, front].map(lengthText) }]
  })
}

function table(
  rows: readonly Row[],
  { letters, right, yMm }: Readonly<{ letters: Letters; right: number; yMm: number }>,
): readonly PageItem[] {
  const first = 0.4 * (right - MARGIN)
  const pitch = (right - MARGIN - first) / COLUMNS.length
  const edge = (at: number): number => MARGIN + first + (at + 1) * pitch
  return [
    ...COLUMNS.flatMap((text, at) =>
      line(letters, text, {
        face: 'plain',
        sizeMm: SMALL,
        xMm: edge(at),
        yMm: yMm - 2,
        anchor: 'end',
      }),
    ),
    ...rows.flatMap(({ name, cells }, at) => [
      filledBox({ xMm: MARGIN, yMm: yMm + at * ROW, widthMm: right - MARGIN, heightMm: 0.2 }),
      ...line(letters, name, {
        face: 'bold',
        sizeMm: fittingMm(letters, [name], { face: 'bold', sizeMm: TEXT, widthMm: first }),
        xMm: MARGIN,
        yMm: yMm + at * ROW + 4.4,
      }),
      ...cells.flatMap((text, column) =>
        line(letters, text, {
          face: 'bold',
          sizeMm: TEXT,
          xMm: edge(column),
          yMm: yMm + at * ROW + 4.4,
          anchor: 'end',
        }),
      ),
    ]),
  ]
}

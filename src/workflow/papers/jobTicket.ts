import { STATIONS, type StationName } from '../../core/ticket/road.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { rectanglePath } from '../../formats/pagePath.ts'
import { dayWords } from './dayWords.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { fewRows, fittingMm, line } from './lines.ts'
import { PAPERS } from './paperSizes.ts'
import { type CodeSquares, qrCode } from './qrCode.ts'
import { filledBox } from './shapes.ts'

export type JobTicket = Readonly<{
  code: string
  name: string
  owner: string | null
  paper: string | null
  editionCount: number | null
  sheetsToPrepare: number | null
  /** The next thing and who can do it; null: all is done. */
  next: string | null
  layers: readonly Readonly<{
    place: number
    shortName: string
    ink: string
    film: string | null
    /** The first station that is not done; null when all are. */
    at: StationName | null
    pulled: number
    /** For the press, in a line: its screen, its ink, its gap. */
    press: string | null
  }>[]
  /** Leads to the ticket's page. */
  square: CodeSquares
  shop: PaperShop
  /** As 2026-11-09. */
  date: string
}>

const MARGIN = 12
const TEXT = 3.9
const SMALL = 3.7
const SHORT = 6.5
const CODE_SIDE = 30
const FIRST_LAYER = 78
/** Foot to foot of what it says about the print. */
const ROW = 5.4
const LAYER = 40
const BOX = 4.6
/** More layers than this go on a second sheet. */
const MOST_ON_A_SHEET = 5

const WORDS: Readonly<Record<StationName, string>> = {
  artwork: 'artwork',
  film: 'film',
  screen: 'screen',
  light: 'light',
  water: 'water',
  print: 'print',
  reclaim: 'reclaim',
}

/**
 * The job ticket: what a print is, and for each layer seven boxes for a pencil, those ticked that
 * are done, what the press wants, and a line for tallies. A4, upright; five layers a sheet.
 *
 * @throws RangeError where the date cannot be
 */
export function jobTicketPages(
  ticket: JobTicket,
  { letters }: Readonly<{ letters: Letters }>,
): readonly FilmPage[] {
  const sheets = Math.max(1, Math.ceil(ticket.layers.length / MOST_ON_A_SHEET))
  return Array.from({ length: sheets }, (_, sheet) => {
    const layers = ticket.layers.slice(sheet * MOST_ON_A_SHEET, (sheet + 1) * MOST_ON_A_SHEET)
    return { ...PAPERS.a4, items: sheetOf(ticket, { letters, layers, sheet, sheets }) }
  })
}

type Sheet = Readonly<{
  letters: Letters
  layers: JobTicket['layers']
  sheet: number
  sheets: number
}>

function sheetOf(
  ticket: JobTicket,
  { letters, layers, sheet, sheets }: Sheet,
): readonly PageItem[] {
  const { widthMm, heightMm } = PAPERS.a4
  const right = widthMm - MARGIN
  const of = sheets === 1 ? '' : `, sheet ${sheet + 1} of ${sheets}`
  return [
    ...head(ticket, { letters, right }),
    ...qrCode(ticket.square, { xMm: right - CODE_SIDE, yMm: 20, sideMm: CODE_SIDE }),
    ...layers.flatMap((layer, at) =>
      layerRow(layer, { letters, right, yMm: FIRST_LAYER + at * LAYER }),
    ),
    filledBox({
      xMm: MARGIN,
      yMm: FIRST_LAYER + layers.length * LAYER,
      widthMm: right - MARGIN,
      heightMm: 0.3,
    }),
    ...foot(
      { shop: ticket.shop, about: `Ticket ${ticket.code}, ${dayWords(ticket.date)}${of}` },
      { letters, sizeMm: SMALL, leftMm: MARGIN, rightMm: right, yMm: heightMm - 10 },
    ),
  ]
}

function head(
  { code, name, owner, paper, editionCount, sheetsToPrepare, next, shop, layers }: JobTicket,
  { letters, right }: Readonly<{ letters: Letters; right: number }>,
): readonly PageItem[] {
  const roomMm = right - MARGIN - CODE_SIDE - 8
  const title = { face: 'title', sizeMm: 15 } as const
  const sizeMm = fittingMm(letters, [name], { ...title, widthMm: roomMm })
  const about = [
    `${owner === null ? 'Nobody’s yet' : owner}, ${layers.length} ${layers.length === 1 ? 'layer' : 'layers'}.`,
    editionCount === null
      ? ''
      : `${editionCount} prints wanted${sheetsToPrepare === null ? '' : `: begin with ${sheetsToPrepare} sheets`}.`,
    paper === null ? '' : `Paper: ${paper}.`,
    next ?? '',
  ].filter((part) => part !== '')
  return [
    ...line(letters, shop.name, { face: 'bold', sizeMm: 4, xMm: MARGIN, yMm: 14 }),
    ...(shop.demo ? demoTape(shop.name, { letters, unitMm: 0.8, rightMm: right, yMm: 8 }) : []),
    ...line(letters, name, { ...title, sizeMm, xMm: MARGIN - 0.5, yMm: 33 }),
    ...line(letters, code, { face: 'bold', sizeMm: 6, xMm: MARGIN, yMm: 42 }),
    ...about
      .flatMap((text, at) => {
        // below the square a row is as wide as the sheet
        const widthMm = at === 0 ? roomMm : right - MARGIN
        const rows = text === next ? 2 : 1
        return fewRows(letters, text, { face: 'plain', sizeMm: TEXT, widthMm, rows })
      })
      .flatMap(({ text, sizeMm: small }, at) =>
        line(letters, text, { face: 'plain', sizeMm: small, xMm: MARGIN, yMm: 49 + at * ROW }),
      ),
  ]
}

function layerRow(
  { place, shortName, ink, film, at, pulled, press }: JobTicket['layers'][number],
  { letters, right, yMm }: Readonly<{ letters: Letters; right: number; yMm: number }>,
): readonly PageItem[] {
  const done = at === null ? STATIONS.length : STATIONS.indexOf(at)
  const pitch = (right - MARGIN) / STATIONS.length
  const title = `${place}  ${ink.charAt(0).toUpperCase()}${ink.slice(1)}`
  const nameMm = letters.widthMm(shortName, { face: 'bold', sizeMm: SHORT })
  const roomMm = (right - MARGIN) / 2
  const named = film === null ? 'no film yet' : `film: ${film}`
  return [
    filledBox({ xMm: MARGIN, yMm, widthMm: right - MARGIN, heightMm: 0.3 }),
    // what one looks for on a rack stands first and bold
    ...line(letters, shortName, { face: 'bold', sizeMm: SHORT, xMm: MARGIN, yMm: yMm + 9 }),
    ...line(letters, title, {
      face: 'title',
      sizeMm: fittingMm(letters, [title], {
        face: 'title',
        sizeMm: 7.5,
        widthMm: roomMm - nameMm - 5,
      }),
      xMm: MARGIN + nameMm + 5,
      yMm: yMm + 9,
    }),
    ...line(letters, named, {
      face: 'plain',
      sizeMm: fittingMm(letters, [named], { face: 'plain', sizeMm: TEXT, widthMm: roomMm - 4 }),
      xMm: right,
      yMm: yMm + 9,
      anchor: 'end',
    }),
    ...STATIONS.flatMap((station, index) => {
      const xMm = MARGIN + index * pitch
      const box = { xMm, yMm: yMm + 13, widthMm: BOX, heightMm: BOX }
      return [
        { kind: 'stroke', widthMm: 0.35, path: rectanglePath(box) } as const,
        ...(index < done ? [tick(box)] : []),
        ...line(letters, WORDS[station], {
          face: 'plain',
          sizeMm: SMALL,
          xMm: xMm + BOX + 1.6,
          yMm: yMm + 16.9,
        }),
      ]
    }),
    ...(press === null
      ? []
      : line(letters, press, {
          face: 'plain',
          sizeMm: fittingMm(letters, [press], {
            face: 'plain',
            sizeMm: TEXT,
            widthMm: right - MARGIN,
          }),
          xMm: MARGIN,
          yMm: yMm + 24.5,
        })),
    ...line(letters, pulled === 0 ? 'pulled' : `${pulled} pulled, and`, {
      face: 'plain',
      sizeMm: SMALL,
      xMm: MARGIN,
      yMm: yMm + 34.5,
    }),
    filledBox({ xMm: MARGIN + 26, yMm: yMm + 35, widthMm: right - MARGIN - 26, heightMm: 0.2 }),
  ]
}

/** A woven box is done, as on the pages. */
function tick({
  xMm,
  yMm,
  widthMm,
}: Readonly<{ xMm: number; yMm: number; widthMm: number }>): PageItem {
  const threads = [1, 2, 3, 4].map((at) => (at * widthMm) / 5)
  return {
    kind: 'stroke',
    widthMm: 0.3,
    path: threads.flatMap((at) => [
      { kind: 'move', xMm: xMm + at, yMm } as const,
      { kind: 'line', xMm: xMm + at, yMm: yMm + widthMm } as const,
      { kind: 'move', xMm, yMm: yMm + at } as const,
      { kind: 'line', xMm: xMm + widthMm, yMm: yMm + at } as const,
    ]),
  }
}

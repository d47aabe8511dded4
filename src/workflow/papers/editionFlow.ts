import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Face, Letters } from '../../formats/letters.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { fittingMm, line, wrapped } from './lines.ts'
import { PAPERS } from './paperSizes.ts'
import { type CodeSquares, qrCode } from './qrCode.ts'
import { filledBox } from './shapes.ts'

/** Something that takes so much height, drawn from its top on; never broken over two sheets. */
export type Block = Readonly<{ heightMm: number; items: (topMm: number) => readonly PageItem[] }>

export type PaperAbout = Readonly<{
  /** Of the ticket; null: it is not of one ticket. */
  code: string | null
  name: string
  /** What the paper is, under the name: Edition card. */
  what: string
  /** Leads to the ticket's page. */
  square: CodeSquares
  shop: PaperShop
  /** What the foot says of it, with its date. */
  about: string
}>

const MARGIN = 14
const CODE_SIDE = 30
const FIRST_TOP = 53
const NEXT_TOP = 24
const FOOT = 20
const SMALL = 3.7
const LEADING = 1.42
/** From left to right between the margins. */
export const FLOW_WIDTH_MM: number = PAPERS.a4.widthMm - 2 * MARGIN
export const FLOW_LEFT_MM: number = MARGIN

/** Blocks one under another on upright A4 sheets, the first with the print's name and code. */
export function flowPages(
  blocks: readonly Block[],
  { about, letters }: Readonly<{ about: PaperAbout; letters: Letters }>,
): readonly FilmPage[] {
  const { widthMm, heightMm } = PAPERS.a4
  const sheets: PageItem[][] = [[]]
  let top = FIRST_TOP
  for (const block of blocks) {
    if (top + block.heightMm > heightMm - FOOT && top > FIRST_TOP) {
      sheets.push([])
      top = NEXT_TOP
    }
    sheets.at(-1)?.push(...block.items(top))
    top += block.heightMm
  }
  return sheets.map((items, at) => ({
    ...PAPERS.a4,
    items: [
      ...(at === 0 ? head(about, letters) : nextHead(about, letters)),
      ...items,
      ...foot(
        {
          shop: about.shop,
          about: `${about.about}${sheets.length === 1 ? '' : `, sheet ${at + 1} of ${sheets.length}`}`,
        },
        { letters, sizeMm: SMALL, leftMm: MARGIN, rightMm: widthMm - MARGIN, yMm: heightMm - 9 },
      ),
    ],
  }))
}

function head({ code, name, what, square, shop }: PaperAbout, letters: Letters): PageItem[] {
  const right = PAPERS.a4.widthMm - MARGIN
  const title = { face: 'title', sizeMm: 13 } as const
  const sizeMm = fittingMm(letters, [name], { ...title, widthMm: FLOW_WIDTH_MM - CODE_SIDE - 8 })
  return [
    ...line(letters, shop.name, { face: 'bold', sizeMm: 4, xMm: MARGIN, yMm: 14 }),
    ...(shop.demo ? demoTape(shop.name, { letters, unitMm: 0.8, rightMm: right, yMm: 8 }) : []),
    ...line(letters, name, { ...title, sizeMm, xMm: MARGIN - 0.5, yMm: 34 }),
    ...line(letters, whatOf({ what, code }), { face: 'bold', sizeMm: 5, xMm: MARGIN, yMm: 44 }),
    ...qrCode(square, { xMm: right - CODE_SIDE, yMm: 19, sideMm: CODE_SIDE }),
  ]
}

function whatOf({ what, code }: Pick<PaperAbout, 'what' | 'code'>): string {
  return code === null ? what : `${what}, ticket ${code}`
}

function nextHead({ code, name, what }: PaperAbout, letters: Letters): PageItem[] {
  const text = `${name}: ${whatOf({ what: what.toLowerCase(), code })}`
  return [...line(letters, text, { face: 'bold', sizeMm: 4, xMm: MARGIN, yMm: 14 })]
}

/** Words broken into as many lines as they take. */
export function paragraph(
  letters: Letters,
  text: string,
  {
    face = 'plain',
    sizeMm = 3.9,
    indentMm = 0,
    afterMm = 1.2,
    widthMm = FLOW_WIDTH_MM,
  }: Readonly<{
    face?: Face
    sizeMm?: number
    indentMm?: number
    afterMm?: number
    widthMm?: number
  }> = {},
): Block {
  const rows = wrapped(letters, text, { face, sizeMm, widthMm: widthMm - indentMm })
  return {
    heightMm: rows.length * LEADING * sizeMm + afterMm,
    items: (topMm) =>
      rows.flatMap((row, at) =>
        line(letters, row, {
          face,
          sizeMm,
          xMm: MARGIN + indentMm,
          yMm: topMm + sizeMm + at * LEADING * sizeMm,
        }),
      ),
  }
}

/** A rule over what follows. */
export function rule(afterMm = 2.5): Block {
  return {
    heightMm: afterMm,
    items: (topMm) => [
      filledBox({ xMm: MARGIN, yMm: topMm, widthMm: FLOW_WIDTH_MM, heightMm: 0.3 }),
    ],
  }
}

export function gap(heightMm: number): Block {
  return { heightMm, items: () => [] }
}

/** Blocks that stay together on one sheet. */
export function together(blocks: readonly Block[]): Block {
  return {
    heightMm: blocks.reduce((sum, { heightMm }) => sum + heightMm, 0),
    items: (topMm) => {
      let top = topMm
      return blocks.flatMap(({ heightMm, items }) => {
        const drawn = items(top)
        top += heightMm
        return drawn
      })
    },
  }
}

/** Words with a line to write on, to the right margin or so wide; what is known stands on it. */
export function blanks(
  letters: Letters,
  fields: readonly Readonly<{ label: string; known: string | null }>[],
): Block {
  const pitch = FLOW_WIDTH_MM / fields.length
  return {
    heightMm: 13.5,
    items: (topMm) =>
      fields.flatMap(({ label, known }, at) => {
        const xMm = MARGIN + at * pitch
        return [
          ...(known === null
            ? []
            : line(letters, known, {
                face: 'bold',
                sizeMm: fittingMm(letters, [known], {
                  face: 'bold',
                  sizeMm: 4.4,
                  widthMm: pitch - 6,
                }),
                xMm,
                yMm: topMm + 5.6,
              })),
          filledBox({ xMm, yMm: topMm + 7, widthMm: pitch - 5, heightMm: 0.2 }),
          ...line(letters, label, {
            face: 'plain',
            sizeMm: fittingMm(letters, [label], {
              face: 'plain',
              sizeMm: SMALL,
              widthMm: pitch - 5,
            }),
            xMm,
            yMm: topMm + 11,
          }),
        ]
      }),
  }
}

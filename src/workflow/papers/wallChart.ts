import { expectIn, type Range } from '../../core/units/range.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { doseScale, scaleNumbers } from '../cloth/doseScale.ts'
import { dayWords } from './dayWords.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { fewRows, fittingMm, line, type Run, runs, wrapped } from './lines.ts'
import { counted } from './numberWords.ts'
import { PAPERS, type PaperName } from './paperSizes.ts'
import { filledBox } from './shapes.ts'
import type { CountsIn } from './testFilmWords.ts'
import { type RowPlace, rowItems, type WallRow } from './wallChartRow.ts'

export type WallChart = Readonly<{
  shop: PaperShop
  /** What the doses hold for: `90-48 yellow with the house coating under the big lamp`. */
  setUp: string
  countsIn: CountsIn
  rows: readonly WallRow[]
  /** The day they were reckoned, as 2026-11-09. */
  date: string
  /** The day by which a test should be made again. */
  nextTestDue?: string
  paper?: PaperName
}>

/** Rows on a sheet: more could not be read from where one stands. */
export const WALL_ROWS: Range = { name: 'rows', low: 1, high: 12, unit: 'rows', whole: true }

/** All is laid out for A4 in millimetres, and drawn so much larger on larger paper. */
const LAID_OUT = { widthMm: 210, heightMm: 297 }
const MARGIN = 12
const ROWS_TOP = 60
const TALLEST_ROW = 40
/** From the last row to the sheet's lower edge: scale, how to read it, cautions, foot. */
const BENEATH = 54

/**
 * The doses of all media on a sheet for the wall, to be read from where one works: the dose in large
 * figures, its range and how sure, the cloth of doses that work on one scale, and what it rests on.
 *
 * @param chart 1 … 12 rows
 * @throws RangeError where there are too many rows, or a day cannot be
 */
export function wallChartPage(
  chart: WallChart,
  { letters }: Readonly<{ letters: Letters }>,
): FilmPage {
  expectIn(chart.rows.length, WALL_ROWS)
  const { widthMm, heightMm } = PAPERS[chart.paper ?? 'a3']
  const unitMm = Math.min(widthMm / LAID_OUT.widthMm, heightMm / LAID_OUT.heightMm)
  const sheet: Sheet = {
    letters,
    unitMm,
    leftMm: MARGIN * unitMm,
    rightMm: widthMm - MARGIN * unitMm,
    bottomMm: heightMm,
  }
  return {
    widthMm,
    heightMm,
    items: [...head(chart, sheet), ...rows(chart, sheet), ...beneath(chart, sheet)],
  }
}

type Sheet = Readonly<{
  letters: Letters
  unitMm: number
  leftMm: number
  rightMm: number
  bottomMm: number
}>

function head(chart: WallChart, sheet: Sheet): readonly PageItem[] {
  const { letters, unitMm, leftMm, rightMm } = sheet
  const { shop } = chart
  const titleMm = 34 * unitMm
  const title = { face: 'title', sizeMm: titleMm } as const
  const textMm = 5 * unitMm
  const textLeft = leftMm + letters.widthMm('Doses', title) + 9 * unitMm
  const units = chart.countsIn === 'seconds' ? 'Seconds' : 'Light units'
  const about = fewRows(letters, `${units} on ${chart.setUp}.`, {
    face: 'plain',
    sizeMm: textMm,
    widthMm: rightMm - textLeft,
    rows: 3,
  })
  const days: readonly (readonly Run[])[] = [
    [
      ['plain', 'As of '],
      ['bold', `${dayWords(chart.date)}.`],
    ],
    ...(chart.nextTestDue === undefined
      ? []
      : [
          [
            ['plain', 'Next test due '],
            ['bold', `${dayWords(chart.nextTestDue)}.`],
          ] as const,
        ]),
  ]
  const lines: readonly (readonly Run[])[] = [
    ...about.map(({ text }) => [['plain', text]] as const),
    ...days,
  ]
  const lastLine = 48 * unitMm
  const leadingMm = (lines.length > 4 ? 6 : 6.6) * unitMm // five lines keep clear of the tape
  const nameSize = fittingMm(letters, [shop.name], {
    face: 'bold',
    sizeMm: 6.4 * unitMm,
    widthMm: 0.45 * (rightMm - leftMm),
  })
  return [
    ...line(letters, shop.name, {
      face: 'bold',
      sizeMm: nameSize,
      xMm: leftMm,
      yMm: 15.4 * unitMm,
    }),
    ...(shop.demo ? demoTape(shop.name, { letters, unitMm, rightMm, yMm: 9.4 * unitMm }) : []),
    ...line(letters, 'Doses', { ...title, xMm: leftMm - 1.2 * unitMm, yMm: lastLine }),
    ...lines.flatMap((parts, at) =>
      runs(letters, parts, {
        sizeMm: textMm,
        xMm: textLeft,
        yMm: lastLine - (lines.length - 1 - at) * leadingMm,
      }),
    ),
  ]
}

function rows({ rows: media }: WallChart, sheet: Sheet): readonly PageItem[] {
  const { letters, unitMm, leftMm, rightMm, bottomMm } = sheet
  const top = ROWS_TOP * unitMm
  const room = bottomMm - BENEATH * unitMm - top
  const rowMm = Math.min(TALLEST_ROW * unitMm, room / media.length)
  const scale = {
    lowLu: Math.min(...media.map(({ cloth }) => cloth.lowLu)),
    highLu: Math.max(...media.map(({ cloth }) => cloth.highLu)),
  }
  const place: Omit<RowPlace, 'yMm'> = {
    xMm: leftMm,
    widthMm: rightMm - leftMm,
    heightMm: rowMm,
    clothLeftMm: leftMm + 54 * unitMm,
    unitMm,
    letters,
  }
  const end = top + media.length * rowMm
  return [
    ...media.flatMap((row, at) => [
      rule(sheet, top + at * rowMm),
      ...rowItems(
        { ...row, cloth: { ...row.cloth, ...scale } },
        { ...place, yMm: top + at * rowMm },
      ),
    ]),
    rule(sheet, end),
    ...scaleItems(scale, { ...place, yMm: end }),
  ]
}

function rule({ leftMm, rightMm, unitMm }: Sheet, yMm: number): PageItem {
  const pen = 0.35 * unitMm
  return filledBox({ xMm: leftMm, yMm: yMm - pen / 2, widthMm: rightMm - leftMm, heightMm: pen })
}

/** The scale under all cloths: a tick and its number at round doses. */
function scaleItems(
  ends: Readonly<{ lowLu: number; highLu: number }>,
  { xMm, yMm, widthMm, clothLeftMm, unitMm, letters }: RowPlace,
): readonly PageItem[] {
  const scale = doseScale(ends, xMm + widthMm - clothLeftMm)
  const sizeMm = 4.6 * unitMm
  // the scale's pixels are millimetres here
  const numbers = scaleNumbers(scale, { first: [], keepFreeLu: null, apartPx: 12.5 * unitMm })
  return numbers.flatMap(({ doseLu, xPx }) => {
    const text = counted(doseLu)
    const half = letters.widthMm(text, { face: 'plain', sizeMm }) / 2
    const tick = clothLeftMm + xPx
    return [
      filledBox({
        xMm: tick - 0.15 * unitMm,
        yMm,
        widthMm: 0.3 * unitMm,
        heightMm: 1.8 * unitMm,
      }),
      ...line(letters, text, {
        face: 'plain',
        sizeMm,
        xMm: Math.min(tick, xMm + widthMm - half), // inside the margin
        yMm: yMm + 6.2 * unitMm,
        anchor: 'middle',
      }),
    ]
  })
}

const HOW_TO_READ: readonly Run[] = [
  ['bold', 'The cloth.'],
  [
    'plain',
    ' Threads along: marks stay open. Threads across: the ground holds. Woven: both, so it works. Frayed: in doubt. The bar: the dose.',
  ],
]
const CAUTION =
  'Do not look at the lamp. It lights only with the lid closed; leave that switch alone. Manuals and safety data sheets come first.'

function beneath({ shop, date }: WallChart, sheet: Sheet): readonly PageItem[] {
  const { letters, unitMm, leftMm, rightMm, bottomMm } = sheet
  const sizeMm = 4.6 * unitMm
  const widthMm = rightMm - leftMm
  const leadingMm = 6 * unitMm
  const footMm = bottomMm - 8 * unitMm
  const caution = wrapped(letters, CAUTION, { face: 'bold', sizeMm, widthMm })
  const read = wrappedRuns(letters, HOW_TO_READ, { sizeMm, widthMm })
  const lastCaution = footMm - 10.5 * unitMm
  const firstCaution = lastCaution - (caution.length - 1) * leadingMm
  const firstRead = firstCaution - 1.25 * leadingMm - (read.length - 1) * leadingMm
  return [
    ...read.flatMap((parts, at) =>
      runs(letters, parts, { sizeMm, xMm: leftMm, yMm: firstRead + at * leadingMm }),
    ),
    ...caution.flatMap((text, at) =>
      line(letters, text, {
        face: 'bold',
        sizeMm,
        xMm: leftMm,
        yMm: firstCaution + at * leadingMm,
      }),
    ),
    ...foot(
      { shop, about: dayWords(date) },
      { letters, sizeMm: 4 * unitMm, leftMm, rightMm, yMm: footMm },
    ),
  ]
}

/** Runs broken between words; each word keeps its face. */
function wrappedRuns(
  letters: Letters,
  parts: readonly Run[],
  { sizeMm, widthMm }: Readonly<{ sizeMm: number; widthMm: number }>,
): readonly (readonly Run[])[] {
  const lines: Run[][] = [[]]
  let used = 0
  for (const [face, text] of parts) {
    for (const word of text.trim().split(' ')) {
      const spaced = used === 0 ? word : ` ${word}`
      const wide = letters.widthMm(spaced, { face, sizeMm })
      if (used > 0 && used + wide > widthMm) {
        lines.push([[face, word]])
        used = letters.widthMm(word, { face, sizeMm })
      } else {
        lines.at(-1)?.push([face, spaced])
        used += wide
      }
    }
  }
  return lines
}

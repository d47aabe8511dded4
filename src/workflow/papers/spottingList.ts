import type { Finding } from '../../core/inspection/findings.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { circlePath } from '../../formats/pagePath.ts'
import type { Plane } from '../../raster/inspect/plane.ts'
import { dayWords } from './dayWords.ts'
import { demoTape } from './demoTape.ts'
import { foot, type PaperShop } from './foot.ts'
import { hatchedMarks } from './hatchedMarks.ts'
import { line, runs, wrapped } from './lines.ts'
import { PAPERS } from './paperSizes.ts'
import { type Box, filledBox } from './shapes.ts'
import { ringed } from './spottingRings.ts'
import { findingWords, WHAT_TO_DO } from './spottingWords.ts'

export type SpottingList = Readonly<{
  /** The film's marks, shares cell by cell, as they read. */
  marks: Plane
  cellUm: number
  findings: readonly Finding[]
  shop: PaperShop | null
  /** The screen or the film: `Night heron, black`. */
  title: string
  /** As 2026-11-09. */
  date?: string | undefined
}>

const MARGIN = 12
const HEAD = 36
const FOOT = 20
const TEXT = 3.7
const ROW = 5.4
/** More places than this stand in two columns. */
const MOST_IN_ONE = 14
/** A column as wide as this has room for what to do. */
const ROOMY_MM = 110
/** Space between the picture and the list. */
const GAP = 9

/**
 * What a photo of the screen showed, to take to the screen: the picture at true size, each place
 * ringed and numbered on it, and beneath it the list with what to do. Laid out on the smallest
 * sheet that holds it; a larger picture makes a sheet of its own size, to be printed in parts.
 *
 * @throws RangeError where the date cannot be
 */
export function spottingListPage(
  list: SpottingList,
  { letters }: Readonly<{ letters: Letters }>,
): FilmPage {
  const { marks, cellUm, findings } = list
  const widthMm = (marks.widthPx * cellUm) / 1000
  const heightMm = (marks.heightPx * cellUm) / 1000
  const columns = findings.length > MOST_IN_ONE ? 2 : 1
  const rows = Math.ceil(findings.length / columns)
  const wanted = {
    widthMm: Math.max(widthMm, PAPERS.a4.widthMm - 2 * MARGIN) + 2 * MARGIN,
    heightMm: HEAD + heightMm + GAP + cautionRows(letters, widthMm) * ROW + rows * ROW + FOOT,
  }
  const paper = sheetFor(wanted)
  const picture = { xMm: (paper.widthMm - widthMm) / 2, yMm: HEAD, widthMm, heightMm }
  const right = paper.widthMm - MARGIN
  return {
    ...paper,
    items: [
      ...head(list, { letters, right }),
      hatchedMarks(marks, { ...picture, cellUm }),
      ...frameOf(picture),
      ...ringed(findings, { picture, letters }),
      ...rowsOf(findings, {
        letters,
        columns,
        box: { xMm: MARGIN, yMm: HEAD + heightMm + GAP, widthMm: right - MARGIN, heightMm: 0 },
      }),
      ...foot(
        {
          shop: list.shop,
          about:
            list.date === undefined ? 'Spotting list' : `Spotting list, ${dayWords(list.date)}`,
        },
        { letters, sizeMm: 3, leftMm: MARGIN, rightMm: right, yMm: paper.heightMm - 8 },
      ),
    ],
  }
}

/** The smallest sheet on which it fits, upright; else one of its own size. */
function sheetFor(wanted: Readonly<{ widthMm: number; heightMm: number }>): typeof wanted {
  const fits = [PAPERS.a4, PAPERS.a3].find(
    (paper) => wanted.widthMm <= paper.widthMm && wanted.heightMm <= paper.heightMm,
  )
  return fits ?? wanted
}

function head(
  { title, findings, shop }: SpottingList,
  { letters, right }: Readonly<{ letters: Letters; right: number }>,
): readonly PageItem[] {
  const counted =
    findings.length === 1 ? 'The photo shows 1 place' : `The photo shows ${findings.length} places`
  return [
    ...line(letters, shop?.name ?? '', { face: 'bold', sizeMm: 4, xMm: MARGIN, yMm: 12 }),
    ...(shop?.demo === true
      ? demoTape(shop.name, { letters, unitMm: 0.8, rightMm: right, yMm: 7 })
      : []),
    ...line(letters, 'To spot', { face: 'title', sizeMm: 13, xMm: MARGIN - 0.5, yMm: 25 }),
    ...runs(
      letters,
      [
        ['bold', `${title}. `],
        ['plain', `${counted}, ringed at true size as the film reads.`],
      ],
      { sizeMm: TEXT, xMm: MARGIN, yMm: 32 },
    ),
  ]
}

function frameOf({ xMm, yMm, widthMm, heightMm }: Box): readonly PageItem[] {
  const pen = 0.25
  return [
    { xMm: xMm - pen, yMm: yMm - pen, widthMm: widthMm + 2 * pen, heightMm: pen },
    { xMm: xMm - pen, yMm: yMm + heightMm, widthMm: widthMm + 2 * pen, heightMm: pen },
    { xMm: xMm - pen, yMm, widthMm: pen, heightMm },
    { xMm: xMm + widthMm, yMm, widthMm: pen, heightMm },
  ].map(filledBox)
}

const CAUTION =
  'From the print side all lies the other way round. What is still shut comes first, while the screen is wet; filler goes on the dry screen. Gloves and fresh air as the filler’s safety data sheet says. Look at the screen as well: a photo shows only what is large enough.'

function cautionRows(letters: Letters, pictureMm: number): number {
  const widthMm = Math.max(pictureMm, PAPERS.a4.widthMm - 2 * MARGIN)
  return wrapped(letters, CAUTION, { face: 'plain', sizeMm: TEXT, widthMm }).length + 0.6
}

function rowsOf(
  findings: readonly Finding[],
  { letters, columns, box }: Readonly<{ letters: Letters; columns: number; box: Box }>,
): readonly PageItem[] {
  const caution = wrapped(letters, CAUTION, { face: 'plain', sizeMm: TEXT, widthMm: box.widthMm })
  const top = box.yMm + (caution.length + 0.6) * ROW
  const perColumn = Math.ceil(findings.length / columns)
  const columnMm = box.widthMm / columns
  return [
    ...caution.flatMap((text, at) =>
      line(letters, text, { face: 'plain', sizeMm: TEXT, xMm: box.xMm, yMm: box.yMm + at * ROW }),
    ),
    ...findings.flatMap((finding, at) => {
      const xMm = box.xMm + Math.floor(at / perColumn) * columnMm
      const yMm = top + (at % perColumn) * ROW
      const box4 = { xMm, yMm: yMm - 2.9, widthMm: 3.2, heightMm: 3.2 }
      const { widthMm: w, heightMm: h } = box4
      const middle = { xMm: xMm + w / 2, yMm: box4.yMm + h / 2, radiusMm: w / 2 }
      return [
        // a ring to tick off
        { kind: 'stroke', path: circlePath(middle), widthMm: 0.3 } as const,
        ...runs(
          letters,
          [
            ['bold', `${at + 1}  ${findingWords(finding)}. `],
            ['plain', columnMm >= ROOMY_MM ? WHAT_TO_DO[finding.kind] : ''],
          ],
          { sizeMm: TEXT, xMm: xMm + 5.2, yMm },
        ),
      ]
    }),
  ]
}

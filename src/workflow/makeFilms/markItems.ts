import type { Marks } from '../../core/separation/plan.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { circlePath, linePath, type Place } from '../../formats/pagePath.ts'
import { aboveMark } from '../papers/aboveMark.ts'
import { fittingMm, line } from '../papers/lines.ts'
import { scaleBar } from '../papers/scaleBar.ts'
import type { PageLayout } from './pageLayout.ts'

/** From the page's edges to the middle of a cross. */
export const CROSS_FROM_EDGE_MM = 7
const CROSS = { armMm: 5, radiusMm: 3, penMm: 0.15 }
const NAME_MM = 4.6
const WORDS_MM = 3.2
const LABEL_LEFT_MM = 16
/** The F of the papers, made smaller. */
const F_SCALE = 0.45
const F_WIDE_MM = 18 * F_SCALE

/** A plate among the others: its ink's name, the how manieth printed, and what it is for. */
export type PlateWords = Readonly<{ name: string; number: number; of: number; about: string }>

/** The rows above the artwork: crosses, the plate's name, and an F that cannot be read from behind. */
export function topStrip(
  words: PlateWords,
  { layout, marks, letters }: Readonly<{ layout: PageLayout; marks: Marks; letters: Letters }>,
): FilmPage {
  const page = stripSize(layout, layout.topPx)
  const y = CROSS_FROM_EDGE_MM
  return {
    ...page,
    items: [
      ...(marks.registration ? crosses(page.widthMm, y) : []),
      ...(marks.label ? label(words, { widthMm: page.widthMm, letters }) : []),
    ],
  }
}

/** The rows below it: crosses, and the scale bar in the lowest; the step strip is bits. */
export function bottomStrip({
  layout,
  marks,
  letters,
}: Readonly<{ layout: PageLayout; marks: Marks; letters: Letters }>): FilmPage {
  const page = stripSize(layout, layout.bottomPx)
  const low = page.heightMm - CROSS_FROM_EDGE_MM
  const bar = { xMm: (page.widthMm - 100) / 2, yMm: page.heightMm - 11.5 }
  return {
    ...page,
    items: [
      ...(marks.registration ? crosses(page.widthMm, low) : []),
      ...(marks.scaleBar ? scaleBar(bar, { letters, sizeMm: WORDS_MM }) : []),
    ],
  }
}

function stripSize(
  { widthPx, pixelMm }: PageLayout,
  rows: number,
): Readonly<{ widthMm: number; heightMm: number }> {
  return { widthMm: widthPx * pixelMm, heightMm: rows * pixelMm }
}

function crosses(widthMm: number, yMm: number): readonly PageItem[] {
  return [CROSS_FROM_EDGE_MM, widthMm - CROSS_FROM_EDGE_MM].flatMap((xMm) => cross({ xMm, yMm }))
}

function cross({ xMm, yMm }: Place): readonly PageItem[] {
  const { armMm, radiusMm, penMm } = CROSS
  const stroke = (from: Place, to: Place): PageItem => ({
    kind: 'stroke',
    widthMm: penMm,
    path: linePath([from, to]),
  })
  return [
    { kind: 'stroke', widthMm: penMm, path: circlePath({ xMm, yMm, radiusMm }) },
    stroke({ xMm: xMm - armMm, yMm }, { xMm: xMm + armMm, yMm }),
    stroke({ xMm, yMm: yMm - armMm }, { xMm, yMm: yMm + armMm }),
  ]
}

function label(
  { name, number, of, about }: PlateWords,
  { widthMm, letters }: Readonly<{ widthMm: number; letters: Letters }>,
): readonly PageItem[] {
  const fRight = widthMm - LABEL_LEFT_MM
  const room = fRight - F_WIDE_MM - 4 - LABEL_LEFT_MM
  const nameMm = fittingMm(letters, [name], { face: 'bold', sizeMm: NAME_MM, widthMm: room })
  const words = `${number} of ${of}. ${about}`
  const wordsMm = fittingMm(letters, [words], { face: 'plain', sizeMm: WORDS_MM, widthMm: room })
  const [f] = aboveMark({ xMm: 18, yMm: 0 }, { letters, sizeMm: WORDS_MM })
  const place = { a: F_SCALE, b: 0, c: 0, d: F_SCALE, eMm: fRight - F_WIDE_MM, fMm: 2 }
  return [
    ...line(letters, name, { face: 'bold', sizeMm: nameMm, xMm: LABEL_LEFT_MM, yMm: 6.6 }),
    ...line(letters, words, { face: 'plain', sizeMm: wordsMm, xMm: LABEL_LEFT_MM, yMm: 11.4 }),
    ...(f === undefined ? [] : [{ kind: 'group' as const, transform: place, items: [f] }]),
  ]
}

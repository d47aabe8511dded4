import { expectIn, type Range } from '../../core/units/range.ts'
import { PAPERS, type PaperSize } from './paperSizes.ts'

export type FilmPaper = 'a4' | 'letter'

/** Bands of a test film: fewer tell too little, more leave no room to read them. */
export const FILM_BANDS: Range = {
  name: 'bandCounts',
  low: 3,
  high: 12,
  unit: 'bands',
  whole: true,
}

export type WedgeSize = Readonly<{ widthMm: number; heightMm: number }>

/** A wedge on a card, as one comes across it. Judged. */
const USUAL_WEDGE: WedgeSize = { widthMm: 146, heightMm: 13 }
export const WEDGE_WIDTH: Range = { name: 'wedge.widthMm', low: 10, high: 146, unit: 'mm' }
export const WEDGE_HEIGHT: Range = { name: 'wedge.heightMm', low: 5, high: 40, unit: 'mm' }

/** Sizes of letters, em in mm; 10.5 pt are 3.7 mm. */
export const TEXT_MM = 3.9
const LEADING_MM = 5.3
const MARGIN_MM = 12
const WEDGE_TOP_MM = 49
/** From the wedge down to the bands: two rows of numbers. */
const NUMBERS_MM = 12
/** What stands beneath the bands, above its lines: scale bar, title. */
const BENEATH_MM = 34
const FOOT_MM = 7.5

/** Where everything stands on a test film, in mm from the page's upper left corner. */
export type FilmLayout = PaperSize &
  Readonly<{
    leftMm: number
    rightMm: number
    /** Where the bands end and the drawing by hand begins. */
    bandsRightMm: number
    handLeftMm: number
    wedge: WedgeSize
    wedgeTopMm: number
    /** Band edges from the top: one more than there are bands. */
    edgesMm: readonly number[]
    reeds: Readonly<{ xMm: number; widthMm: number }>
    comb: Readonly<{ xMm: number; widthMm: number }>
    lettersLeftMm: number
    scaleTopMm: number
    stepsTitleMm: number
    /** Baseline of the first step, and from line to line. */
    stepsMm: number
    leadingMm: number
    /** Lines of steps under one another: all, or half of them where there are many. */
    stepRows: number
    footMm: number
  }>

/** Up to so many steps stand in one column, with what else is to do beside them. */
const ONE_COLUMN = 7
const NOTE_LINES = { beside: 7, beneath: 4 }

/** @throws RangeError where bands or wedge are out of range */
export function filmLayout({
  bands,
  paper = 'a4',
  wedge = USUAL_WEDGE,
}: Readonly<{ bands: number; paper?: FilmPaper; wedge?: WedgeSize }>): FilmLayout {
  expectIn(bands, FILM_BANDS)
  expectIn(wedge.widthMm, WEDGE_WIDTH)
  expectIn(wedge.heightMm, WEDGE_HEIGHT)
  const { widthMm, heightMm } = PAPERS[paper]
  const rightMm = widthMm - MARGIN_MM
  const bandsRightMm = rightMm - 40
  const beside = bands <= ONE_COLUMN
  const stepRows = beside ? bands : Math.ceil(bands / 2)
  const lines = beside ? Math.max(bands, NOTE_LINES.beside) : stepRows + NOTE_LINES.beneath
  const leadingMm = beside ? LEADING_MM : 4.9
  const footMm = heightMm - FOOT_MM
  const bottomMm = footMm - 6.5 - lines * leadingMm - BENEATH_MM
  const topMm = WEDGE_TOP_MM + wedge.heightMm + NUMBERS_MM
  const edgesMm = Array.from(
    { length: bands + 1 },
    (_, at) => topMm + (at * (bottomMm - topMm)) / bands,
  )
  return {
    widthMm,
    heightMm,
    leftMm: MARGIN_MM,
    rightMm,
    bandsRightMm,
    handLeftMm: rightMm - 35,
    wedge,
    wedgeTopMm: WEDGE_TOP_MM,
    edgesMm,
    reeds: { xMm: bandsRightMm - 106.5, widthMm: 47 },
    comb: { xMm: bandsRightMm - 55.5, widthMm: 27 },
    lettersLeftMm: bandsRightMm - 24.5,
    scaleTopMm: bottomMm + 6.4,
    stepsTitleMm: bottomMm + 27,
    stepsMm: bottomMm + BENEATH_MM + 0.5,
    leadingMm,
    stepRows,
    footMm,
  }
}

/**
 * Where the card is laid on the film: band edges in mm from the page's top, one more than there are
 * bands, that of the largest dose first. Its points at both sides of the sheet stand there.
 */
export function testFilmCoverMm(
  film: Readonly<{ bands: number; paper?: FilmPaper; wedge?: WedgeSize }>,
): readonly number[] {
  return filmLayout(film).edgesMm
}

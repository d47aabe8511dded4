import { expectIn, type Range } from '../units/range.ts'

export type Box = Readonly<{ xMm: number; yMm: number; widthMm: number; heightMm: number }>

/** A film to be laid on a screen: its sheet, and whether it may be turned by a quarter. */
export type FilmToPlace = Readonly<{
  name: string
  widthMm: number
  heightMm: number
  turn: 'fixed' | 'quarter'
  /** What of the sheet has marks, as it lies unturned; all of it unless given. */
  marks?: Box
}>

export type InsideFrame = Readonly<{ insideWidthMm: number; insideHeightMm: number }>

/** Films, the inside of a frame, and what must be kept clear. */
export type PlacementProblem = Readonly<{
  frame: InsideFrame
  films: readonly FilmToPlace[]
  /** To the inside of the frame, and from film to film by the shortest way. */
  clearance: Readonly<{ frameMm: number; betweenMm: number }>
  /** Where no film may lie, from the inside top left corner. */
  keepOut: readonly Box[]
}>

/**
 * Where a film lies: the top left corner of its sheet from the inside top left corner of the frame.
 * Turned is a quarter clockwise.
 */
export type PlacedFilm = Readonly<{ name: string; xMm: number; yMm: number; turned: boolean }>

/** Of a film, a frame or a box. */
export const LENGTH: Range = { name: 'length', low: 0.1, high: 20_000, unit: 'mm' }
export const CLEARANCE: Range = { name: 'clearance', low: 0, high: 5000, unit: 'mm' }
export const MOST_FILMS = 500
export const MOST_KEEP_OUTS = 50
/** Rounding of sums of millimetres. */
const SLACK_MM = 1e-6

/** @throws RangeError where a length cannot be, or there are none or too many films */
export function expectProblem({ frame, films, clearance, keepOut }: PlacementProblem): void {
  expectIn(frame.insideWidthMm, { ...LENGTH, name: 'insideWidthMm' })
  expectIn(frame.insideHeightMm, { ...LENGTH, name: 'insideHeightMm' })
  expectIn(clearance.frameMm, { ...CLEARANCE, name: 'frameMm' })
  expectIn(clearance.betweenMm, { ...CLEARANCE, name: 'betweenMm' })
  expectIn(films.length, { name: 'films', low: 1, high: MOST_FILMS, unit: '', whole: true })
  expectIn(keepOut.length, { name: 'keepOut', low: 0, high: MOST_KEEP_OUTS, unit: '', whole: true })
  for (const { widthMm, heightMm } of [...films, ...keepOut]) {
    expectIn(widthMm, { ...LENGTH, name: 'widthMm' })
    expectIn(heightMm, { ...LENGTH, name: 'heightMm' })
  }
  for (const { widthMm, heightMm, marks } of films) {
    if (marks === undefined) continue
    const { xMm, yMm } = marks
    expectIn(marks.widthMm, { ...LENGTH, name: 'marks.widthMm' })
    expectIn(marks.heightMm, { ...LENGTH, name: 'marks.heightMm' })
    expectIn(xMm, {
      name: 'marks.xMm',
      low: 0,
      high: widthMm - marks.widthMm + SLACK_MM,
      unit: 'mm',
    })
    expectIn(yMm, {
      name: 'marks.yMm',
      low: 0,
      high: heightMm - marks.heightMm + SLACK_MM,
      unit: 'mm',
    })
  }
}

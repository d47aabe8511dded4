import { expectIn, type Range } from '../units/range.ts'
import type { LightInFrame } from './light.ts'
import type { Outline } from './outline.ts'

export type Box = Readonly<{ xMm: number; yMm: number; widthMm: number; heightMm: number }>

/** A film to be laid on a screen: its sheet, and whether it may be turned by a quarter. */
export type FilmToPlace = Readonly<{
  name: string
  widthMm: number
  heightMm: number
  turn: 'fixed' | 'quarter'
  /** What of the sheet has marks, as it lies unturned; all of it unless given. */
  marks?: Box
  /** The same more closely; its rectangle is `marks`. */
  outline?: Outline
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
  /** What the lamp gives inside the frame: then marks are wished where it is even. */
  light?: LightInFrame
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
/** Convex parts of an outline, and corners of each. */
export const MOST_PARTS = 24
export const MOST_CORNERS = 64
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
  for (const { xMm, yMm } of keepOut) {
    expectIn(xMm, { ...LENGTH, name: 'keepOut xMm', low: -LENGTH.high })
    expectIn(yMm, { ...LENGTH, name: 'keepOut yMm', low: -LENGTH.high })
  }
  for (const { widthMm, heightMm, marks, outline } of films) {
    if (outline !== undefined) expectOutline(outline, { widthMm, heightMm })
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

function expectOutline(
  outline: Outline,
  { widthMm, heightMm }: Readonly<{ widthMm: number; heightMm: number }>,
): void {
  const whole = { unit: '', whole: true }
  expectIn(outline.length, { name: 'outline', low: 1, high: MOST_PARTS, ...whole })
  for (const part of outline) {
    expectIn(part.length, { name: 'outline', low: 3, high: MOST_CORNERS, ...whole })
    for (const { xMm, yMm } of part) {
      const [low, unit] = [-SLACK_MM, 'mm']
      expectIn(xMm, { name: 'outline xMm', low, high: widthMm + SLACK_MM, unit })
      expectIn(yMm, { name: 'outline yMm', low, high: heightMm + SLACK_MM, unit })
    }
  }
}

import { sheetOf } from './boxes.ts'
import type { Box, PlacedFilm, PlacementProblem } from './problem.ts'

type Point = Readonly<{ xMm: number; yMm: number }>
type FilmSide = 'left' | 'top' | 'right' | 'bottom'

/** A straight way that one can measure with a ruler, from a film’s sheet to the frame or the next film. */
export type Dimension = Readonly<{
  film: number
  side: FilmSide
  /** On the frame’s inside or the other film, then on the film itself. */
  from: Point
  to: Point
  lengthMm: number
  reaches: 'frame' | 'film'
}>

const SIDES: readonly FilmSide[] = ['left', 'top', 'right', 'bottom']

/**
 * Lines by which films can be laid with a ruler: from each side of each sheet to the inside of the
 * frame, or to the film that lies between; a gap between two films once. None where a film
 * reaches beyond what it should keep from.
 */
export function dimensionLines(
  { frame, films }: PlacementProblem,
  placed: readonly Omit<PlacedFilm, 'name'>[],
): readonly Dimension[] {
  const sheets = films.flatMap((film, at) => {
    const place = placed[at]
    return place === undefined ? [] : [sheetOf(film, place)]
  })
  return sheets.flatMap((sheet, film) =>
    SIDES.flatMap((side): readonly Dimension[] => {
      const others = sheets.filter((_, at) => at !== film)
      const next = nearest(sheet, others, side)
      if (next !== null && (side === 'right' || side === 'bottom')) return [] // told from over there
      const line = next === null ? toTheFrame(sheet, frame, side) : toTheFilm(sheet, next, side)
      if (line.lengthMm < LEAST_MM) return []
      return [{ film, side, reaches: next === null ? 'frame' : 'film', ...line }]
    }),
  )
}

const LEAST_MM = 0.05

/** The film that one meets first on the way to the frame. */
function nearest(sheet: Box, others: readonly Box[], side: FilmSide): Box | null {
  const met = others.filter(
    (other) => isBeside(sheet, other, side) && gapOf(sheet, other, side) >= -LEAST_MM,
  )
  return met.reduce<Box | null>(
    (first, other) =>
      first === null || gapOf(sheet, other, side) < gapOf(sheet, first, side) ? other : first,
    null,
  )
}

function isBeside(a: Box, b: Box, side: FilmSide): boolean {
  const [from, to] = shared(a, b, side)
  return to - from > LEAST_MM
}

/** What two boxes share of the axis across the line. */
function shared(a: Box, b: Box, side: FilmSide): readonly [from: number, to: number] {
  return side === 'left' || side === 'right'
    ? [Math.max(a.yMm, b.yMm), Math.min(a.yMm + a.heightMm, b.yMm + b.heightMm)]
    : [Math.max(a.xMm, b.xMm), Math.min(a.xMm + a.widthMm, b.xMm + b.widthMm)]
}

function gapOf(sheet: Box, other: Box, side: FilmSide): number {
  switch (side) {
    case 'left':
      return sheet.xMm - other.xMm - other.widthMm
    case 'right':
      return other.xMm - sheet.xMm - sheet.widthMm
    case 'top':
      return sheet.yMm - other.yMm - other.heightMm
    case 'bottom':
      return other.yMm - sheet.yMm - sheet.heightMm
  }
}

type Line = Pick<Dimension, 'from' | 'to' | 'lengthMm'>

/** Off the middle, so that four lines, a name there and the frame’s own middle do not meet. */
const ALONG = { left: 0.3, right: 0.3, top: 0.7, bottom: 0.3 } as const

function toTheFrame(
  { xMm, yMm, widthMm, heightMm }: Box,
  { insideWidthMm, insideHeightMm }: PlacementProblem['frame'],
  side: FilmSide,
): Line {
  const y = yMm + ALONG[side] * heightMm
  const x = xMm + ALONG[side] * widthMm
  switch (side) {
    case 'left':
      return { ...across(0, xMm, y), lengthMm: xMm }
    case 'right':
      return { ...across(insideWidthMm, xMm + widthMm, y), lengthMm: insideWidthMm - xMm - widthMm }
    case 'top':
      return { ...down(0, yMm, x), lengthMm: yMm }
    case 'bottom':
      return {
        ...down(insideHeightMm, yMm + heightMm, x),
        lengthMm: insideHeightMm - yMm - heightMm,
      }
  }
}

function toTheFilm(sheet: Box, other: Box, side: FilmSide): Line {
  const [from, to] = shared(sheet, other, side)
  const middle = (from + to) / 2
  const lengthMm = gapOf(sheet, other, side)
  return side === 'left'
    ? { ...across(other.xMm + other.widthMm, sheet.xMm, middle), lengthMm }
    : { ...down(other.yMm + other.heightMm, sheet.yMm, middle), lengthMm }
}

function across(fromMm: number, toMm: number, yMm: number): Omit<Line, 'lengthMm'> {
  return { from: { xMm: fromMm, yMm }, to: { xMm: toMm, yMm } }
}

function down(fromMm: number, toMm: number, xMm: number): Omit<Line, 'lengthMm'> {
  return { from: { xMm, yMm: fromMm }, to: { xMm, yMm: toMm } }
}

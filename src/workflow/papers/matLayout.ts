import type { Point } from '../../core/inspection/homography.ts'
import { PAPERS } from './paperSizes.ts'
import type { Box } from './shapes.ts'

export type MatSize = 'a4' | 'letter' | 'a3'

/** A square target by its number, its top left corner in mm from the sheet's top left. */
export type TargetPlace = Readonly<{
  number: number
  xMm: number
  yMm: number
}>

/** Where everything stands on a reading mat, in mm from the sheet's upper left corner. */
export type MatLayout = Readonly<{
  size: MatSize
  widthMm: number
  heightMm: number
  /** A target's black side: six cells. */
  targetMm: number
  targets: readonly TargetPlace[]
  /** To be cut out: the film lies in it, or under it. */
  window: Box
  /** To be cut out: the step wedge lies in it, with light at its ends. */
  slot: Box
  scale: Readonly<{ xMm: number; yMm: number }>
  leftMm: number
  rightMm: number
  footMm: number
}>

/** Printers leave this much of a sheet white. */
const EDGE_MM = 7
const TARGET_MM = 12
/** From a target to the window, so that a hand may cut badly. */
const GAP_MM = 3
const WINDOW_TOP_MM = 27
const BENEATH_WINDOW_MM = 71
const SLOT = { heightMm: 17, aboveMm: 10, widthMm: 160 }

/** Each size has numbers of its own, so that a photo says which mat it shows. */
const FIRST_NUMBER: Readonly<Record<MatSize, number>> = {
  a4: 0,
  letter: 12,
  a3: 24,
}
/** Targets down each side. */
const DOWN: Readonly<Record<MatSize, number>> = { a4: 5, letter: 5, a3: 7 }

export const MAT_SIZES: readonly MatSize[] = ['a4', 'letter', 'a3']

export function matLayout(size: MatSize): MatLayout {
  const { widthMm, heightMm } = PAPERS[size]
  const inset = EDGE_MM + TARGET_MM + GAP_MM
  const window = {
    xMm: inset,
    yMm: WINDOW_TOP_MM,
    widthMm: widthMm - 2 * inset,
    heightMm: heightMm - WINDOW_TOP_MM - BENEATH_WINDOW_MM,
  }
  const slot = {
    xMm: (widthMm - SLOT.widthMm) / 2,
    yMm: window.yMm + window.heightMm + SLOT.aboveMm,
    widthMm: SLOT.widthMm,
    heightMm: SLOT.heightMm,
  }
  const [left, right] = [EDGE_MM, widthMm - EDGE_MM - TARGET_MM]
  const count = DOWN[size]
  const lowest = heightMm - EDGE_MM - TARGET_MM - 11
  const first = FIRST_NUMBER[size]
  const rows = Array.from({ length: count }, (_, row) => ({
    row,
    yMm: EDGE_MM + (row * (lowest - EDGE_MM)) / (count - 1),
  }))
  const sides = rows.flatMap(({ row, yMm }) => [
    { number: first + 2 * row, xMm: left, yMm },
    { number: first + 2 * row + 1, xMm: right, yMm },
  ])
  const top = {
    number: first + 2 * count,
    xMm: (widthMm - TARGET_MM) / 2,
    yMm: EDGE_MM,
  }
  return {
    size,
    widthMm,
    heightMm,
    targetMm: TARGET_MM,
    targets: [...sides, top],
    window,
    slot,
    scale: { xMm: inset, yMm: slot.yMm + slot.heightMm + 8 },
    leftMm: EDGE_MM,
    rightMm: widthMm - EDGE_MM,
    footMm: heightMm - 7.5,
  }
}

/** Corners of a target, clockwise from its top left, in mm. */
export function targetCorners({ xMm, yMm }: TargetPlace, sideMm: number): readonly Point[] {
  return [
    { x: xMm, y: yMm },
    { x: xMm + sideMm, y: yMm },
    { x: xMm + sideMm, y: yMm + sideMm },
    { x: xMm, y: yMm + sideMm },
  ]
}

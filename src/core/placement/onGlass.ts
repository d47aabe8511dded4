import { expectIn } from '../units/range.ts'
import type { Box, InsideFrame, PlacementProblem } from './problem.ts'
import { LENGTH } from './problem.ts'

/**
 * A screen as it lies on the glass, seen from above: its outside, from the back left corner of the
 * glass, to the right and towards you. Turned is a quarter clockwise.
 */
export type OnGlass = Readonly<{ xMm: number; yMm: number; turned: boolean }>

type Sides = Readonly<{ widthMm: number; heightMm: number }>
type Point = Readonly<{ xMm: number; yMm: number }>

/** Of a frame whose outside nobody measured: so wide is its bar; judged. */
const USUAL_BAR_MM = 40

/** The outside of a frame; its inside and usual bars where nobody measured it. */
export function outsideOf(
  frame: InsideFrame & Readonly<{ outsideWidthMm: number | null; outsideHeightMm: number | null }>,
): Sides {
  return {
    widthMm: frame.outsideWidthMm ?? frame.insideWidthMm + 2 * USUAL_BAR_MM,
    heightMm: frame.outsideHeightMm ?? frame.insideHeightMm + 2 * USUAL_BAR_MM,
  }
}

/**
 * Screens on a glass as what is laid by its outside: whole on it, not on each other, turned where
 * that serves.
 *
 * @param glass sides in mm, above 0
 */
export function screensOnGlassProblem(
  glass: Sides,
  screens: readonly Readonly<{ name: string; outside: Sides }>[],
): PlacementProblem {
  return {
    frame: { insideWidthMm: glass.widthMm, insideHeightMm: glass.heightMm },
    films: screens.map(({ name, outside: { widthMm, heightMm } }) => ({
      name,
      widthMm,
      heightMm,
      turn: 'quarter',
    })),
    clearance: { frameMm: 0, betweenMm: 0 },
    keepOut: [],
  }
}

/** In the middle of the glass, as it stands. */
export function inTheMiddleOf(glass: Sides, outside: Sides): OnGlass {
  return {
    xMm: (glass.widthMm - outside.widthMm) / 2,
    yMm: (glass.heightMm - outside.heightMm) / 2,
    turned: false,
  }
}

/** Where a place inside the frame lies on the glass, from its back left corner. */
export function glassPlaceOf({ xMm, yMm }: Point, { frame, outside, laid }: Laid): Point {
  const [x, y] = [
    xMm + bar(outside.widthMm, frame.insideWidthMm),
    yMm + bar(outside.heightMm, frame.insideHeightMm),
  ]
  return laid.turned
    ? { xMm: laid.xMm + outside.heightMm - y, yMm: laid.yMm + x }
    : { xMm: laid.xMm + x, yMm: laid.yMm + y }
}

/** A screen’s frame, its outside and where it lies. */
export type Laid = Readonly<{ frame: InsideFrame; outside: Sides; laid: OnGlass }>

/**
 * What lies on the glass as seen inside the frame, from its inside top left; null where it lies
 * beyond the frame’s inside.
 *
 * @throws RangeError for a length that cannot be
 */
export function insideFrame(onGlass: Box, { frame, outside, laid }: Laid): Box | null {
  expectIn(onGlass.widthMm, { ...LENGTH, name: 'widthMm' })
  expectIn(onGlass.heightMm, { ...LENGTH, name: 'heightMm' })
  const [x, y] = [onGlass.xMm - laid.xMm, onGlass.yMm - laid.yMm]
  const seen: Box = laid.turned
    ? {
        xMm: y,
        yMm: outside.heightMm - x - onGlass.widthMm,
        widthMm: onGlass.heightMm,
        heightMm: onGlass.widthMm,
      }
    : { xMm: x, yMm: y, widthMm: onGlass.widthMm, heightMm: onGlass.heightMm }
  const box = {
    ...seen,
    xMm: seen.xMm - bar(outside.widthMm, frame.insideWidthMm),
    yMm: seen.yMm - bar(outside.heightMm, frame.insideHeightMm),
  }
  const isSeen =
    box.xMm < frame.insideWidthMm &&
    box.yMm < frame.insideHeightMm &&
    box.xMm + box.widthMm > 0 &&
    box.yMm + box.heightMm > 0
  return isSeen ? box : null
}

function bar(outsideMm: number, insideMm: number): number {
  return (outsideMm - insideMm) / 2
}

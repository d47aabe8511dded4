import { halvings, type Plane } from './plane.ts'

/**
 * A plane that knows where it lies: the middle of pixel (x, y) is at left + (x + 0.5) step,
 * top + (y + 0.5) step, in halves of the whole picture's longer side from its middle.
 */
export type Grid = Plane & Readonly<{ left: number; top: number; step: number }>

/** @param whole size of the picture in any unit, `pixel` the side of the plane's pixels in it */
export function gridOf(
  plane: Plane,
  { width, height, pixel }: Readonly<{ width: number; height: number; pixel: number }>,
): Grid {
  const half = Math.max(width, height) / 2
  return { ...plane, left: -width / 2 / half, top: -height / 2 / half, step: pixel / half }
}

/** The grid and its halves down to a longer side of `leastPx` or a little more. */
export function gridHalvings(grid: Grid, leastPx: number): readonly Grid[] {
  return halvings(grid, leastPx).map((plane, at) => ({
    ...grid,
    ...plane,
    step: grid.step * 2 ** at,
  }))
}

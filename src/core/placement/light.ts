import { outlineOf } from './outline.ts'
import type { PlacedFilm, PlacementProblem } from './problem.ts'

type Point = Readonly<{ xMm: number; yMm: number }>

/**
 * The light inside a frame: log10 of it over 1, u, v, u², uv, v², u and v running from 0 to 1 from
 * the inside top left to the right and to the bottom.
 */
export type LightInFrame = readonly [number, number, number, number, number, number]

/** The surface through a light that is one: told by six places. */
export function lightSurface(
  shareAt: (place: Point) => number,
  { insideWidthMm, insideHeightMm }: PlacementProblem['frame'],
): LightInFrame {
  const at = (u: number, v: number): number =>
    Math.log10(shareAt({ xMm: u * insideWidthMm, yMm: v * insideHeightMm }))
  const [corner, right, bottom] = [at(0, 0), at(1, 0), at(0, 1)]
  const [across, down] = [at(0.5, 0), at(0, 0.5)]
  const uu = 2 * (corner + right - 2 * across)
  const vv = 2 * (corner + bottom - 2 * down)
  return [
    corner,
    right - corner - uu,
    bottom - corner - vv,
    uu,
    at(1, 1) - right - bottom + corner,
    vv,
  ]
}

/** Least and most light on the marks of all films; null where nobody measured it. */
export function lightOnMarks(
  { films, frame, light }: PlacementProblem,
  placed: readonly Omit<PlacedFilm, 'name'>[],
): Readonly<{ least: number; most: number }> | null {
  if (light === undefined) return null
  const [c, cu, cv, cuu, cuv, cvv] = light
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  const look = (xMm: number, yMm: number): void => {
    const [u, v] = [xMm / frame.insideWidthMm, yMm / frame.insideHeightMm]
    const log = c + cu * u + cv * v + cuu * u * u + cuv * u * v + cvv * v * v
    least = Math.min(least, log)
    most = Math.max(most, log)
  }
  for (const [at, film] of films.entries()) {
    const place = placed[at]
    if (place === undefined) continue
    for (const part of outlineOf(film, place)) {
      // spokes from the middle to the corners and to the middles of the sides, and places along them
      const [x, y] = ['xMm' as const, 'yMm' as const].map(
        (along) => part.reduce((sum, corner) => sum + corner[along], 0) / part.length,
      )
      if (x === undefined || y === undefined) continue
      for (const [corner, { xMm, yMm }] of part.entries()) {
        const next = part[(corner + 1) % part.length] ?? { xMm, yMm }
        for (const share of SHARES) {
          look(x + share * (xMm - x), y + share * (yMm - y))
          const [sideX, sideY] = [(xMm + next.xMm) / 2, (yMm + next.yMm) / 2]
          look(x + share * (sideX - x), y + share * (sideY - y))
        }
      }
    }
  }
  return { least: 10 ** least, most: 10 ** most }
}

const SHARES = [0, 0.25, 0.5, 0.75, 1]

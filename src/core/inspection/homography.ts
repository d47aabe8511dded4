import { linearFit } from '../fit/linearFit.ts'

export type Point = Readonly<{ x: number; y: number }>

/** Nine numbers, row by row, the last 1: how one plane is seen as another. */
export type Homography = readonly number[]

export type PointPair = Readonly<{ from: Point; to: Point }>

/** Below this share of what it could be, a determinant belongs to points on a line. */
const FLAT = 1e-6

/**
 * The homography that takes each `from` to its `to`: exactly for four pairs, by least squares of
 * the linear equations for more.
 *
 * Both sets are first moved to their middle and scaled to a mean distance of √2 from it; without
 * that the equations lose half their digits.
 *
 * @returns null for fewer than four pairs, or where three of four lie on a line
 * @source hartley-zisserman (algorithms 4.1 and 4.2, the last entry held at 1 after the move)
 */
export function homographyThrough(pairs: readonly PointPair[]): Homography | null {
  const from = normalising(pairs.map((pair) => pair.from))
  const to = normalising(pairs.map((pair) => pair.to))
  if (pairs.length < 4 || from === null || to === null) return null
  const rows: number[][] = []
  const values: number[] = []
  for (const pair of pairs) {
    const { x, y } = mapped(from, pair.from)
    const { x: u, y: v } = mapped(to, pair.to)
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y])
    values.push(u, v)
  }
  const fit = linearFit(rows, values)
  if (fit === null) return null
  const inner = [...fit.coefficients, 1]
  if (!(Math.abs(determinant(inner)) > FLAT * Math.max(...inner.map(Math.abs)) ** 3)) return null
  const back = inverseOf(to)
  return back === null ? null : scaled(product(back, product(inner, from)))
}

/** Where a point is seen; the horizon is at infinity. */
export function mapped(h: Homography, { x, y }: Point): Point {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, i = 0, j = 0] = h
  const w = g * x + i * y + j
  return { x: (a * x + b * y + c) / w, y: (d * x + e * y + f) / w }
}

/** The way back; null where everything falls onto a line. */
export function inverseOf(h: Homography): Homography | null {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, i = 0, j = 0] = h
  const whole = determinant(h)
  if (whole === 0 || !Number.isFinite(whole)) return null
  return scaled([
    e * j - f * i,
    c * i - b * j,
    b * f - c * e,
    f * g - d * j,
    a * j - c * g,
    c * d - a * f,
    d * i - e * g,
    b * g - a * i,
    a * e - b * d,
  ])
}

/** First `second`, then `first`. */
export function product(first: Homography, second: Homography): Homography {
  return Array.from({ length: 9 }, (_, at) => {
    const [row, column] = [3 * Math.floor(at / 3), at % 3]
    return [0, 1, 2].reduce(
      (sum, step) => sum + (first[row + step] ?? 0) * (second[3 * step + column] ?? 0),
      0,
    )
  })
}

function determinant(h: Homography): number {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, i = 0, j = 0] = h
  return a * (e * j - f * i) - b * (d * j - f * g) + c * (d * i - e * g)
}

function scaled(h: Homography): Homography {
  const last = h[8] ?? 1
  return h.map((entry) => entry / last)
}

/** Moves points to their middle, at a mean distance of √2; null where all are one. */
function normalising(points: readonly Point[]): Homography | null {
  const count = points.length
  const x = points.reduce((sum, point) => sum + point.x, 0) / count
  const y = points.reduce((sum, point) => sum + point.y, 0) / count
  const far = points.reduce((sum, point) => sum + Math.hypot(point.x - x, point.y - y), 0) / count
  if (!(far > 0) || !Number.isFinite(far)) return null
  const scale = Math.SQRT2 / far
  return [scale, 0, -scale * x, 0, scale, -scale * y, 0, 0, 1]
}

import { sheetOf } from './boxes.ts'
import type { Box, FilmToPlace, PlacedFilm } from './problem.ts'

export type Point = Readonly<{ xMm: number; yMm: number }>
/** A convex part: its corners in turn, so that its inside is always on the same hand. */
export type Part = readonly Point[]
/** What of a film has marks, more closely than its rectangle: convex parts that hold them all. */
export type Outline = readonly Part[]

/**
 * The convex hull of points: its corners in turn.
 *
 * @source convex-hull
 */
export function hullOf(points: readonly Point[]): Part {
  const sorted = [...points].sort((a, b) => a.xMm - b.xMm || a.yMm - b.yMm)
  const half = (along: readonly Point[]): Point[] => {
    const chain: Point[] = []
    for (const point of along) {
      for (;;) {
        const [before, last] = [chain.at(-2), chain.at(-1)]
        if (before === undefined || last === undefined) break
        if (turnOf(before, last, point) > 0) break
        chain.pop()
      }
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.toReversed())]
}

/** Above 0: the way from a over b to c turns to the hand on which a hull’s inside is. */
function turnOf(a: Point, b: Point, c: Point): number {
  return (b.xMm - a.xMm) * (c.yMm - a.yMm) - (b.yMm - a.yMm) * (c.xMm - a.xMm)
}

/** By the shoelace formula. */
export function areaMm2(part: Part): number {
  let twice = 0
  for (const [at, { xMm, yMm }] of part.entries()) {
    const next = part[(at + 1) % part.length] ?? part[0]
    if (next !== undefined) twice += xMm * next.yMm - next.xMm * yMm
  }
  return Math.abs(twice) / 2
}

/** A rectangle by its four corners. */
export function boxAsPart({ xMm, yMm, widthMm, heightMm }: Box): Part {
  const [right, bottom] = [xMm + widthMm, yMm + heightMm]
  return [
    { xMm, yMm },
    { xMm: right, yMm },
    { xMm: right, yMm: bottom },
    { xMm, yMm: bottom },
  ]
}

/** The marks of a film as it lies: their outline, else their rectangle, else the whole sheet. */
export function outlineOf(film: FilmToPlace, placed: Omit<PlacedFilm, 'name'>): Outline {
  const { outline, marks, heightMm } = film
  const own = outline ?? [
    boxAsPart(marks ?? { ...sheetOf(film, { ...placed, turned: false }), xMm: 0, yMm: 0 }),
  ]
  const { xMm: left, yMm: top, turned } = placed
  return own.map((part) =>
    part.map(({ xMm, yMm }) =>
      turned ? { xMm: left + heightMm - yMm, yMm: top + xMm } : { xMm: left + xMm, yMm: top + yMm },
    ),
  )
}

/**
 * The shortest way between two outlines; below 0 by how far a part of one reaches into one of the
 * other: the least way that would free it.
 */
export function outlinesApart(one: Outline, other: Outline): number {
  let least = Number.POSITIVE_INFINITY
  for (const a of one) {
    for (const b of other) {
      if (boundApart(a, b) < least) least = Math.min(least, partsApart(a, b))
    }
  }
  return least
}

/** No more than the way between two parts: that between their rectangles. */
function boundApart(a: Part, b: Part): number {
  const [p, q] = [boundsOf(a), boundsOf(b)]
  const across = Math.max(q.left - p.right, p.left - q.right)
  const down = Math.max(q.top - p.bottom, p.top - q.bottom)
  if (across > 0 && down > 0) return Math.hypot(across, down)
  const most = Math.max(across, down)
  return most > 0 ? most : Number.NEGATIVE_INFINITY
}

function boundsOf(
  part: Part,
): Readonly<{ left: number; top: number; right: number; bottom: number }> {
  let [left, top, right, bottom] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ]
  for (const { xMm, yMm } of part) {
    left = Math.min(left, xMm)
    right = Math.max(right, xMm)
    top = Math.min(top, yMm)
    bottom = Math.max(bottom, yMm)
  }
  return { left, top, right, bottom }
}

/** @source separating-axis */
function partsApart(a: Part, b: Part): number {
  const gap = Math.max(widestGap(a, b), widestGap(b, a))
  return gap <= 0 ? gap : Math.min(cornersTo(a, b), cornersTo(b, a))
}

/** Over the sides of a: how far b lies beyond the one that it lies furthest beyond. */
function widestGap(a: Part, b: Part): number {
  let widest = Number.NEGATIVE_INFINITY
  for (let at = 0; at < a.length; at++) {
    const [from, to] = [a[at], a[(at + 1) % a.length]]
    if (from === undefined || to === undefined) continue
    const long = Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm)
    if (long === 0) continue
    let nearest = Number.POSITIVE_INFINITY
    for (const corner of b) nearest = Math.min(nearest, -turnOf(from, to, corner) / long)
    widest = Math.max(widest, nearest)
  }
  return widest
}

/** From the corners of a to the sides of b, the shortest. */
function cornersTo(a: Part, b: Part): number {
  let least = Number.POSITIVE_INFINITY
  for (let at = 0; at < b.length; at++) {
    const [from, to] = [b[at], b[(at + 1) % b.length]]
    if (from === undefined || to === undefined) continue
    const [x, y] = [to.xMm - from.xMm, to.yMm - from.yMm]
    const square = x * x + y * y
    for (const { xMm, yMm } of a) {
      const along = square === 0 ? 0 : ((xMm - from.xMm) * x + (yMm - from.yMm) * y) / square
      const share = Math.min(1, Math.max(0, along))
      least = Math.min(least, Math.hypot(xMm - from.xMm - share * x, yMm - from.yMm - share * y))
    }
  }
  return least
}

/** The sides of an outline’s parts that do not lie within another part: what is seen of it as a whole. */
export function silhouetteOf(outline: Outline): readonly Readonly<{ from: Point; to: Point }>[] {
  return outline.flatMap((part, at) =>
    part.flatMap((from, corner) => {
      const to = part[(corner + 1) % part.length] ?? from
      const hidden = outline
        .flatMap((other, index) => (index === at ? [] : [within(from, to, other)]))
        .filter(([start, end]) => end > start)
        .sort(([a], [b]) => a - b)
      const seen: { from: Point; to: Point }[] = []
      let reached = 0
      for (const [start, end] of [...hidden, [1, 1] as const]) {
        if (start > reached + LEAST_SHARE) {
          seen.push({ from: between(from, to, reached), to: between(from, to, start) })
        }
        reached = Math.max(reached, end)
      }
      return seen
    }),
  )
}
const LEAST_SHARE = 1e-6

/** Which share of a way lies within a convex part; nothing where the end is before the start. */
function within(from: Point, to: Point, part: Part): readonly [start: number, end: number] {
  let [start, end] = [0, 1]
  for (const [at, corner] of part.entries()) {
    const next = part[(at + 1) % part.length] ?? corner
    const [a, b] = [turnOf(corner, next, from), turnOf(corner, next, to)]
    if (a < 0 && b < 0) return [1, 0]
    if (a < 0) start = Math.max(start, a / (a - b))
    else if (b < 0) end = Math.min(end, a / (a - b))
  }
  return [start, end]
}

function between(from: Point, to: Point, share: number): Point {
  return {
    xMm: from.xMm + share * (to.xMm - from.xMm),
    yMm: from.yMm + share * (to.yMm - from.yMm),
  }
}

/** A point of a hand's path: where, how wide the mark is there, how much the tool gives there. */
export type Knot = Readonly<{ xMm: number; yMm: number; halfWidthMm: number; load: number }>

export type Point = Readonly<{ xMm: number; yMm: number }>

/** Rows of numbers, or the same written out: `12,30,0.4 18,31.5,0.6`. */
export type Written = string | readonly (readonly number[])[]

/** A hand-written path, row by row: x, y, half width (0.5 unless said) and load (1 unless said). */
export function knots(path: Written): readonly Knot[] {
  return rowsOf(path).map(([xMm, yMm, halfWidthMm = 0.5, load = 1]) => ({
    xMm,
    yMm,
    halfWidthMm,
    load,
  }))
}

export function points(outline: Written): readonly Point[] {
  return rowsOf(outline).map(([xMm, yMm]) => ({ xMm, yMm }))
}

export function rowsOf(path: Written): readonly (readonly number[])[] {
  if (typeof path !== 'string') return path
  return path
    .trim()
    .split(/\s+/)
    .map((row) => row.split(',').map(Number))
}

/**
 * A smooth path through the knots, a knot about every `stepMm` (Catmull and Rom's cubic with
 * centripetal spacing, which makes no loops). Width and load go along without overshooting.
 */
export function smooth(
  path: readonly Knot[],
  { stepMm }: Readonly<{ stepMm: number }>,
): readonly Knot[] {
  const out: Knot[] = []
  for (let at = 0; at + 1 < path.length; at += 1) {
    const from = path[at]
    const to = path[at + 1]
    const before = path[at - 1] ?? beyond(to, from)
    const after = path[at + 2] ?? beyond(from, to)
    const pieces = Math.max(1, Math.ceil(distanceMm(from, to) / stepMm))
    for (let piece = at === 0 ? 0 : 1; piece <= pieces; piece += 1) {
      const t = piece / pieces
      out.push({
        ...between({ before, from, to, after }, t),
        halfWidthMm: from.halfWidthMm + (to.halfWidthMm - from.halfWidthMm) * eased(t),
        load: from.load + (to.load - from.load) * eased(t),
      })
    }
  }
  return out
}

/** The same for a closed outline. */
export function smoothRing(
  ring: readonly Point[],
  { stepMm }: Readonly<{ stepMm: number }>,
): readonly Point[] {
  const out: Point[] = []
  ring.forEach((from, at) => {
    const to = ring[(at + 1) % ring.length]
    const before = ring[(at + ring.length - 1) % ring.length]
    const after = ring[(at + 2) % ring.length]
    const pieces = Math.max(1, Math.ceil(distanceMm(from, to) / stepMm))
    for (let piece = 0; piece < pieces; piece += 1) {
      out.push(between({ before, from, to, after }, piece / pieces))
    }
  })
  return out
}

export function distanceMm(a: Point, b: Point): number {
  return Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm)
}

export function lengthMm(path: readonly Point[]): number {
  let sum = 0
  for (let at = 1; at < path.length; at += 1) sum += distanceMm(path[at - 1], path[at])
  return sum
}

type Four = Readonly<{ before: Point; from: Point; to: Point; after: Point }>

function between({ before, from, to, after }: Four, t: number): Point {
  const span = (a: Point, b: Point): number => Math.sqrt(distanceMm(a, b)) || 1e-6
  const first = span(before, from)
  const second = span(from, to)
  const third = span(to, after)
  const along = (key: keyof Point): number => {
    const slopeIn =
      (from[key] - before[key]) / first -
      (to[key] - before[key]) / (first + second) +
      (to[key] - from[key]) / second
    const slopeOut =
      (to[key] - from[key]) / second -
      (after[key] - from[key]) / (second + third) +
      (after[key] - to[key]) / third
    const a = slopeIn * second
    const b = slopeOut * second
    const rest = to[key] - from[key]
    return from[key] + t * (a + t * (3 * rest - 2 * a - b + t * (a + b - 2 * rest)))
  }
  return { xMm: along('xMm'), yMm: along('yMm') }
}

/** The point as far past `end` as `start` is before it. */
function beyond(start: Point, end: Point): Point {
  return { xMm: 2 * end.xMm - start.xMm, yMm: 2 * end.yMm - start.yMm }
}

function eased(t: number): number {
  return t * t * (3 - 2 * t)
}

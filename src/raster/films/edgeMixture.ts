import type { NearestInk } from '../../core/separation/nearestInk.ts'

/** The rows about a pixel's, its own in the middle; at the picture's rim the outermost again. */
export type Neighbourhood = Readonly<{
  widthPx: number
  reach: number
  rows: readonly Readonly<{
    rgb: Uint8Array
    /** The same, 24 bits a pixel. */
    packed: Int32Array
    /** The nearest ink of each pixel, or the number of inks for paper. */
    ink: Uint8Array
    /** 1 where the pixel is part of a flat place. */
    flat: Uint8Array
  }>[]
  nearest: NearestInk
}>

/** A pixel's two inks, and how much of it is the second's. */
export type Mixture = Readonly<{ first: number; second: number; secondShare: number }>

type Anchor = Readonly<{ ink: number; red: number; green: number; blue: number }>

/** How far a smoothed edge's colour may lie off the straight line between its two sides, in levels. */
const MOST_OFF = 40
/** So near to a flat neighbour's colour a pixel is the same. */
const SAME = 24

/**
 * What a pixel that is not flat is made of. Between two flat colours nearby it is a mixture of them,
 * whatever ink its own colour would be nearest to. Beside one flat colour it belongs to a thin line,
 * whose own colour is that of its neighbour farthest from the flat one. Else it is what it looks like.
 */
export function mixtureAt(x: number, near: Neighbourhood): Mixture {
  const own = colourAt(x, near.reach, near)
  const anchors = anchorsAt(x, near)
  const same = anchors.find((anchor) => distance(anchor, own) <= SAME)
  if (same !== undefined) return pure(same.ink)
  const between = bestPair(own, anchors)
  if (between !== null) return between
  const [nearestAnchor] = anchors.toSorted(
    (one, other) => distance(one, own) - distance(other, own),
  )
  if (nearestAnchor === undefined) return pure(own.ink)
  const core = farthest(x, near, nearestAnchor)
  const coreInk = core.ink
  if (coreInk === nearestAnchor.ink) return pure(own.ink)
  const { share, off } = along(own, nearestAnchor, core)
  if (off > MOST_OFF) return pure(own.ink)
  return { first: nearestAnchor.ink, second: coreInk, secondShare: share }
}

function pure(ink: number): Mixture {
  return { first: ink, second: ink, secondShare: 0 }
}

/** Inks met about one pixel, and where nearest; kept for the next pixel, there are many of them. */
const MET = { inks: new Uint8Array(25), squared: new Int32Array(25), places: new Int32Array(25) }

/** One colour of each ink that is flat nearby, the nearest to the pixel. */
function anchorsAt(x: number, near: Neighbourhood): readonly Anchor[] {
  const { reach, widthPx } = near
  const { inks, squared, places } = MET
  const [left, right] = [Math.max(0, x - reach), Math.min(widthPx - 1, x + reach)]
  let count = 0
  for (let row = 0; row <= 2 * reach; row++) {
    const { flat, ink } = near.rows[row]
    for (let column = left; column <= right; column++) {
      if (flat[column] === 0) continue
      const far = (column - x) ** 2 + (row - reach) ** 2
      const own = ink[column]
      let at = 0
      while (at < count && inks[at] !== own) at += 1
      if (at < count && squared[at] <= far) continue
      if (at === count) count += 1
      inks[at] = own
      squared[at] = far
      places[at] = row * widthPx + column
    }
  }
  const anchors: Anchor[] = []
  for (let at = 0; at < count; at++) {
    const row = Math.floor(places[at] / widthPx)
    anchors.push(colourAt(places[at] - row * widthPx, row, near))
  }
  return anchors
}

function colourAt(x: number, row: number, { rows }: Neighbourhood): Anchor {
  const { rgb, ink } = rows[row]
  return { ink: ink[x], red: rgb[3 * x], green: rgb[3 * x + 1], blue: rgb[3 * x + 2] }
}

function bestPair(own: Anchor, anchors: readonly Anchor[]): Mixture | null {
  let best: Mixture | null = null
  let least = MOST_OFF
  anchors.forEach((first, at) => {
    for (const second of anchors.slice(at + 1)) {
      const { share, off } = along(own, first, second)
      if (off >= least) continue
      least = off
      best = { first: first.ink, second: second.ink, secondShare: share }
    }
  })
  return best
}

/** Where a colour stands on the line from one to another, 0 … 1, and how far off it lies. */
function along(own: Anchor, from: Anchor, to: Anchor): Readonly<{ share: number; off: number }> {
  const [r, g, b] = [to.red - from.red, to.green - from.green, to.blue - from.blue]
  const length = r * r + g * g + b * b
  if (length === 0) return { share: 0, off: distance(own, from) }
  const at =
    ((own.red - from.red) * r + (own.green - from.green) * g + (own.blue - from.blue) * b) / length
  const share = Math.min(1, Math.max(0, at))
  const [red, green, blue] = [
    own.red - from.red - share * r,
    own.green - from.green - share * g,
    own.blue - from.blue - share * b,
  ]
  return { share, off: Math.sqrt(red * red + green * green + blue * blue) }
}

function farthest(x: number, near: Neighbourhood, from: Anchor): Anchor {
  let best = colourAt(x, near.reach, near)
  for (let row = near.reach - 1; row <= near.reach + 1; row++) {
    for (let column = Math.max(0, x - 1); column <= Math.min(near.widthPx - 1, x + 1); column++) {
      const one = colourAt(column, row, near)
      if (distance(one, from) > distance(best, from)) best = one
    }
  }
  return best
}

function distance(one: Anchor, other: Anchor): number {
  const [red, green, blue] = [one.red - other.red, one.green - other.green, one.blue - other.blue]
  return Math.sqrt(red * red + green * green + blue * blue)
}

import {
  type Homography,
  homographyThrough,
  mapped,
  type Point,
  type PointPair,
} from './homography.ts'

/** A lens that draws straight lines bent: radial, with one parameter, about the picture's middle. */
export type Lens = Readonly<{
  middle: Point
  /** Half the picture's diagonal, in pixels. */
  reachPx: number
  /** A point at r reaches from the middle belongs at r·(1 + bend·r²): above 0 it is a barrel. */
  bend: number
}>

/** A plane as a photo shows it. */
export type View = Readonly<{ homography: Homography; lens: Lens }>

/** How far the corners of targets lie from where the view puts them, and the view. */
export type FittedView = View & Readonly<{ errorPx: number }>

/** Phones and cameras stay well within this (judged). */
const MOST_BEND = 0.25

/** A lens that bends nothing, about the middle of a picture of so many pixels. */
export function straightLens({ widthPx, heightPx }: PictureSize): Lens {
  return {
    middle: { x: widthPx / 2, y: heightPx / 2 },
    reachPx: Math.hypot(widthPx, heightPx) / 2,
    bend: 0,
  }
}

type PictureSize = Readonly<{ widthPx: number; heightPx: number }>

/** Where a point of the photo would be with a straight lens. */
export function straightened({ middle, reachPx, bend }: Lens, { x, y }: Point): Point {
  const [dx, dy] = [x - middle.x, y - middle.y]
  const by = 1 + (bend * (dx * dx + dy * dy)) / (reachPx * reachPx)
  return { x: middle.x + by * dx, y: middle.y + by * dy }
}

/** Where the lens puts what a straight one would put there. */
export function bent({ middle, reachPx, bend }: Lens, { x, y }: Point): Point {
  const [dx, dy] = [(x - middle.x) / reachPx, (y - middle.y) / reachPx]
  const r = Math.hypot(dx, dy)
  if (bend === 0 || r === 0) return { x, y }
  let from = r
  for (let turn = 0; turn < 8; turn += 1) {
    from -= (from * (1 + bend * from * from) - r) / (1 + 3 * bend * from * from)
  }
  const by = (from / r) * reachPx
  return { x: middle.x + by * dx, y: middle.y + by * dy }
}

/** Where a point of the plane stands in the photo. */
export function seenAt({ homography, lens }: View, point: Point): Point {
  return bent(lens, mapped(homography, point))
}

/**
 * The view of a plane from many known points in it: homography and bend together, the bend by
 * golden section as the one that leaves least error.
 *
 * @param pairs points of the plane, and where the photo has them
 * @returns null where they do not determine a homography
 * @source brown-conrady (its first radial term, from the photo to the straight picture)
 */
export function fittedView(pairs: readonly PointPair[], size: PictureSize): FittedView | null {
  const plain = straightLens(size)
  const at = (bend: number): FittedView | null => {
    const lens = { ...plain, bend }
    const homography = homographyThrough(
      pairs.map(({ from, to }) => ({ from, to: straightened(lens, to) })),
    )
    if (homography === null) return null
    const squares = pairs.reduce((sum, { from, to }) => {
      const seen = bent(lens, mapped(homography, from))
      return sum + (seen.x - to.x) ** 2 + (seen.y - to.y) ** 2
    }, 0)
    return { homography, lens, errorPx: Math.sqrt(squares / pairs.length) }
  }
  const error = (bend: number): number => at(bend)?.errorPx ?? Number.POSITIVE_INFINITY
  let [low, high] = [-MOST_BEND, MOST_BEND]
  const golden = (Math.sqrt(5) - 1) / 2
  while (high - low > 1e-5) {
    const [left, right] = [high - golden * (high - low), low + golden * (high - low)]
    if (error(left) < error(right)) high = right
    else low = left
  }
  return at((low + high) / 2)
}

/** The view through four points alone, which tell nothing of the lens. */
export function plainView(pairs: readonly PointPair[], size: PictureSize): View | null {
  const homography = homographyThrough(pairs)
  return homography === null ? null : { homography, lens: straightLens(size) }
}

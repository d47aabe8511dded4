import { Failure } from '../../core/failure.ts'
import type { Point, PointPair } from '../../core/inspection/homography.ts'
import {
  type FittedView,
  fittedView,
  plainView,
  seenAt,
  type View,
} from '../../core/inspection/lens.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { MAT_SIZES, type MatLayout, matLayout, targetCorners } from '../papers/matLayout.ts'
import { cornersSeen, type SheetFound } from './sheetFound.ts'

/** A target as it was found in a photo: corners clockwise from its own top left. */
export type MatTarget = Readonly<{ number: number; corners: readonly Point[] }>

/** A view needs so many targets; and from so many on it tells the lens. */
const LEAST_TARGETS = 3
const LENS_FROM = 6
/** A hand cuts a window no better than this. */
const CUT_MM = 1.5
/** A corner so far from its place is that of another square, or of a bent mat, as shares of a target's side. */
const STRAY = 0.12
const BENT = 0.04

/**
 * The window of the reading mat, by the mat's targets.
 *
 * @throws Failure 'wrong input' where the photo shows no mat, or too little of it
 */
export function matIn(photo: PhotoLight, targets: readonly MatTarget[]): SheetFound {
  const { layout, seen } = mostSeen(targets)
  if (seen.length < LEAST_TARGETS) throw tooFew(seen.length)
  const pairs = seen.flatMap(({ number, corners }) => {
    const place = layout.targets.find((target) => target.number === number)
    if (place === undefined) return []
    return [
      targetCorners(place, layout.targetMm).map((from, at) => ({
        from,
        to: corners[at] ?? from,
      })),
    ]
  })
  const view = steadyView(pairs, photo)
  const { window, slot } = layout
  const box = {
    xMm: window.xMm + CUT_MM,
    yMm: window.yMm + CUT_MM,
    widthMm: window.widthMm - 2 * CUT_MM,
    heightMm: window.heightMm - 2 * CUT_MM,
  }
  const corners = cornersSeen(view, box)
  const { widthPx, heightPx } = photo
  if (corners.some(({ x, y }) => x < 0 || y < 0 || x > widthPx || y > heightPx)) {
    throw wrong('The photo cuts off a part of the mat’s window; step back and take all of the mat.')
  }
  return {
    kind: 'mat',
    view,
    box,
    corners,
    wedgePlace: slot,
    lensSeen: seen.length >= LENS_FROM,
  }
}

/** The mat most of the targets belong to. */
function mostSeen(
  targets: readonly MatTarget[],
): Readonly<{ layout: MatLayout; seen: readonly MatTarget[] }> {
  const [best] = MAT_SIZES.map((size) => {
    const layout = matLayout(size)
    const numbers = new Set(layout.targets.map(({ number }) => number))
    return {
      layout,
      seen: targets.filter(({ number }) => numbers.has(number)),
    }
  }).sort((one, other) => other.seen.length - one.seen.length)
  if (best === undefined) throw new RangeError('MAT_SIZES: expected at least one')
  return best
}

/** The view most targets agree on: the worst is left out as long as it is far from its place. */
function steadyView(targets: readonly (readonly PointPair[])[], photo: PhotoLight): View {
  let kept = targets
  for (;;) {
    const pairs = kept.flat()
    const view =
      kept.length >= LENS_FROM
        ? fittedView(pairs, photo)
        : withError(plainView(pairs, photo), pairs)
    if (view === null) throw tooFew(kept.length)
    const worst = kept
      .map((target) => ({ target, off: farthest(view, target) }))
      .sort((one, other) => other.off - one.off)[0]
    if (worst === undefined || worst.off <= STRAY) {
      if ((worst?.off ?? 0) > BENT && kept.length > LEAST_TARGETS + 1) {
        kept = kept.filter((target) => target !== worst?.target)
        continue
      }
      return view
    }
    if (kept.length <= LEAST_TARGETS) {
      throw wrong(
        'The mat’s targets do not lie as they were printed; lay the mat flat and take the photo again.',
      )
    }
    kept = kept.filter((target) => target !== worst.target)
  }
}

function withError(view: View | null, pairs: readonly PointPair[]): FittedView | null {
  return view === null ? null : { ...view, errorPx: pairs.length }
}

/** How far a target's worst corner is from its place, as a share of the target's side in the photo. */
function farthest(view: View, target: readonly PointPair[]): number {
  const [first, second] = target
  if (first === undefined || second === undefined) return 0
  const side = Math.hypot(second.to.x - first.to.x, second.to.y - first.to.y)
  return Math.max(
    ...target.map(({ from, to }) => {
      const at = seenAt(view, from)
      return Math.hypot(at.x - to.x, at.y - to.y) / side
    }),
  )
}

function tooFew(count: number): Failure {
  const seen =
    count === 0
      ? 'No reading mat is seen in the photo'
      : `Only ${count} of the mat’s targets ${count === 1 ? 'is' : 'are'} seen in the photo`
  return wrong(
    `${seen}; take all of the mat, sharp and without glare, or give the sheet’s corners with --corners and its size with --size-mm.`,
  )
}

function wrong(message: string): Failure {
  return new Failure('wrong input', message, { field: 'photo' })
}

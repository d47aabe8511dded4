import { Failure } from '../../core/failure.ts'
import type { Point } from '../../core/inspection/homography.ts'
import { plainView } from '../../core/inspection/lens.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { type MatTarget, matIn } from './matIn.ts'
import { cornersOf, type SheetFound } from './sheetFound.ts'

/** Where the film is said to lie; nothing said: by the reading mat. */
export type SheetAsked = Readonly<{
  /** Clockwise from the top left of the sheet as it should read, in photo pixels. */
  corners?: readonly Point[]
  sizeMm?: Readonly<{ widthMm: number; heightMm: number }>
  /** What was found of the mat's targets in the photo. */
  targets?: readonly MatTarget[]
}>

/** The corners may lie a little beyond the picture. */
const BEYOND_SHARE = 0.02
/** A sheet smaller than this in the photo has too few pixels. */
const LEAST_SIDE_PX = 60

/** @throws Failure 'wrong input' where corners, size or mat cannot be used */
export function sheetIn(photo: PhotoLight, asked: SheetAsked): SheetFound {
  const { corners, sizeMm, targets = [] } = asked
  if (corners === undefined && sizeMm === undefined) return matIn(photo, targets)
  if (sizeMm === undefined) {
    throw wrong(
      'The corners alone tell no size; give the size of their sheet with --size-mm, like 210x297.',
      'size-mm',
    )
  }
  const box = { xMm: 0, yMm: 0, ...sizeMm }
  const whole = corners === undefined
  const { widthPx, heightPx } = photo
  const used = whole
    ? [
        { x: 0, y: 0 },
        { x: widthPx, y: 0 },
        { x: widthPx, y: heightPx },
        { x: 0, y: heightPx },
      ]
    : corners
  expectCorners(used, photo)
  const view = plainView(
    cornersOf(box).map((from, at) => ({ from, to: used[at] ?? from })),
    photo,
  )
  if (view === null) throw wrong('Three of the corners lie on a line; give the four of the sheet.')
  const kind = whole ? 'whole' : 'corners'
  return { kind, view, box, corners: used, wedgePlace: null, lensSeen: false }
}

function expectCorners(corners: readonly Point[], { widthPx, heightPx }: PhotoLight): void {
  if (corners.length !== 4) throw wrong('A sheet has four corners; give four.')
  const room = BEYOND_SHARE * Math.max(widthPx, heightPx)
  const outside = corners.find(
    ({ x, y }) => x < -room || y < -room || x > widthPx + room || y > heightPx + room,
  )
  if (outside !== undefined) {
    throw wrong(
      `The corner ${Math.round(outside.x)},${Math.round(outside.y)} lies outside the photo of ${widthPx} x ${heightPx} pixels; all four must be in it.`,
    )
  }
  const turns = corners.map((corner, at) => {
    const [next, after] = [corners[(at + 1) % 4] ?? corner, corners[(at + 2) % 4] ?? corner]
    return (next.x - corner.x) * (after.y - next.y) - (next.y - corner.y) * (after.x - next.x)
  })
  if (!turns.every((turn) => turn > 0)) {
    throw wrong(
      'The corners must go round the sheet clockwise from its top left: top left, top right, bottom right, bottom left.',
    )
  }
  const sides = corners.map((corner, at) => {
    const next = corners[(at + 1) % 4] ?? corner
    return Math.hypot(next.x - corner.x, next.y - corner.y)
  })
  if (Math.min(...sides) < LEAST_SIDE_PX) {
    throw wrong(
      `Between two corners lie only ${Math.round(Math.min(...sides))} pixels, too few to read a film by; go nearer with the camera.`,
    )
  }
}

function wrong(message: string, field = 'corners'): Failure {
  return new Failure('wrong input', message, { field })
}

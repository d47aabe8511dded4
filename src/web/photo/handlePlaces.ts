import type { PhotoPoint } from '../../api/photos.ts'
import type { Corners, PhotoSize } from './corners.ts'

/** A handle's touch area is a circle so wide, in CSS pixels: --target. */
const TARGET_PX = 48
/** It may stand so far out of the picture. */
const OUT_PX = 12

/**
 * Where the handles of four corners stand, in photo pixels: on the corners, or, where two of them
 * would cover each other, outside the sheet, so far that they cover neither it nor each other.
 *
 * @param stagePx how wide the photo is shown; 0 while nobody knows
 */
export function handlePlaces(
  corners: Corners,
  photo: PhotoSize,
  stagePx: number,
): readonly PhotoPoint[] {
  const scale = stagePx / photo.widthPx
  const isClose = corners.some((one, at) =>
    corners.some(
      (other, then) =>
        then > at && Math.hypot(one.x - other.x, one.y - other.y) * scale < TARGET_PX,
    ),
  )
  if (!(scale > 0) || !isClose) return corners
  const away = TARGET_PX / 2 / scale
  const rim = (TARGET_PX / 2 - OUT_PX) / scale
  return corners.map((corner, at) => {
    const one = outward(corner, corners[(at + 1) % 4] ?? corner)
    const other = outward(corner, corners[(at + 3) % 4] ?? corner)
    return {
      x: within(corner.x + away * (one.x + other.x), rim, photo.widthPx),
      y: within(corner.y + away * (one.y + other.y), rim, photo.heightPx),
    }
  })
}

/** One long, the way from a neighbour to a corner and on. */
function outward(corner: PhotoPoint, neighbour: PhotoPoint): PhotoPoint {
  const [x, y] = [corner.x - neighbour.x, corner.y - neighbour.y]
  const length = Math.hypot(x, y) || 1
  return { x: x / length, y: y / length }
}

function within(place: number, rim: number, length: number): number {
  return Math.max(rim, Math.min(length - rim, place))
}

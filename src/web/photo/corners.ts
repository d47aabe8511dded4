import type { PhotoPoint } from '../../api/photos.ts'

export type Corners = readonly [PhotoPoint, PhotoPoint, PhotoPoint, PhotoPoint]
export type Ends = readonly [PhotoPoint, PhotoPoint]
export type PhotoSize = Readonly<{ widthPx: number; heightPx: number }>

/** Corners to begin with stand so far in from the photo's own, as a share of its sides. */
const INSET_SHARE = 0.12

/** Where corners stand before anybody moved them. */
export function firstCorners({ widthPx, heightPx }: PhotoSize): Corners {
  const [left, top] = [INSET_SHARE * widthPx, INSET_SHARE * heightPx]
  const [right, bottom] = [widthPx - left, heightPx - top]
  return [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ]
}

/** Where a wedge's ends stand before anybody moved them: along the foot of the photo. */
export function firstEnds({ widthPx, heightPx }: PhotoSize): Ends {
  const y = (1 - INSET_SHARE / 2) * heightPx
  return [
    { x: 0.3 * widthPx, y },
    { x: 0.7 * widthPx, y },
  ]
}

/** A place moved, and kept within the photo. */
export function movedWithin(
  { x, y }: PhotoPoint,
  by: Readonly<{ x: number; y: number }>,
  { widthPx, heightPx }: PhotoSize,
): PhotoPoint {
  return {
    x: Math.min(widthPx, Math.max(0, x + by.x)),
    y: Math.min(heightPx, Math.max(0, y + by.y)),
  }
}

/** The list with one place put elsewhere. */
export function withPoint<Points extends readonly PhotoPoint[]>(
  points: Points,
  at: number,
  point: PhotoPoint,
): Points {
  return points.map((old, index) => (index === at ? point : old)) as unknown as Points
}

/** True when the corners go round a sheet, clockwise as one looks: each turn to the right. */
export function goRound(corners: Corners): boolean {
  return corners.every((corner, at) => {
    const before = corners[(at + 3) % 4] as PhotoPoint
    const after = corners[(at + 1) % 4] as PhotoPoint
    const [inX, inY] = [corner.x - before.x, corner.y - before.y]
    const [outX, outY] = [after.x - corner.x, after.y - corner.y]
    return inX * outY - inY * outX > 0 // y points down
  })
}

/** How far an arrow key moves: one pixel of the picture that is shown. */
const KEY_STEPS = 2000
const FAR = 10

/** Where a key moves a place to; null for another key. */
export function keyMove(
  { key, shiftKey }: Readonly<{ key: string; shiftKey: boolean }>,
  { widthPx, heightPx }: PhotoSize,
): Readonly<{ x: number; y: number }> | null {
  const step = (Math.max(widthPx, heightPx) / KEY_STEPS) * (shiftKey ? FAR : 1)
  switch (key) {
    case 'ArrowLeft':
      return { x: -step, y: 0 }
    case 'ArrowRight':
      return { x: step, y: 0 }
    case 'ArrowUp':
      return { x: 0, y: -step }
    case 'ArrowDown':
      return { x: 0, y: step }
    default:
      return null
  }
}

import type { Point } from '../../core/inspection/homography.ts'
import { seenAt, type View } from '../../core/inspection/lens.ts'
import type { SheetBox } from '../../raster/photo/laidFlat.ts'

/** The sheet, in mm of its own plane, and how the photo shows that plane. */
export type SheetFound = Readonly<{
  kind: 'corners' | 'mat' | 'whole'
  view: View
  box: SheetBox
  corners: readonly Point[]
  /** Where the mat keeps a place for the wedge, in mm of the plane. */
  wedgePlace: SheetBox | null
  /** Whether straight lines were seen bent, and undone. */
  lensSeen: boolean
}>

/** Corners of a box, clockwise from its top left. */
export function cornersOf({ xMm, yMm, widthMm, heightMm }: SheetBox): readonly Point[] {
  const [right, bottom] = [xMm + widthMm, yMm + heightMm]
  return [
    { x: xMm, y: yMm },
    { x: right, y: yMm },
    { x: right, y: bottom },
    { x: xMm, y: bottom },
  ]
}

/** Where the corners of a box stand in the photo. */
export function cornersSeen(view: View, box: SheetBox): readonly Point[] {
  return cornersOf(box).map((corner) => seenAt(view, corner))
}

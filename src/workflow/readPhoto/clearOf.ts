import { Failure } from '../../core/failure.ts'
import { inverseOf, mapped, type Point } from '../../core/inspection/homography.ts'
import { straightened, type View } from '../../core/inspection/lens.ts'
import { type ClearLight, clearLight } from '../../raster/photo/clearLight.ts'
import { laidFlat, photoPixelMm, type SheetBox } from '../../raster/photo/laidFlat.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { reduced, reducedView } from '../../raster/photo/reduced.ts'
import type { SheetFound } from './sheetFound.ts'

/** The clear light over the plane of a film. */
export type Clear = Readonly<{
  light: ClearLight
  /** log10 of it at a place of the plane, in mm. */
  logAt: (xMm: number, yMm: number) => number
  /** How much denser clear film is than no film, where both are seen in a window; else 0. */
  filmBase: number
}>

/** So many coarse pixels go to the longer side of the sheet. */
const COARSE_PX = 260
/** So much of the surroundings is looked at, as a share of the longer side. */
const AROUND_SHARE = 0.14
const MOST_AROUND_SHARE = 0.5
/** Under this much clear film there is nothing to measure from (judged). */
const LEAST_CLEAR_SHARE = 0.01
/** So much of the mat's window at one even density is the clear of a film in it (judged). */
const BASE_SHARE = 0.25
/** The clear light must be this bright in the photo. */
const LEAST_LIGHT = 0.02

/**
 * @param wedge where the wedge lies in the photo, so that its light is known too
 * @throws Failure 'wrong input' where there is no clear film, or hardly any light
 */
export function clearOf(
  photo: PhotoLight,
  { view, box, kind }: SheetFound,
  wedge: readonly Point[] | null,
): Clear {
  const pixelMm = Math.max(box.widthMm, box.heightMm) / COARSE_PX
  const around = kind === 'corners' ? surroundings(box, places(view, wedge ?? [])) : box
  const middle = {
    x: box.xMm + box.widthMm / 2,
    y: box.yMm + box.heightMm / 2,
  }
  const by = Math.max(1, Math.floor(pixelMm / photoPixelMm(view, middle)))
  const coarse = laidFlat(by === 1 ? photo : reduced(photo, by), {
    view: by === 1 ? view : reducedView(view, by),
    box: around,
    pixelMm,
  })
  const [left, top] = [(box.xMm - around.xMm) / pixelMm, (box.yMm - around.yMm) / pixelMm]
  const [right, bottom] = [left + box.widthMm / pixelMm, top + box.heightMm / pixelMm]
  const light = clearLight(coarse, { left, top, right, bottom })
  if (light === null || light.clearShare < LEAST_CLEAR_SHARE) {
    const message =
      'No clear film is seen between the corners, so nothing can be measured; photograph the film on a light table, lit from behind.'
    throw new Failure('wrong input', message, { field: 'photo' })
  }
  const { commonest } = light
  const filmBase = kind === 'mat' && commonest.share > BASE_SHARE ? commonest.density : 0
  const logAt = (xMm: number, yMm: number): number =>
    light.logAt((xMm - around.xMm) / pixelMm, (yMm - around.yMm) / pixelMm) - filmBase
  if (10 ** logAt(middle.x, middle.y) < LEAST_LIGHT) {
    const message =
      'The photo is far too dark to read; light the film from behind, and let the camera expose for its clear parts.'
    throw new Failure('wrong input', message, { field: 'photo' })
  }
  return { light, logAt, filmBase }
}

function surroundings(box: SheetBox, wedge: readonly Point[]): SheetBox {
  const longer = Math.max(box.widthMm, box.heightMm)
  const [near, far] = [AROUND_SHARE * longer, MOST_AROUND_SHARE * longer]
  const least = (side: number, values: readonly number[]): number =>
    Math.max(side - far, Math.min(side - near, ...values.map((value) => value - near / 2)))
  const most = (side: number, values: readonly number[]): number =>
    Math.min(side + far, Math.max(side + near, ...values.map((value) => value + near / 2)))
  const [xs, ys] = [wedge.map(({ x }) => x), wedge.map(({ y }) => y)]
  const [xMm, yMm] = [least(box.xMm, xs), least(box.yMm, ys)]
  return {
    xMm,
    yMm,
    widthMm: most(box.xMm + box.widthMm, xs) - xMm,
    heightMm: most(box.yMm + box.heightMm, ys) - yMm,
  }
}

/** Points of the photo as places of the plane, in mm. */
export function places({ homography, lens }: View, points: readonly Point[]): readonly Point[] {
  const back = inverseOf(homography)
  if (back === null) throw new RangeError('view: expected a homography with an inverse')
  return points.map((point) => mapped(back, straightened(lens, point)))
}

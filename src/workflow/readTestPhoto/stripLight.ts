import type { Point } from '../../core/inspection/homography.ts'
import type { Film } from '../../raster/film.ts'
import { boxMeans, type Plane } from '../../raster/inspect/plane.ts'
import { blurOf } from '../../raster/inspect/sharpness.ts'
import { straighten } from '../../raster/inspect/straighten.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { cellPxFor, filmGrid } from '../inspectScreen/inspectScreen.ts'
import type { FilmLayout } from '../papers/testFilmLayout.ts'
import { stripPose } from './stripPose.ts'
import { medianOf } from './wedgeProfile.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** Light of the photo laid over the strip's film. */
export type StripLight = Readonly<{
  /** Linear light, cell by cell. */
  light: Plane
  /** Shares of marks of the same cells, and their means round about. */
  marks: Plane
  around: Plane
  cellMm: number
  /** sd of the photo's blur. */
  blurMm: number
}>

/** The photo's light as it is: nothing is taken out. */
const AS_IT_IS = {
  degree: 2,
  follows: 0,
  ground: new Float64Array(6),
  gain: Float64Array.of(1, 0, 0, 0),
} as const
/** What is said to be all ground or all mark is so for so far around. */
const AROUND_MM = 0.45
/** Blurred by more than this the thinner reeds and the gaps of the combs are mixed up. */
const MOST_BLUR_MM = 0.45
const MOST_CELL_MM = 0.4
const MOST_BURNT = 0.2

/** @throws Failure 'wrong input' where the film is not found, or the photo is too coarse or too soft */
export async function stripLight(
  photo: PhotoLight,
  film: Film,
  asked: Readonly<{ layout: FilmLayout; corners?: readonly Point[] }>,
): Promise<StripLight> {
  const alignment = await stripPose(photo, film, asked)
  const grid = await filmGrid(film, { cellPx: cellPxFor(alignment, { photo, film }) })
  const cellMm = (asked.layout.heightMm * grid.step) / 2
  if (cellMm > MOST_CELL_MM) {
    throw wrongPhoto('The strip is too small in this photo; go nearer and take it again.')
  }
  const light = { ...grid, values: new Float32Array(grid.values.length) }
  straighten(photo, grid, { ...alignment, out: light.values })
  const blurMm = blurOf(light, grid) * cellMm
  if (blurMm > MOST_BLUR_MM) {
    throw wrongPhoto('The photo is too soft to judge thin marks by; hold still and take it again.')
  }
  straighten(photo, grid, { ...alignment, light: AS_IT_IS, out: light.values })
  expectUnburnt(light)
  const around = boxMeans(grid, Math.max(1, Math.round(AROUND_MM / cellMm)))
  return { light, marks: grid, around, cellMm, blurMm }
}

function expectUnburnt({ values }: Plane): void {
  const burnt = values.reduce((sum, light) => sum + (light >= 0.995 ? 1 : 0), 0)
  if (burnt < MOST_BURNT * values.length) return
  throw wrongPhoto('The photo is burnt out; let the camera expose for the light behind the screen.')
}

export type BoxMm = Readonly<{
  leftMm: number
  rightMm: number
  topMm: number
  bottomMm: number
}>

/** The cells of a box, each by its place in the planes. */
export function cellsIn(
  { cellMm, marks: { widthPx, heightPx } }: StripLight,
  { leftMm, rightMm, topMm, bottomMm }: BoxMm,
): readonly number[] {
  const [left, right] = [Math.ceil(leftMm / cellMm), Math.floor(rightMm / cellMm)]
  const [top, bottom] = [Math.ceil(topMm / cellMm), Math.floor(bottomMm / cellMm)]
  const cells: number[] = []
  for (let y = Math.max(0, top); y < Math.min(heightPx, bottom); y += 1) {
    for (let x = Math.max(0, left); x < Math.min(widthPx, right); x += 1)
      cells.push(y * widthPx + x)
  }
  return cells
}

/** Median light of cells that are all ground, or all mark; null where there are hardly any. */
export function medianLight(
  { light, around }: StripLight,
  { cells, is }: Readonly<{ cells: readonly number[]; is: 'ground' | 'mark' }>,
): number | null {
  const chosen = cells.flatMap((cell) => {
    const share = around.values[cell] ?? 0.5
    const isOne = is === 'ground' ? share < 0.001 : share > 0.999
    return isOne ? [light.values[cell] ?? 0] : []
  })
  return chosen.length < LEAST_CELLS ? null : medianOf(chosen)
}

const LEAST_CELLS = 12

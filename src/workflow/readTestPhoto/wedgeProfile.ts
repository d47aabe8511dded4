import type { Point } from '../../core/inspection/homography.ts'
import { plainView } from '../../core/inspection/lens.ts'
import { laidFlat, type SheetBox } from '../../raster/photo/laidFlat.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { cornersOf } from '../readPhoto/sheetFound.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** Light along a washed-out wedge, column by column; where ground and wedge are seen alike it is 0. */
export type WedgeProfile = Readonly<{
  /** Natural log of the light over that of the ground beside it. */
  logs: Float64Array
  /** Whether the ground beside it was seen, and taken out. */
  besideSeen: boolean
  /** Share of the pixels whose light is at its end, column by column. */
  clipped: Float64Array
  columnsEach: number
  /** Photo pixels to a step. */
  stepPx: number
}>

/** A step needs so many photo pixels along the wedge. */
const LEAST_STEP_PX = 5
const COLUMNS_EACH = { low: 6, high: 20 }
/** The part of the wedge's height that is looked at: numbers stand at its edges. */
const CORE = { from: 0.3, to: 0.7 }
/** Where ground lies beside it, in heights of the wedge from its edge. */
const BESIDE = { from: 0.15, to: 0.5 }
/** Ground is looked at over so many steps together. */
const GROUND_STEPS = 3
const DARKEST = 1e-4

/**
 * The wedge laid flat between its corners, and what is seen of it from end to end.
 *
 * @param corners of its rectangle, in photo pixels, one after another
 * @throws Failure 'wrong input' where there are too few pixels or it reaches out of the photo
 */
export function wedgeProfile(
  photo: PhotoLight,
  { corners, steps }: Readonly<{ corners: readonly Point[]; steps: number }>,
): WedgeProfile {
  const { round, longPx, shortPx } = alongFirst(corners)
  const stepPx = longPx / steps
  if (stepPx < LEAST_STEP_PX || shortPx < LEAST_STEP_PX) {
    throw wrongPhoto(
      `A step of the wedge is only ${Math.floor(Math.min(stepPx, shortPx))} pixels of this photo; go nearer and take it again.`,
    )
  }
  const columnsEach = Math.round(
    Math.min(COLUMNS_EACH.high, Math.max(COLUMNS_EACH.low, 0.8 * stepPx)),
  )
  const pixel = 1 / columnsEach
  const high = (steps * shortPx) / longPx
  const whole = { xMm: 0, yMm: 0, widthMm: steps, heightMm: high }
  const view = plainView(
    cornersOf(whole).map((from, at) => ({ from, to: round[at] ?? from })),
    photo,
  )
  if (view === null) throw wrongPhoto('Three of the corners lie on a line; show all four.')
  const strip = (from: number, to: number): Columns =>
    columnsOf(photo, {
      view,
      box: {
        xMm: 0,
        yMm: from * high,
        widthMm: steps,
        heightMm: (to - from) * high,
      },
      pixel,
    })
  const own = strip(CORE.from, CORE.to)
  if (own.logs.some(Number.isNaN)) {
    throw wrongPhoto('The wedge reaches out of the photo; take it from a little further away.')
  }
  const beside = groundBeside(
    [strip(-BESIDE.to, -BESIDE.from), strip(1 + BESIDE.from, 1 + BESIDE.to)],
    { own: own.logs, reach: Math.round((GROUND_STEPS * columnsEach) / 2) },
  )
  const logs = own.logs.map((log, at) => log - (beside?.[at] ?? 0))
  return {
    logs,
    besideSeen: beside !== null,
    clipped: own.clipped,
    columnsEach,
    stepPx,
  }
}

/** The corners so that the first two lie along the wedge. */
function alongFirst(
  corners: readonly Point[],
): Readonly<{ round: readonly Point[]; longPx: number; shortPx: number }> {
  const [a, b, c, d] = corners
  if (a === undefined || b === undefined || c === undefined || d === undefined) {
    throw wrongPhoto('A wedge has four corners; show all four.')
  }
  const apart = (p: Point, q: Point): number => Math.hypot(p.x - q.x, p.y - q.y)
  const [one, other] = [apart(a, b) + apart(c, d), apart(b, c) + apart(d, a)]
  return one >= other
    ? { round: [a, b, c, d], longPx: one / 2, shortPx: other / 2 }
    : { round: [b, c, d, a], longPx: other / 2, shortPx: one / 2 }
}

type Columns = Readonly<{ logs: Float64Array; clipped: Float64Array }>

/** Mean light of each column, torn patches and all; NaN where the photo does not reach. */
function columnsOf(
  photo: PhotoLight,
  {
    view,
    box,
    pixel,
  }: Readonly<{
    view: Parameters<typeof laidFlat>[1]['view']
    box: SheetBox
    pixel: number
  }>,
): Columns {
  const { widthPx, heightPx, values } = laidFlat(photo, {
    view,
    box,
    pixelMm: pixel,
  })
  const [logs, clipped] = [new Float64Array(widthPx), new Float64Array(widthPx)]
  for (let x = 0; x < widthPx; x += 1) {
    const column = Array.from({ length: heightPx }, (_, y) => values[y * widthPx + x] ?? Number.NaN)
    logs[x] = column.some(Number.isNaN) ? Number.NaN : Math.log(Math.max(DARKEST, medianOf(column)))
    clipped[x] = column.filter((light) => light >= 0.999).length / heightPx
  }
  return { logs, clipped }
}

/** Ground is nowhere lighter than the wedge by so much, and changes by so little along it. */
const GROUND_ABOVE = 0.25
const GROUND_SPREAD = 1

/** The darker of both sides, smooth; null where there is no even ground. */
function groundBeside(
  sides: readonly Columns[],
  { own, reach }: Readonly<{ own: Float64Array; reach: number }>,
): Float64Array | null {
  const ground = own.map((_, at) => {
    const near = sides.flatMap(({ logs }) => {
      const around = [...logs.subarray(Math.max(0, at - reach), at + reach + 1)]
      return around.some(Number.isNaN) ? [] : [medianOf(around)]
    })
    return near.length === 0 ? Number.NaN : Math.min(...near)
  })
  if (ground.some(Number.isNaN)) return null
  const isAbove = ground.some((log, at) => log > (own[at] ?? 0) + GROUND_ABOVE)
  return isAbove || Math.max(...ground) - Math.min(...ground) > GROUND_SPREAD ? null : ground
}

/** @param list one number or more */
export function medianOf(list: readonly number[]): number {
  const sorted = list.toSorted((a, b) => a - b)
  const half = sorted.length >> 1
  const upper = sorted[half] ?? Number.NaN
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? upper)) / 2
}

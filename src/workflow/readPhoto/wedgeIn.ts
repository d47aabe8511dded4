import { Failure } from '../../core/failure.ts'
import { type DensityCurve, densityCurve } from '../../core/inspection/densityCurve.ts'
import type { Point } from '../../core/inspection/homography.ts'
import { seenAt } from '../../core/inspection/lens.ts'
import { laidFlat } from '../../raster/photo/laidFlat.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { slotWedge } from '../../raster/photo/slotWedge.ts'
import { type StepLight, wedgeSteps } from '../../raster/photo/wedgeSteps.ts'
import { type Clear, places } from './clearOf.ts'
import type { SheetFound } from './sheetFound.ts'

/** A wedge as it was told: where it lies, and its densities from the clear end. */
export type WedgeAsked = Readonly<{
  ends: readonly [Point, Point] | null
  densities: readonly number[]
}>

export type WedgeFound = Readonly<{
  ends: readonly [Point, Point]
  curve: DensityCurve
  steps: readonly StepLight[]
}>

/** A mean over a step is never surer than this, in density. */
const LEAST_SD = 0.003

/**
 * The wedge whose ends were told, or the one in the mat's slot.
 *
 * @returns null where there is none
 * @throws Failure 'wrong input' where it cannot be read in the place it was said to be
 */
export function curveIn(
  photo: PhotoLight,
  { found, clear, asked }: Readonly<{ found: SheetFound; clear: Clear; asked: WedgeAsked | null }>,
): WedgeFound | null {
  if (asked === null) return null
  const { ends, densities } = asked
  if (ends === null) return inSlot(photo, { found, densities, clear })
  const steps = wedgeSteps(photo, { ends, count: densities.length })
  if (steps === null) {
    throw wrong('The wedge reaches out of the photo; give the middles of its two ends, inside it.')
  }
  const wedge = risingWedge(steps, {
    ends,
    densities,
    clearAt: (point) => {
      const [{ x, y } = { x: 0, y: 0 }] = places(found.view, [point])
      return clear.logAt(x, y)
    },
  })
  if (wedge === null) {
    throw wrong(
      'There is no row of steps from light to dark between the ends given for the wedge; give the middles of its clear and its dark end, or leave the wedge out.',
    )
  }
  return wedge
}

/** Pixels of the slot, laid flat: fine enough for its steps, whatever the photo. */
const SLOT_PIXEL_MM = 0.1

function inSlot(
  photo: PhotoLight,
  {
    found,
    densities,
    clear,
  }: Readonly<{ found: SheetFound; densities: readonly number[]; clear: Clear }>,
): WedgeFound | null {
  const { view, box, wedgePlace: place } = found
  if (place === null) return null
  const nearest = box.yMm + box.heightMm
  const slot = slotWedge(laidFlat(photo, { view, box: place, pixelMm: SLOT_PIXEL_MM }), {
    count: densities.length,
    shapeAt: (xMm) => clear.logAt(place.xMm + xMm, nearest),
  })
  if (slot === null) return null
  const y = place.yMm + place.heightMm / 2
  const ends = [
    seenAt(view, { x: place.xMm + slot.fromMm, y }),
    seenAt(view, { x: place.xMm + slot.toMm, y }),
  ] as const
  const steps = wedgeSteps(photo, { ends, count: densities.length })
  if (steps === null) return null
  const clearAt = (point: Point): number => {
    const [{ x } = { x: 0 }] = places(view, [point])
    return slot.bareAt(x - place.xMm) - clear.filmBase
  }
  return risingWedge(steps, { ends, densities, clearAt })
}

/** null where the steps are no wedge's. */
function risingWedge(
  steps: readonly StepLight[],
  {
    ends,
    densities,
    clearAt,
  }: Readonly<{
    ends: readonly [Point, Point]
    densities: readonly number[]
    /** log10 of clear light at a point of the photo. */
    clearAt: (point: Point) => number
  }>,
): WedgeFound | null {
  const turned = (steps[0]?.light ?? 0) < (steps.at(-1)?.light ?? 0)
  const rising = turned ? steps.toReversed() : steps
  if (!isWedge(rising)) return null
  const curve = densityCurve(
    rising.map(({ at, light, sd }, step) => {
      const lit = Math.max(light, 1e-6)
      return {
        density: densities[step] ?? Number.NaN,
        seen: clearAt(at) - Math.log10(lit),
        sd: Math.max(LEAST_SD, sd / lit / Math.LN10),
      }
    }),
  )
  if (curve === null) return null
  return { ends: turned ? [ends[1], ends[0]] : ends, curve, steps: rising }
}

/** Steps of a wedge get darker nearly every time, and in the end by much. */
function isWedge(steps: readonly StepLight[]): boolean {
  const darker = steps.filter((step, at) => step.light < (steps[at - 1]?.light ?? Infinity))
  const [first, last] = [steps[0]?.light ?? 0, steps.at(-1)?.light ?? 0]
  return darker.length >= 0.7 * steps.length && last < 0.5 * first
}

function wrong(message: string): Failure {
  return new Failure('wrong input', message, { field: 'wedge' })
}

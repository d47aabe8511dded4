import { Failure } from '../../core/failure.ts'
import { type DensityCurve, densityCurve } from '../../core/inspection/densityCurve.ts'
import type { Point } from '../../core/inspection/homography.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
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
 * @returns null where no wedge was told of
 * @throws Failure 'wrong input' where it cannot be read in the place it should be
 */
export function curveIn(
  photo: PhotoLight,
  { found, clear, asked }: Readonly<{ found: SheetFound; clear: Clear; asked: WedgeAsked | null }>,
): WedgeFound | null {
  if (asked === null || asked.ends === null) return null
  const { ends, densities } = asked
  const steps = wedgeSteps(photo, { ends, count: densities.length })
  if (steps === null) {
    throw wrong('The wedge reaches out of the photo; give the middles of its two ends, inside it.')
  }
  const [first, last] = [steps[0], steps.at(-1)]
  const turned = (first?.light ?? 0) < (last?.light ?? 0)
  const rising = turned ? steps.toReversed() : steps
  const curve = densityCurve(seenSteps(rising, { found, clear, densities }))
  if (curve === null || !isWedge(rising)) {
    throw wrong(
      'There is no row of steps from light to dark between the ends given for the wedge; give the middles of its clear and its dark end, or leave the wedge out.',
    )
  }
  return { ends: turned ? [ends[1], ends[0]] : ends, curve, steps: rising }
}

function seenSteps(
  steps: readonly StepLight[],
  {
    found,
    clear,
    densities,
  }: Readonly<{
    found: SheetFound
    clear: Clear
    densities: readonly number[]
  }>,
): Parameters<typeof densityCurve>[0] {
  return steps.map(({ at, light, sd }, step) => {
    const [place = { x: 0, y: 0 }] = places(found.view, [at])
    const lit = Math.max(light, 1e-6)
    return {
      density: densities[step] ?? Number.NaN,
      seen: clear.logAt(place.x, place.y) - Math.log10(lit),
      sd: Math.max(LEAST_SD, sd / lit / Math.LN10),
    }
  })
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

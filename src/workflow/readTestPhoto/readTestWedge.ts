import { normalQuantile } from '../../core/calibration/belief/normal.ts'
import type { Point } from '../../core/inspection/homography.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { medianOf, wedgeProfile } from './wedgeProfile.ts'
import { type WedgeSeen, wedgeSeen } from './wedgeSteps.ts'
import { wrongPhoto } from './wrongPhoto.ts'

/** A step's number, the chance that it is this one, and nine times in ten between which it is. */
export type StepTold = Readonly<{
  step: number
  chance: number
  low: number
  high: number
}>

/** What a photo tells of a washed-out wedge, for somebody to nod at. */
export type TestWedge = Readonly<{
  kind: 'wedge'
  /** 0: not one is solid. */
  lastSolid: StepTold
  firstClear: StepTold
  /** Of each step from 1 on: how much of the stencil's thickness is left, as its light tells. */
  left: readonly number[]
  warnings: readonly string[]
}>

/**
 * A step stays in the mesh from where its cure reaches the thread knuckles, a quarter of the
 * stencil's thickness: the anchor depth over the path, 20 ± 8 of 80 um (judged), read as light.
 */
const HOLDS = { share: 0.25, sd: 0.09 }
/**
 * From step to step about 0.16 of the thickness goes (a dose ratio of 0.15 D over 80 um at 37 um);
 * where less goes than this, it is the light that changes and nothing was left (judged).
 */
const CLEAR = { share: 0.03, sd: 0.015 }
const LEAST_JUMP = 0.02
const JUMPS_NOISE = 5
/** A camera's own tones bend what is between solid and clear (judged). */
const TONES_SD = 0.03

/** Of steps between solid and clear, so much may be burnt out. */
const MOST_BURNT = 0.2
/** What is found must be right within one step this surely. */
const LEAST_SURE = 0.8

/**
 * Last solid and first clear step of a washed-out wedge, from a photo of the backlit screen. How
 * much of the stencil is left on a step is the log of its light between open fabric and ground.
 *
 * @param photo linear light, upright
 * @param asked corners of the wedge in photo pixels, one after another; how many steps it has
 * @throws Failure 'wrong input' in one sentence where the photo cannot tell
 * @source dill1975 (through a finished stencil)
 */
export function readTestWedge(
  photo: PhotoLight,
  { corners, steps }: Readonly<{ corners: readonly Point[]; steps: number }>,
): TestWedge {
  const seen = wedgeSeen(wedgeProfile(photo, { corners, steps }), steps)
  const left = leftOf(seen)
  const warnings = burnt(seen, left)
  const tones = warnings.length === 0 ? TONES_SD : 2 * TONES_SD
  const lastSolid = told(HOLDS, tones, (share) => [countWhile(left, (part) => part >= share)])
  const least = Math.max(LEAST_JUMP, JUMPS_NOISE * noiseOf(left))
  const firstClear = told(CLEAR, 0, (share) => {
    const step = clearFrom(left, Math.max(least, share))
    return [step, step + 1] // torn patches of a last thin skin hardly show: as often as not (judged)
  })
  if (lastSolid.near < LEAST_SURE || firstClear.near < LEAST_SURE) {
    throw wrongPhoto(
      'In this photo the wedge goes too slowly from solid to clear to say where; read it by eye.',
    )
  }
  const { step, chance, low, high } = firstClear.told
  const after = Math.max(step, lastSolid.told.step + 1)
  return {
    kind: 'wedge',
    lastSolid: lastSolid.told,
    firstClear: { step: after, chance, low, high: Math.max(after, high) },
    left: left.map((share) => Math.round(1000 * Math.min(1.2, Math.max(0, share))) / 1000),
    warnings,
  }
}

/** The share of the stencil that is left on each step, by the light of the first clear steps. */
function leftOf({ logs, clear, solid }: WedgeSeen): readonly number[] {
  const by = (open: number): readonly number[] =>
    logs.map((log) => Math.max(0, (open - log) / (open - solid)))
  const first = clearFrom(by(clear), CLEAR.share) - 1
  return by(Math.min(clear, medianOf(logs.slice(first, first + 3))))
}

/** The step after the last one on which the light still jumps by more than such a share. */
function clearFrom(left: readonly number[], share: number): number {
  const last = left.findLastIndex((part, at) => part - (left[at + 1] ?? part) > share)
  return last + 2
}

/** How much the light of steps changes where nothing is left of them. */
function noiseOf(left: readonly number[]): number {
  const clear = left.slice(left.length >> 1)
  return medianOf(clear.slice(1).map((part, at) => Math.abs(part - (clear[at] ?? part))))
}

function countWhile(list: readonly number[], is: (value: number) => boolean): number {
  const end = list.findIndex((value) => !is(value))
  return end < 0 ? list.length : end
}

const PARTS = 200

/** Steps by how often they come out while the share that decides is drawn from what is believed of it. */
function told(
  { share, sd }: typeof HOLDS,
  more: number,
  stepsAt: (share: number) => readonly number[],
): Readonly<{ told: StepTold; near: number }> {
  const steps = Array.from({ length: PARTS }, (_, part) =>
    stepsAt(share + Math.hypot(sd, more) * normalQuantile((part + 0.5) / PARTS)),
  )
    .flat()
    .toSorted((a, b) => a - b)
  const chanceOf = (is: (step: number) => boolean): number => steps.filter(is).length / steps.length
  const step = [...new Set(steps)].reduce((best, next) =>
    chanceOf((one) => one === next) > chanceOf((one) => one === best) ? next : best,
  )
  const at = (part: number): number => steps[Math.floor(part * steps.length)] ?? step
  return {
    told: {
      step,
      chance: chanceOf((one) => one === step),
      low: at(0.05),
      high: at(0.95),
    },
    near: chanceOf((one) => Math.abs(one - step) <= 1),
  }
}

function burnt({ clippedShares }: WedgeSeen, left: readonly number[]): readonly string[] {
  const between = clippedShares.filter((share, at) => share > MOST_BURNT && (left[at] ?? 0) > 0.1)
  if (between.length > 0) {
    throw wrongPhoto(
      'The light behind the wedge is burnt out in this photo; let the camera expose for it, darker, and take it again.',
    )
  }
  const isAtEnd = clippedShares.some((share) => share > 0.5)
  return isAtEnd
    ? ['The clear steps are burnt out in this photo, so the last solid step is less sure.']
    : []
}

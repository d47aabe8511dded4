import type { Wedge } from '../wedge.ts'
import { answersOf, type Grading, type GradingParts, gradingParts } from './grades.ts'
import type { Likelihood } from './gridPass.ts'
import { quickNormalShare, quickNormalShares } from './normal.ts'
import { stepShareLog } from './stepShare.ts'

/**
 * How sharply an eye parts the grades, log10 of dose: sd for the ground and for the marks; `filling`
 * runs on for 0.10 above the fog limit before it is `filled`.
 *
 * @source grade-likelihood
 */
export const EYE = { ground: 0.03, marks: 0.04, filling: 0.1 } as const

/** How often a grade is a slip of the pen: the bands of a strip, a finished screen.
 * @source grade-likelihood */
export const LAPSE = { strip: 0.02, outcome: 0.05 } as const

/** Scatter of one reading of a wedge, steps.
 * @source wedge-noise */
export const WEDGE_NOISE_STEPS = 0.5

/** The three thresholds of one exposure, log10 lu: hold, sound, fog limit. */
export type Thresholds = Readonly<{ hold: number; sound: number; fog: number }>

/**
 * The chance that a patch is graded so, slips of the pen left out.
 *
 * Ground: washed off A0 = Φ((z1 − x)/.03), sound A2 = Φ((x − z2)/.03), soft the rest. Marks: open
 * B0 = Φ((z3 − x)/.04), filled B2 = Φ((x − z3 − .10)/.04), filling the rest. Where a belief puts the
 * sound dose under the hold dose, A2 is what A0 leaves; so the chances of all grades add up to 1.
 *
 * @param x log10 of the dose in lu
 * @source grade-likelihood
 */
export function gradingChance(
  { ground, marks }: GradingParts,
  { x, at: { hold, sound, fog } }: Readonly<{ x: number; at: Thresholds }>,
): number {
  return (
    groundShare(ground, (hold - x) / EYE.ground, (x - sound) / EYE.ground) *
    marksShare(marks, (fog - x) / EYE.marks)
  )
}

/** Chance of the ground's grade; how far the dose is under hold and over sound, in the eye's sd. */
export function groundShare(
  ground: GradingParts['ground'],
  underHold: number,
  overSound: number,
): number {
  const washed = quickNormalShare(underHold)
  if (ground === 'washed off') return washed
  if (ground === 'held') return 1 - washed
  const isSound = Math.min(quickNormalShare(overSound), 1 - washed)
  return ground === 'sound' ? isSound : 1 - washed - isSound
}

/** Chance of the marks' grade; how far the dose is under the fog limit, in the eye's sd. */
function marksShare(marks: GradingParts['marks'], underFog: number): number {
  if (marks === 'any') return 1
  if (marks === 'open') return quickNormalShare(underFog)
  const filled = quickNormalShare(-underFog - EYE.filling / EYE.marks)
  return marks === 'filled' ? filled : 1 - filled - quickNormalShare(underFog)
}

/** The same along a line of fog limits, into `open`; `filled` is for the way there. */
function marksShares(
  marks: GradingParts['marks'],
  {
    under,
    more,
    open,
    filled,
  }: Readonly<{ under: number; more: number; open: Float64Array; filled: Float64Array }>,
): void {
  if (marks === 'any') {
    open.fill(1)
    return
  }
  const over = -under - EYE.filling / EYE.marks
  if (marks === 'filled') {
    quickNormalShares(over, -more, open)
    return
  }
  quickNormalShares(under, more, open)
  if (marks === 'open') return
  quickNormalShares(over, -more, filled)
  for (let k = 0; k < open.length; k++) open[k] = 1 - (filled[k] ?? 0) - (open[k] ?? 0)
}

/**
 * Bands of one strip, or the one band of an outcome, as a log likelihood of hold, sound and fog.
 *
 * Each band is mixed with a slip of the pen that puts down any of the form's answers alike.
 *
 * @source grade-likelihood
 */
export function bandsLikelihood(
  bands: readonly Readonly<{ x: number; grading: Grading }>[],
  { lapse }: Readonly<{ lapse: number }>,
): Likelihood {
  const parts = bands.map(({ grading }) => gradingParts(grading))
  const marks = parts.map((part) => part.marks)
  const doses = Float64Array.from(bands, ({ x }) => x)
  const slips = Float64Array.from(bands, ({ grading }) => lapse / answersOf(grading))
  // At most 60 bands: the chance that all are slips is still far above the least number.
  const floor = slips.reduce((product, slip) => product * slip, 1)
  const ground = new Float64Array(bands.length)
  const one = new Float64Array(1)
  let open = new Float64Array(1)
  let filled = new Float64Array(1)
  const along: NonNullable<Likelihood['along']> = (z, { first, step, count }, { out, from }) => {
    const hold = z[0] ?? 0
    const sound = z[1] ?? 0
    let most = 0
    for (let at = 0; at < doses.length; at++) {
      const x = doses[at] ?? 0
      const part = parts[at]?.ground ?? 'held'
      const share = groundShare(part, (hold - x) / EYE.ground, (x - sound) / EYE.ground)
      ground[at] = (1 - lapse) * share
      most = Math.max(most, share)
    }
    // Where no band's ground is possible all are slips, and those are the floor.
    if (most === 0) return false
    out.fill(1, from, from + count)
    if (open.length !== count) [open, filled] = [new Float64Array(count), new Float64Array(count)]
    for (let at = 0; at < doses.length; at++) {
      const held = ground[at] ?? 0
      const slip = slips[at] ?? 0
      const under = (first - (doses[at] ?? 0)) / EYE.marks
      const what = held === 0 ? 'any' : (marks[at] ?? 'any')
      marksShares(what, { under, more: step / EYE.marks, open, filled })
      for (let k = 0; k < count; k++) {
        out[from + k] = (out[from + k] ?? 0) * (held * (open[k] ?? 0) + slip)
      }
    }
    for (let k = from; k < from + count; k++) out[k] = Math.max(0, (out[k] ?? 0) - floor)
    return true
  }
  return {
    floor,
    log: (z) => {
      const line = { first: z[2] ?? 0, step: 0, count: 1 }
      return along(z, line, { out: one, from: 0 })
        ? Math.log(one[0] ?? 0)
        : Number.NEGATIVE_INFINITY
    },
    along,
  }
}

/** One exposed wedge; x is log10 of the dose in lu. */
export type WedgeTicks = Readonly<{
  x: number
  wedge: Wedge
  /** 0: not even step 1 held; steps: all did. */
  lastSolidStep: number
  /** steps + 1: none washed clear; undefined: nobody wrote it down. */
  firstClearStep?: number | undefined
}>

/**
 * A wedge as a log likelihood of its hold dose and, where the first clear step is known, its skin
 * dose: last solid k = floor(mu + noise), mu = (x − D1 − z)/inc + 1, noise sd half a step; first
 * clear step = floor(mu') + 1 likewise. Both ends of the wedge are censored.
 *
 * @source wedge-noise, step-wedge
 */
export function wedgeLikelihood(ticks: WedgeTicks): Likelihood {
  const { firstClearStep, lastSolidStep } = ticks
  const solid = { ...ticks, passed: lastSolidStep }
  if (firstClearStep === undefined) return { floor: 0, log: (z) => logPassed(solid, z[0] ?? 0) }
  const clear = { ...ticks, passed: firstClearStep - 1 }
  let last = { hold: Number.NaN, log: 0 }
  return {
    floor: 0,
    log: (z) => {
      const hold = z[0] ?? 0
      if (hold !== last.hold) last = { hold, log: logPassed(solid, hold) }
      return last.log + logPassed(clear, z[1] ?? 0)
    },
  }
}

/** Width of one step in the noise's own sd. */
const ONE_STEP = 1 / WEDGE_NOISE_STEPS
const stepLog = stepShareLog(ONE_STEP)
const tailLog = stepShareLog(Number.POSITIVE_INFINITY)

/** log chance that floor(mu + noise), kept within 0 … steps, is the number of steps passed. */
function logPassed(
  { x, wedge, passed }: Pick<WedgeTicks, 'x' | 'wedge'> & Readonly<{ passed: number }>,
  z: number,
): number {
  const mu = (x - wedge.firstDensity - z) / wedge.increment + 1
  const over = (passed - mu) / WEDGE_NOISE_STEPS
  if (passed <= 0) return tailLog(-over - ONE_STEP)
  return passed >= wedge.steps ? tailLog(over) : stepLog(over)
}

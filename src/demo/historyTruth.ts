import { WALK } from '../core/calibration/belief/priors.ts'
import { soundRise } from '../core/emulsion/soundRise.ts'
import { fabricGeometry } from '../core/fabric/geometry.ts'
import { baseNamed } from '../core/film/bases.ts'
import { perCm, um } from '../core/units/quantity.ts'
import { type Random, randomFrom } from './random.ts'
import { DEMO_SHOP } from './shop.ts'

/**
 * What is true of the demo shop and known to nobody in it: log10 of doses in light units, and
 * densities. Made up, each within what the priors allow; all that its people ever told follows
 * from these numbers by chance. Demo.
 */
export const DEMO_TRUTH: DemoTruth = {
  /** Of the usual coat on white 90-48 under the usual base, with the first bucket. */
  hold: 0.93,
  skinBelow: 0.21,
  soundOver: 0.4,
  unit: -0.05,
  fabrics: {
    '43-80': 0.06,
    '61-64': 0.01,
    '77-55': 0.03,
    '90-48': -0.02,
    '90-48 yellow': 0.15,
    '120-34 yellow': 0.21,
  },
  buckets: { old: -0.03, open: 0.09 },
  media: {
    'soft pencil': 0.82,
    'fine pigment pen': 0.8,
    'graphite wash': 0.55,
    'litho crayon': 0.95,
    'drawing ink': 1.1,
    'grease marker': 1.06,
    'opaque paint': 1.6,
    'cut masking film': 1.52,
    'laser toner': 1.25,
    'inkjet film': 1.6,
  },
  screenSd: 0.05,
  filmSd: 0.1,
}

export type DemoBucket = 'old' | 'open'
export type DemoTruth = Readonly<{
  hold: number
  skinBelow: number
  soundOver: number
  unit: number
  fabrics: Readonly<Record<string, number>>
  buckets: Readonly<Record<DemoBucket, number>>
  media: Readonly<Record<string, number>>
  screenSd: number
  filmSd: number
}>

/** log10 of what one screen under one film truly takes, lu. */
export type Thresholds = Readonly<{ skin: number; hold: number; sound: number; fog: number }>
export type DemoGrade = 'washed off' | 'soft' | 'good' | 'filling' | 'filled'

/** Chance as it befalls the demo shop. */
export type Luck = Readonly<{ random: Random; normal: () => number }>

export function luckFrom(seed: number): Luck {
  const random = randomFrom(seed)
  // Box and Muller's pair, of which one is used; 1 − share is never 0
  const normal = (): number =>
    Math.sqrt(-2 * Math.log(1 - random.share())) * Math.cos(2 * Math.PI * random.share())
  return { random, normal }
}

/** The usual coat on a fabric of the demo shop. */
function riseOn(fabric: string): number {
  const cloth = DEMO_SHOP.fabrics.find(({ name }) => name === fabric)
  if (cloth === undefined) throw new RangeError(`fabric: expected one of the demo's, got ${fabric}`)
  const { threadsPerCm, threadUm } = cloth
  const { thicknessUm } = fabricGeometry({
    threadsPerCm: perCm(threadsPerCm),
    threadUm: um(threadUm),
  })
  const over = soundRise({ thicknessUm: um(thicknessUm + 8), anchorDepthUm: um(20) }).log10
  return over - soundRise({ thicknessUm: um(80), anchorDepthUm: um(20) }).log10
}

/**
 * What a screen of a set-up takes, without its own scatter and its film's.
 *
 * @param drifted how far the hold dose has wandered, log10
 */
export function trueThresholds({
  fabric,
  bucket,
  medium,
  base = DEMO_SHOP.usualBase,
  drifted = 0,
}: Readonly<{
  fabric: string
  bucket: DemoBucket
  medium?: string | undefined
  base?: string | undefined
  drifted?: number
}>): Thresholds {
  const { hold: reference, skinBelow, soundOver, unit, fabrics, buckets, media } = DEMO_TRUTH
  const usual = baseNamed(DEMO_SHOP.usualBase)?.baseDensity ?? 0
  const shift = (baseNamed(base)?.baseDensity ?? usual) - usual
  const hold = reference + unit + (fabrics[fabric] ?? 0) + buckets[bucket] + shift + drifted
  return {
    skin: hold - skinBelow,
    hold,
    sound: hold + soundOver + riseOn(fabric),
    fog: hold - skinBelow + (media[medium ?? ''] ?? 0),
  }
}

/** The same of one screen and one film, each with its own scatter. */
export function drawnThresholds(
  of: Thresholds,
  { screen, film }: Readonly<{ screen: number; film: number }>,
): Thresholds {
  return {
    skin: of.skin + screen,
    hold: of.hold + screen,
    sound: of.sound + screen,
    fog: of.fog + screen + film,
  }
}

const GRADES: readonly DemoGrade[] = ['washed off', 'soft', 'good', 'filling', 'filled']
/** Where an eye draws the line, from day to day.
 * @source grade-likelihood */
const EYE = { ground: 0.03, marks: 0.04 }
/** From filling to filled.
 * @source grade-likelihood */
const FILLED_FROM = 0.1

/**
 * What somebody says of a patch; now and then a slip of the pen.
 *
 * @param x log10 of its dose in lu
 */
export function gradeTold(
  { random, normal }: Luck,
  { x, of, lapse }: Readonly<{ x: number; of: Thresholds; lapse: number }>,
): DemoGrade {
  const marks = x - of.fog + EYE.marks * normal()
  const hold = x - of.hold + EYE.ground * normal()
  const sound = x - of.sound + EYE.ground * normal()
  const slip = random.share()
  if (slip < lapse) return GRADES[Math.floor((slip / lapse) * GRADES.length)] ?? 'good'
  if (hold < 0) return 'washed off'
  if (marks > FILLED_FROM) return 'filled'
  if (marks > 0) return 'filling'
  return sound > 0 ? 'good' : 'soft'
}

export type DemoWedge = Readonly<{ steps: number; firstDensity: number; increment: number }>
const READING_SD = 0.5

/** Last solid and first clear step as somebody reads them, half a step off at times.
 * @source wedge-noise */
export function wedgeRead(
  { normal }: Luck,
  { x, of, wedge }: Readonly<{ x: number; of: Thresholds; wedge: DemoWedge }>,
): Readonly<{ lastSolidStep: number; firstClearStep: number }> {
  const passed = (threshold: number): number => {
    const steps = (x - wedge.firstDensity - threshold) / wedge.increment + 1
    return Math.max(0, Math.min(wedge.steps, Math.floor(steps + READING_SD * normal())))
  }
  const lastSolidStep = passed(of.hold)
  return { lastSolidStep, firstClearStep: Math.max(lastSolidStep, passed(of.skin)) + 1 }
}

/** How the hold dose wanders over days and hours of the lamp. @source belief-priors */
export function wandered(
  { normal }: Luck,
  { days, lampHours }: Readonly<{ days: number; lampHours: number }>,
): number {
  return Math.sqrt(WALK.perDay * days + WALK.perLampHour * lampHours) * normal()
}

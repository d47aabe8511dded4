import type { Evidence } from '../core/calibration/belief/evidence.ts'
import type { Grade } from '../core/calibration/belief/grades.ts'
import { outlookOn } from '../core/calibration/belief/question.ts'
import { recommendedDose } from '../core/calibration/belief/recommend.ts'
import { replay } from '../core/calibration/belief/replay.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { bestStrip } from '../core/calibration/design/bestStrip.ts'
import type { Doubtful } from '../core/units/quantity.ts'
import { lu } from '../core/units/quantity.ts'
import { lightFor } from './light.ts'
import type { LightCloth } from './lightCloth.ts'
import type { LightExposure, LightShop } from './lightRecords.ts'
import { circumstancesOf, countsOf } from './lightSetup.ts'
import type { SureWord } from './lightWord.ts'

/** One exposure that somebody remembers, its dose as the counter showed it. */
export type Remembered = Readonly<{ medium: string; doseCounts: number; outcome: Grade }>

export type LightFirstDose = Readonly<{
  medium: string
  dose: Doubtful
  screensInTen: number
  word: SureWord
  cloth: LightCloth
  afterStrip: Readonly<{ screensInTen: number }>
}>

/**
 * The first useful dose from a few facts, and how many screens in ten would come out good after
 * one test strip.
 *
 * @throws Failure 'conflict' for a lamp that counts seconds while nothing is remembered
 * @source dose-rule, strip-design
 */
export function lightFirstDose(
  exposure: LightExposure,
  {
    shop,
    remembered,
    day,
  }: Readonly<{ shop: LightShop; remembered: readonly Remembered[]; day: number }>,
): LightFirstDose {
  const evidence = remembered.map((each) => rememberedEvidence(each, exposure, { day }))
  const { belief } = replay(evidence, { shop: beliefShop(shop) })
  const light = lightFor(exposure, { belief, shop, day })
  const { dose, screensInTen, word, cloth } = light
  const medium = exposure.subject.name
  const question = { ...circumstancesOf(exposure, { day }), marks: [{ medium }] }
  const { after } = bestStrip(belief, question)
  const afterStrip = { screensInTen: Math.max(screensInTen, after.screensInTen) }
  return { medium, dose, screensInTen, word, cloth, afterStrip }
}

/** What the belief has to know of the shop itself. */
export function beliefShop({ usualBase, secondsUnits }: LightShop): Belief['shop'] {
  return { usualBaseDensity: usualBase.baseDensity, secondsUnits }
}

/** A remembered exposure as evidence: on the usual screen, of which nobody knows which it was. */
export function rememberedEvidence(
  { medium, doseCounts, outcome }: Remembered,
  exposure: LightExposure,
  at: Readonly<{ day: number }>,
): Evidence {
  const circumstances = { ...circumstancesOf(exposure, at), screen: undefined }
  const doseLu = lu(doseCounts / countsOf(exposure.unit))
  return { ...circumstances, kind: 'outcome', marks: { medium }, doseLu, grade: outcome }
}

/**
 * The scale of a lamp that counts seconds, from one exposure: what came out good stood at the dose
 * that is usual for its medium; what did not, so much beside it as that grade usually lies.
 *
 * @returns counts for one light unit
 * @source seconds-scale
 */
export function secondsScale(
  { medium, doseCounts, outcome }: Remembered,
  { shop, exposure, day }: Readonly<{ shop: LightShop; exposure: LightExposure; day: number }>,
): number {
  const { belief } = replay([], { shop: beliefShop(shop) })
  const outlook = outlookOn(belief, {
    ...circumstancesOf(exposure, { day }),
    marks: [{ medium }],
  })
  const [hold = 0, sound = 0, fog = 0] = outlook.parts[0]?.gaussian.mean ?? []
  const usual: Readonly<Record<Grade, number>> = {
    'washed off': hold - 0.15,
    soft: (hold + sound) / 2,
    good: Math.log10(recommendedDose(outlook).doseLu),
    filling: fog + 0.05,
    filled: fog + 0.2,
  }
  return doseCounts / 10 ** usual[outcome]
}

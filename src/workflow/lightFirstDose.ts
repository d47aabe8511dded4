import type { Circumstances, Evidence } from '../core/calibration/belief/evidence.ts'
import { factorOf } from '../core/calibration/belief/gaussian.ts'
import type { Grade } from '../core/calibration/belief/grades.ts'
import { type Outlook, outlookOn } from '../core/calibration/belief/question.ts'
import { recommendedDose } from '../core/calibration/belief/recommend.ts'
import { replay } from '../core/calibration/belief/replay.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { taughtBy } from '../core/calibration/belief/update.ts'
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
 * @source dose-rule, test-strip
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
  const circumstances = circumstancesOf(exposure, { day })
  return {
    medium,
    dose,
    screensInTen,
    word,
    cloth,
    afterStrip: { screensInTen: Math.max(screensInTen, afterStrip(belief, circumstances, medium)) },
  }
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

const BANDS = 7
const RATIO = 1.25

/**
 * Good screens in ten after a strip of seven bands about the best guess: the mean over shops that
 * lie √3 sd from the middle of the belief, along each of its own directions either way.
 */
function afterStrip(belief: Belief, circumstances: Circumstances, medium: string): number {
  const question = { ...circumstances, screen: undefined, marks: [{ medium }] }
  const before = outlookOn(belief, question)
  const middle = Math.log10(recommendedDose(before).doseLu)
  const shops = likelyShops(before)
  const chances = shops.map(({ weight, thresholds }) => {
    const bands = Array.from({ length: BANDS }, (_, at) => {
      const x = middle + (at - (BANDS - 1) / 2) * Math.log10(RATIO)
      return { doseLu: lu(10 ** x), ...gradeAt(x, thresholds) }
    })
    const strip: Evidence = { ...question, kind: 'strip', marks: { medium }, bands }
    const { chances } = recommendedDose(outlookOn(taughtBy(belief, strip).belief, question))
    return weight * chances.good
  })
  return Math.round(10 * chances.reduce((sum, chance) => sum + chance, 0))
}

type Thresholds = readonly [hold: number, sound: number, fog: number]

/** Six points that have the mean and covariance of three normal numbers. */
function likelyShops({
  parts,
}: Outlook): readonly Readonly<{ weight: number; thresholds: Thresholds }>[] {
  const { mean, cov } = parts[0]?.gaussian ?? {
    mean: new Float64Array(3),
    cov: new Float64Array(9),
  }
  const factor = factorOf(cov, 3)
  const at = (row: number, column: number, times: number): number =>
    (mean[row] ?? 0) + times * (factor[row * 3 + column] ?? 0)
  const beside = [0, 1, 2].flatMap((column) =>
    [-Math.sqrt(3), Math.sqrt(3)].map((times) => ({
      weight: 1 / 6,
      thresholds: [at(0, column, times), at(1, column, times), at(2, column, times)] as const,
    })),
  )
  return beside
}

function gradeAt(x: number, [hold, sound, fog]: Thresholds): Readonly<{ grade: Grade }> {
  if (x < hold) return { grade: 'washed off' }
  if (x > fog + 0.1) return { grade: 'filled' }
  if (x > fog) return { grade: 'filling' }
  return { grade: x < sound ? 'soft' : 'good' }
}

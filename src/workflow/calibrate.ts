import { groundEstimate, mediumEstimate } from '../core/calibration/belief/estimates.ts'
import type { Circumstances } from '../core/calibration/belief/evidence.ts'
import type { DayTaken } from '../core/calibration/belief/jump.ts'
import { outlookOn, type Question } from '../core/calibration/belief/question.ts'
import { type Reason, reasonsFor } from '../core/calibration/belief/reasons.ts'
import { recommendedDose } from '../core/calibration/belief/recommend.ts'
import { type Kept, replay } from '../core/calibration/belief/replay.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { type Sureness, surenessOf } from '../core/calibration/belief/sureness.ts'
import { marksOf } from '../core/calibration/belief/update.ts'
import { plainName } from '../core/units/plainName.ts'
import type { Doubtful } from '../core/units/quantity.ts'
import { type CalibrationDrift, driftFound } from './calibrateDrift.ts'
import { oddCounters, oddCounterWarning } from './calibrateScale.ts'
import { withoutLoneNames } from './calibrationNames.ts'
import type { CalibrationProblem } from './calibrationProblem.ts'
import { RANGE_SHARE } from './light.ts'

/** The dose for one exposure, and how it will come out. */
export type CalibrationAnswer = Readonly<{
  /** low and high: lowLu and highLu; confidence is the share of the best chance they reach down to. */
  dose: Doubtful
  /** From here to highLu the chance of a good screen is at least 0.8 of the best there is. */
  lowLu: number
  highLu: number
  chanceGood: number
  chances: Readonly<{ good: number; open: number; hold: number; sound: number }>
  screensInTen: number
  word: Sureness
  reasons: readonly string[]
}>

/** A medium as the evidence has shown it, and its dose for the set-up of the newest evidence. */
export type CalibrationMedium = Readonly<{
  name: string
  /** Of its weakest mark that must print. */
  density: Doubtful
  dose: Doubtful
  chanceGood: number
}>

/** What a shop's evidence says. */
export type Calibration = Readonly<{
  kind: 'calibration'
  /** For the set-up of the newest evidence, without the scatter of single screens. */
  gelDoseLu: Doubtful
  holdDoseLu: Doubtful
  soundDoseLu: Doubtful
  media: readonly CalibrationMedium[]
  drift: readonly CalibrationDrift[]
  answers: readonly CalibrationAnswer[]
  warnings: readonly string[]
}>

/**
 * All that a shop's evidence says: its doses, its media, what changed, and the dose for each
 * exposure that is asked about, by the belief that the evidence makes.
 *
 * @param until only evidence up to the evening of that day counts, in the problem's own days
 * @source belief-priors, dose-rule
 */
export function calibrate(
  problem: CalibrationProblem,
  { until }: Readonly<{ until?: number | undefined }> = {},
): Calibration {
  const { ask, usualBaseDensity } = problem
  const evidence = problem.evidence.filter(({ day }) => day === undefined || day <= (until ?? day))
  const counters = oddCounters(evidence)
  const unitScaleSd = new Map(counters.map(({ unit, scaleSd }) => [unit, scaleSd]))
  const shop = { usualBaseDensity, secondsUnits: [], unitScaleSd }
  const { belief, days } = replay(withoutLoneNames({ evidence, ask }), { shop })
  const setUp = setUpOf(newestOf(evidence.filter(({ struckOut }) => struckOut !== true)))
  return {
    kind: 'calibration',
    ...groundEstimate(belief, setUp),
    media: mediaNamed(problem).map((name) => {
      const { dose, chanceGood } = answerTo(belief, { ...setUp, marks: [{ medium: name }] }, days)
      return { name, density: mediumEstimate(belief, name), dose, chanceGood }
    }),
    drift: driftFound({ ...problem, evidence }, { days, shop }),
    answers: ask.map((question) => answerTo(belief, question, days)),
    warnings: [...problem.warnings, ...counters.map(oddCounterWarning)],
  }
}

function answerTo(
  belief: Belief,
  question: Question,
  days: readonly DayTaken[],
): CalibrationAnswer {
  const { doseLu, lowLu, highLu, chances, screensInTen } = recommendedDose(
    outlookOn(belief, question),
  )
  const { good, open, hold, sound } = chances
  const dose: Doubtful = {
    value: doseLu,
    low: Math.min(doseLu, lowLu),
    high: Math.max(doseLu, highLu),
    confidence: RANGE_SHARE,
  }
  return {
    dose,
    lowLu,
    highLu,
    chanceGood: good,
    chances: { good, open, hold, sound },
    screensInTen,
    word: surenessOf(belief, question, { screensInTen }),
    reasons: reasonsFor(belief, question, { days }).map(({ sentence }: Reason) => sentence),
  }
}

/** The evidence of the latest day, of that day the one that stands last; what has no day is older. */
function newestOf(evidence: readonly Kept[]): Circumstances {
  let newest: Kept | undefined
  for (const each of evidence) {
    const isOlder =
      (each.day ?? Number.NEGATIVE_INFINITY) < (newest?.day ?? Number.NEGATIVE_INFINITY)
    if (!isOlder) newest = each
  }
  return newest ?? {}
}

/** What a set-up is: everything but the one screen and the one film. */
function setUpOf({
  unit,
  emulsion,
  fabric,
  dyed,
  recipe,
  baseDensity,
  day,
  lampHours,
}: Circumstances): Circumstances {
  return { unit, emulsion, fabric, dyed, recipe, baseDensity, day, lampHours }
}

/** Every medium that evidence or questions name, once, as it was written first. */
function mediaNamed({
  evidence,
  ask,
}: Pick<CalibrationProblem, 'evidence' | 'ask'>): readonly string[] {
  const named = new Map<string, string>()
  const all = [...evidence.flatMap(marksOf), ...ask.flatMap(({ marks }) => marks)]
  for (const marks of all) {
    const name = 'density' in marks ? undefined : marks.medium
    if (name !== undefined && !named.has(plainName(name))) named.set(plainName(name), name)
  }
  return [...named.values()]
}

import { fogEstimate } from '../core/calibration/belief/estimates.ts'
import type { Circumstances, Marks } from '../core/calibration/belief/evidence.ts'
import { type Outlook, outlookOn } from '../core/calibration/belief/question.ts'
import { type Recommendation, recommendedDose } from '../core/calibration/belief/recommend.ts'
import { type Belief, placeOf } from '../core/calibration/belief/state.ts'
import { planDose } from '../core/emulsion/latitude.ts'
import { type Doubtful, lu } from '../core/units/quantity.ts'
import { clothEnds, type LightCloth, type LightScale, lightCloth } from './lightCloth.ts'
import { readingsHeard } from './lightHeard.ts'
import { beliefInMarks } from './lightMarks.ts'
import { lightAdvice, lightReasons } from './lightReasons.ts'
import type { LightExposure, LightShop, LightSubject } from './lightRecords.ts'
import { type CounterDoses, circumstancesOf, counterDoses, countsOf } from './lightSetup.ts'
import { type SureWord, sureWord } from './lightWord.ts'

/** How much light, and how sure, on the unit's own counter. */
export type Light = Readonly<{
  verdict: 'works' | 'no dose'
  /** low and high: where the chance of good is 0.8 of the best there is. */
  dose: Doubtful
  chance: Readonly<{ good: number; open: number; hold: number; sound: number }>
  screensInTen: number
  word: SureWord
  cloth: LightCloth
  reasons: readonly string[]
  advice: readonly string[]
}>

export type LightKnown = Readonly<{ belief: Belief; shop: LightShop; day: number }>

/** The share of the best chance down to which the range reaches. */
export const RANGE_SHARE = 0.8

/** The dose of an exposure before all that is said and drawn of it. */
export type LightSeen = Readonly<{
  exposure: LightExposure
  known: LightKnown
  outlook: Outlook
  best: Recommendation
  dose: Doubtful
}>

/**
 * The dose of most worth by what the shop believes, for a medium's usual marks or for the marks
 * that were found on this film.
 *
 * @throws Failure 'conflict' under a unit without a counter of which nobody has told anything
 * @source dose-rule, latitude-practice
 */
export function lightFor(exposure: LightExposure, known: LightKnown): Light {
  const seen = lightSeen(exposure, known)
  return lightOf(seen, lightScale(seen))
}

/** @throws Failure 'conflict' under a unit without a counter of which nobody has told anything */
export function lightSeen(exposure: LightExposure, known: LightKnown): LightSeen {
  const { subject, unit } = exposure
  const counts = countsOf(unit)
  const circumstances = circumstancesOf(exposure, known)
  const outlook = outlookOn(known.belief, {
    ...circumstances,
    film: subject.id,
    marks: [marksOf(subject)],
  })
  const best = recommendedDose(outlook)
  const value = counts * best.doseLu
  const dose: Doubtful = {
    value,
    low: Math.min(value, counts * best.lowLu),
    high: Math.max(value, counts * best.highLu),
    confidence: RANGE_SHARE,
  }
  return { exposure, known, outlook, best, dose }
}

/** Where the cloth of one dose by itself would end. */
export function lightScale({ exposure, outlook, dose }: LightSeen): LightScale {
  return clothEnds(outlook, { dose, counts: countsOf(exposure.unit) })
}

/** All that is said and drawn of a dose, the cloth between the ends given. */
export function lightOf(
  { exposure, known, outlook, best, dose }: LightSeen,
  scale: LightScale,
): Light {
  const { subject, unit } = exposure
  const counts = countsOf(unit)
  const circumstances = circumstancesOf(exposure, known)
  const marks = marksOf(subject)
  const doses = counterDoses(known.belief, exposure, known)
  const named = { ...circumstances, film: subject.id, marks }
  const fogLu = counts * fogEstimate(known.belief, named).value
  const heard = readingsHeard(known.belief, { ...circumstances, marks: [marks] })
  const { good, open, hold, sound } = best.chances
  const own =
    subject.kind === 'medium'
      ? null
      : subject.marks.along.map((density) => doses.gelDoseLu * 10 ** density)
  const { value } = dose
  return {
    verdict: fogLu > doses.holdDoseLu ? 'works' : 'no dose',
    dose,
    chance: { good, open, hold, sound },
    screensInTen: best.screensInTen,
    word: sureWord({ chanceGood: good, heard, subject: subject.kind }),
    cloth: lightCloth(outlook, { scale, counts, own }),
    reasons: lightReasons(exposure, {
      ...known,
      heard,
      doses,
      fogLu,
      doseLu: value,
      otherCoatLu: otherCoatLu(known.belief, named, counts),
    }),
    advice: lightAdvice(planned({ doses, fogLu, value }), unit.countsIn),
  }
}

/** What another coat would be given, where this one was read by itself. */
function otherCoatLu(
  belief: Belief,
  { marks, screen, ...circumstances }: Circumstances & Readonly<{ marks: Marks }>,
  counts: number,
): number | null {
  const entry = belief.entries[placeOf(belief, { kind: 'screen', name: screen ?? '' })]
  if (screen === undefined || entry === undefined) return null
  return counts * recommendedDose(outlookOn(belief, { ...circumstances, marks: [marks] })).doseLu
}

function marksOf(subject: LightSubject): Marks {
  if (subject.kind === 'medium') return { medium: subject.name }
  const { marks, medium, photo = null } = subject
  const { mean, sd } = beliefInMarks(marks, { photo, medium })
  return { density: mean, densitySd: sd, medium: medium ?? undefined }
}

/** The verdict's own numbers with the dose that belief recommends, for the advice at the sink. */
function planned({
  doses: { gelDoseLu, holdDoseLu, throughDoseLu },
  fogLu,
  value,
}: Readonly<{ doses: CounterDoses; fogLu: number; value: number }>): ReturnType<typeof planDose> {
  const plan = planDose({
    highLu: lu(fogLu),
    doses: {
      gelDoseLu: lu(gelDoseLu),
      holdDoseLu: lu(holdDoseLu),
      throughDoseLu: lu(Math.max(holdDoseLu, throughDoseLu)),
    },
  })
  return { ...plan, recommendedLu: lu(value) }
}

import { fogEstimate } from '../core/calibration/belief/estimates.ts'
import type { Marks } from '../core/calibration/belief/evidence.ts'
import { type Outlook, outlookOn } from '../core/calibration/belief/question.ts'
import { recommendedDose } from '../core/calibration/belief/recommend.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { planDose } from '../core/emulsion/latitude.ts'
import { FILM_TO_FILM_SD } from '../core/film/media.ts'
import { type Doubtful, lu } from '../core/units/quantity.ts'
import { type LightCloth, type LightScale, lightCloth } from './lightCloth.ts'
import { readingsHeard } from './lightHeard.ts'
import { densityThatCounts } from './lightMarks.ts'
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

export type LightKnown = Readonly<{
  belief: Belief
  shop: LightShop
  day: number
  /** Of the cloth, where several are to have one. */
  scale?: LightScale | undefined
}>

/** The share of the best chance down to which the range reaches. */
export const RANGE_SHARE = 0.8

/**
 * The dose of most worth by what the shop believes, for a medium's usual marks or for the marks
 * that were found on this film.
 *
 * @throws Failure 'conflict' under a unit without a counter of which nobody has told anything
 * @source dose-rule, latitude-practice
 */
export function lightFor(exposure: LightExposure, known: LightKnown): Light {
  const { subject, unit } = exposure
  const counts = countsOf(unit)
  const circumstances = circumstancesOf(exposure, known)
  const marks = marksOf(subject)
  const question = { ...circumstances, film: subject.id, marks: [marks] }
  const outlook = outlookOn(known.belief, question)
  const best = recommendedDose(outlook)
  const doses = counterDoses(known.belief, exposure, known)
  const named = { ...circumstances, film: subject.id, marks }
  const fogLu = counts * fogEstimate(known.belief, named).value
  const verdict = fogLu > doses.holdDoseLu ? 'works' : 'no dose'
  const value = counts * best.doseLu
  const dose: Doubtful = {
    value,
    low: Math.min(value, counts * best.lowLu),
    high: Math.max(value, counts * best.highLu),
    confidence: RANGE_SHARE,
  }
  const { good, open, hold, sound } = best.chances
  const heard = readingsHeard(known.belief, { ...circumstances, marks: [marks] })
  return {
    verdict,
    dose,
    chance: { good, open, hold, sound },
    screensInTen: best.screensInTen,
    word: sureWord({ chanceGood: good, heard }),
    cloth: clothFor(exposure, { outlook, dose, doses, counts, scale: known.scale }),
    reasons: lightReasons(exposure, { ...known, heard, doses, fogLu, doseLu: value }),
    advice: lightAdvice(planned({ doses, fogLu, value }), unit.countsIn),
  }
}

function marksOf(subject: LightSubject): Marks {
  if (subject.kind === 'medium') return { medium: subject.name }
  return {
    density: densityThatCounts(subject.marks),
    densitySd: FILM_TO_FILM_SD,
    medium: subject.medium ?? undefined,
  }
}

function clothFor(
  { subject }: LightExposure,
  {
    outlook,
    dose,
    doses,
    counts,
    scale,
  }: Readonly<{
    outlook: Outlook
    dose: Doubtful
    doses: CounterDoses
    counts: number
    scale: LightScale | undefined
  }>,
): LightCloth {
  const own =
    subject.kind === 'medium'
      ? null
      : subject.marks.along.map((density) => doses.gelDoseLu * 10 ** density)
  return lightCloth(outlook, { dose, counts, own, scale })
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

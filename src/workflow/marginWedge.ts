import type { Evidence } from '../core/calibration/belief/evidence.ts'
import { takenInDay } from '../core/calibration/belief/jump.ts'
import { outlookOf, outlookOn, type Question } from '../core/calibration/belief/question.ts'
import { type Recommendation, recommendedDose } from '../core/calibration/belief/recommend.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { USUAL_WEDGE, type Wedge } from '../core/calibration/wedge.ts'
import { lu } from '../core/units/quantity.ts'

/**
 * What a wedge on the margin of the next screen would make of its dose, the wedge coming out as it
 * most likely does.
 *
 * @source wedge-noise, dose-rule
 */
export function afterMarginWedge(
  belief: Belief,
  question: Question,
  { wedge = USUAL_WEDGE }: Readonly<{ wedge?: Wedge }> = {},
): Recommendation {
  const { doseLu } = recommendedDose(outlookOn(belief, question))
  const { marks: _, ...circumstances } = question
  const [part] = outlookOf(belief, question, ({ hold, skin }) => [hold, skin]).parts
  const [hold = 0, skin = 0] = part?.gaussian.mean ?? []
  const passed = (threshold: number): number => {
    const steps = (Math.log10(doseLu) - wedge.firstDensity - threshold) / wedge.increment + 1
    return Math.max(0, Math.min(wedge.steps, Math.floor(steps)))
  }
  const evidence: Evidence = {
    ...circumstances,
    kind: 'wedge',
    doseLu: lu(doseLu),
    wedge,
    lastSolidStep: passed(hold),
    firstClearStep: Math.max(passed(hold), passed(skin)) + 1,
  }
  const { belief: taught } = takenInDay(belief, {
    day: question.day ?? null,
    readings: [evidence],
  })
  return recommendedDose(outlookOn(taught, question))
}

import type { Evidence } from '../core/calibration/belief/evidence.ts'
import { takenInDay } from '../core/calibration/belief/jump.ts'
import { outlookOn, type Question } from '../core/calibration/belief/question.ts'
import { type Recommendation, recommendedDose } from '../core/calibration/belief/recommend.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { type Lu, lu } from '../core/units/quantity.ts'
import { counterSettings, settableDoses } from './papers/settableDoses.ts'

const RATIO = 1.25

export type StripDesign = Readonly<{
  bandsLu: readonly Lu[]
  incrementsLu: readonly Lu[]
  before: Recommendation
  after: Recommendation
}>

export function stripDesign(
  belief: Belief,
  question: Question,
  { bands = 7, countsPerLu }: Readonly<{ bands?: number | undefined; countsPerLu: number }>,
): StripDesign {
  const before = recommendedDose(outlookOn(belief, question))
  const middle = Math.log10(before.doseLu)
  const counts = settableDoses(
    Array.from(
      { length: bands },
      (_, at) => countsPerLu * 10 ** (middle + (at - (bands - 1) / 2) * Math.log10(RATIO)),
    ),
  )
  const onLamp = (count: number): Lu => lu(count / countsPerLu)
  const [hold = 0, sound = 0, fog = 0] = outlookOn(belief, question).parts[0]?.gaussian.mean ?? []
  const grade = (x: number) => {
    if (x < hold) return 'washed off'
    if (x > fog + 0.1) return 'filled'
    if (x > fog) return 'filling'
    return x < sound ? 'soft' : 'good'
  }
  const { marks, ...circumstances } = question
  const [first] = marks
  if (first === undefined) throw new RangeError('marks: expected 1, got 0')
  const strip: Evidence = {
    ...circumstances,
    kind: 'strip',
    marks: first,
    bands: counts.map((count) => ({
      doseLu: onLamp(count),
      grade: grade(Math.log10(count / countsPerLu)),
    })),
  }
  const { belief: taught } = takenInDay(belief, { day: question.day ?? null, readings: [strip] })
  return {
    bandsLu: counts.map(onLamp),
    incrementsLu: counterSettings(counts.toReversed()).map(onLamp),
    before,
    after: recommendedDose(outlookOn(taught, question)),
  }
}

import { type Circumstances, expectCircumstances, expectMarks, type Marks } from './evidence.ts'
import { type Gaussian, projected } from './gaussian.ts'
import { jumpChance, withJump } from './jump.ts'
import { atLampHours, type Belief, onDay } from './state.ts'
import { type Touched, touched } from './touch.ts'

/** An exposure that is to be made: its circumstances and all the marks that must print. */
export type Question = Circumstances & Readonly<{ marks: readonly Marks[] }>

/**
 * What is believed of one exposure: log10 of its hold dose, its sound dose and the fog limit of
 * each of its marks, screen and film included. Two parts where the hold dose may have jumped
 * since it was last heard of.
 */
export type Outlook = Readonly<{
  marks: number
  parts: readonly Readonly<{ share: number; gaussian: Gaussian }>[]
}>

/**
 * The thresholds of an exposure as the belief sees them on its day: mean and covariance of
 * (z1, z2, z3 …), with the walk, and a possible jump, since the last reading.
 *
 * @param question at least one of marks; a day before the belief's is asked of the belief as it is
 * @throws RangeError where a number of the question cannot be
 * @source belief-priors, jump-hypothesis
 */
export function outlookOn(belief: Belief, question: Question): Outlook {
  expectCircumstances(question)
  if (question.marks.length === 0) throw new RangeError('marks: expected at least 1, got 0')
  for (const each of question.marks) expectMarks(each)
  return outlookOf(belief, question, ({ hold, sound, fog }) => [hold, sound, ...fog])
}

/** The outlook on any numbers of an exposure. */
export function outlookOf(
  belief: Belief,
  { marks, ...circumstances }: Question,
  rowsOf: (touch: Touched) => Parameters<typeof projected>[1],
): Outlook {
  const { day = null, lampHours, lampFitted, unit = '' } = circumstances
  const hours = new Map(lampHours === undefined ? [] : [[unit, lampHours]])
  const lampsFitted = new Map(lampFitted === undefined ? [] : [[unit, lampFitted]])
  const jump = jumpChance(belief, { day, lampHours: hours, lampsFitted })
  let morning = belief
  if (day !== null && day > (belief.day ?? day)) morning = onDay(morning, day)
  if (lampHours !== undefined) morning = atLampHours(morning, { unit, hours: lampHours })
  const seen = (from: Belief): Gaussian => {
    const touch = touched(from, circumstances, marks)
    return projected(touch.belief.gaussian, rowsOf(touch))
  }
  const steady = { share: 1 - jump, gaussian: seen(morning) }
  const parts = jump > 0 ? [steady, { share: jump, gaussian: seen(withJump(morning)) }] : [steady]
  return { marks: marks.length, parts }
}

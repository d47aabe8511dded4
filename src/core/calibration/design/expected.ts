import { carried, type Gaussian, loosened, projected } from '../belief/gaussian.ts'
import { jumpChance } from '../belief/jump.ts'
import { WEDGE_NOISE_STEPS } from '../belief/likelihood.ts'
import { JUMP } from '../belief/priors.ts'
import type { Question } from '../belief/question.ts'
import { atLampHours, type Belief, isOneOff, onDay, SHARED, without } from '../belief/state.ts'
import { touched } from '../belief/touch.ts'
import { USUAL_WEDGE } from '../wedge.ts'
import { leftOpenByStrip } from './toldByStrip.ts'

/** The belief in the morning of a test, a possible jump since the last reading in its variance. */
export function morningOf(belief: Belief, question: Question): Belief {
  const { day, lampHours, lampFitted, unit = '' } = question
  const hours = new Map(lampHours === undefined ? [] : [[unit, lampHours]])
  const lampsFitted = new Map(lampFitted === undefined ? [] : [[unit, lampFitted]])
  const chance = jumpChance(belief, { day: day ?? null, lampHours: hours, lampsFitted })
  let morning = belief
  if (day !== undefined && day > (belief.day ?? day)) morning = onDay(morning, day)
  if (lampHours !== undefined) morning = atLampHours(morning, { unit, hours: lampHours })
  const jump = [{ at: SHARED.hold, variance: chance * JUMP.sd ** 2 }]
  return { ...morning, gaussian: loosened(morning.gaussian, jump) }
}

/**
 * A belief after a strip as it is to be expected: what is then still open, about the same middle.
 *
 * @param question of the strip: its first marks alone
 * @param bands log10 of doses
 * @source strip-design
 */
export function afterStripExpected(
  belief: Belief,
  question: Question,
  { bands }: Readonly<{ bands: readonly number[] }>,
): Belief {
  const touch = touched(belief, question, question.marks.slice(0, 1))
  const rows = [touch.hold, touch.sound, ...touch.fog]
  const before = projected(touch.belief.gaussian, rows)
  const after = { mean: before.mean, cov: leftOpenByStrip(before, bands) }
  return learned(touch.belief, carried(touch.belief.gaussian, rows, { before, after }))
}

/**
 * A belief after one wedge, both of whose ends are read, as it is to be expected.
 *
 * @source wedge-noise, strip-design
 */
export function afterWedgeExpected(belief: Belief, question: Question): Belief {
  const touch = touched(belief, question)
  const rows = [touch.hold, touch.skin]
  const before = projected(touch.belief.gaussian, rows)
  // Half a step of noise, and a step's even spread.
  const own = USUAL_WEDGE.increment ** 2 * (WEDGE_NOISE_STEPS ** 2 + 1 / 12)
  const after = { mean: before.mean, cov: seenWith(before.cov, own) }
  return learned(touch.belief, carried(touch.belief.gaussian, rows, { before, after }))
}

/** (S⁻¹ + I/r)⁻¹ = S − S (S + r I)⁻¹ S, for two numbers. */
function seenWith(cov: Float64Array, own: number): Float64Array {
  const [a = 0, b = 0, , d = 0] = cov
  const det = (a + own) * (d + own) - b * b
  const [ia, ib, id] = [(d + own) / det, -b / det, (a + own) / det]
  // r (S + r I)⁻¹ S keeps its digits where S is small.
  return Float64Array.of(
    own * (ia * a + ib * b),
    own * (ia * b + ib * d),
    own * (ib * a + id * b),
    own * (ib * b + id * d),
  )
}

function learned(belief: Belief, gaussian: Gaussian): Belief {
  return without({ ...belief, gaussian }, ({ kind, name }) => isOneOff(kind, name))
}

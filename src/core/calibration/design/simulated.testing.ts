import { type Lu, lu } from '../../units/quantity.ts'
import { randomFrom } from '../belief/draws.testing.ts'
import { fogEstimate } from '../belief/estimates.ts'
import type { StripEvidence } from '../belief/evidence.ts'
import { factorOf } from '../belief/gaussian.ts'
import type { Grade } from '../belief/grades.ts'
import { outlookOn } from '../belief/question.ts'
import { recommendedDose } from '../belief/recommend.ts'
import type { Belief } from '../belief/state.ts'
import { taughtBy } from '../belief/update.ts'

/**
 * What strips really do to a belief: shops are drawn from it, a strip graded in each by an eye that
 * draws its lines afresh for every band, and the belief taught by that strip as by any other.
 *
 * @returns means over the shops: sd of log10 of the fog limit, chance of a good next screen
 */
export function afterSimulatedStrips(
  belief: Belief,
  {
    medium,
    bandsLu,
    shops,
    seed,
  }: Readonly<{ medium: string; bandsLu: readonly Lu[]; shops: number; seed: number }>,
): Readonly<{ fogSd: number; chanceGood: number }> {
  const { normal } = randomFrom(seed)
  const question = { marks: [{ medium }] }
  const { mean, cov } = outlookOn(belief, question).parts[0].gaussian
  const factor = factorOf(cov, 3)
  let [fogSd, chanceGood] = [0, 0]
  for (let shop = 0; shop < shops; shop++) {
    const u = [normal(), normal(), normal()]
    const [hold, sound, fog] = [0, 1, 2].map((i) => {
      return mean[i] + [0, 1, 2].reduce((sum, j) => sum + factor[3 * i + j] * u[j], 0)
    })
    const gradeAt = (x: number): Grade => {
      const marks = x - fog + 0.04 * normal()
      if (x < hold + 0.03 * normal()) return 'washed off'
      if (marks > 0) return marks > 0.1 ? 'filled' : 'filling'
      return x > sound + 0.03 * normal() ? 'good' : 'soft'
    }
    const bands = bandsLu.map((doseLu) => ({ doseLu, grade: gradeAt(Math.log10(doseLu)) }))
    const strip: StripEvidence = { kind: 'strip', marks: { medium }, bands }
    const taught = taughtBy(belief, strip).belief
    const { low, high } = fogEstimate(taught, { marks: { medium } })
    fogSd += Math.log10(high / low) / (2 * 1.6448536) / shops
    chanceGood += recommendedDose(outlookOn(taught, question)).chances.good / shops
  }
  return { fogSd, chanceGood }
}

/** Doses in equal ratios about a middle. */
export function bandsAbout(
  middleLu: number,
  { count, ratio }: Readonly<{ count: number; ratio: number }>,
): readonly Lu[] {
  return Array.from({ length: count }, (_, at) => lu(middleLu * ratio ** (at - (count - 1) / 2)))
}

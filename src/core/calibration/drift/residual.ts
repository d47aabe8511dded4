import { type Evidence, type OutcomeEvidence, outcomeBand } from '../belief/evidence.ts'
import { projected } from '../belief/gaussian.ts'
import { gradingParts } from '../belief/grades.ts'
import { EYE, LAPSE } from '../belief/likelihood.ts'
import { normalDensity, normalShare } from '../belief/normal.ts'
import { PRIORS } from '../belief/priors.ts'
import type { Belief } from '../belief/state.ts'
import type { Charted } from './ewma.ts'
import { groundRows, groundWitness } from './witness.ts'

/** Beyond so many sd a screen that came out oddly says no more. */
const MOST_SD = 3
/** A reading vaguer than this, log10, tells nothing of a shift. */
const VAGUE = 1

/**
 * By how much one reading's ground wants another dose than the reference has it: log10, above 0
 * more light. As long as nothing has changed its mean is 0 and its sd what is said.
 *
 * A wedge or a strip says a hold dose by itself. A finished screen, told by its one dose, says only
 * which way: of the chances P of its grades under a shift d, the residual is (P'/P)/I with the
 * information I = Σ P'²/P, which has the variance 1/I.
 *
 * @returns null where the reading tells nothing of the ground
 * @throws RangeError where a number of the reading cannot be
 * @source drift-witness
 */
export function holdResidual(reference: Belief, reading: Evidence): Charted | null {
  if (reading.kind === 'outcome') return outcomeResidual(reference, reading)
  const said = groundWitness(reference, reading)
  if (said === null) return null
  const { belief, hold } = groundRows(reference, reading)
  const [expected = 0] = projected(belief.gaussian, [hold]).mean
  return { value: said.value - expected, sd: said.sd }
}

/** Chance of a grade of the ground, and by how much a shift of the ground changes it. */
type Graded = Readonly<{ chance: number; change: number }>

function outcomeResidual(reference: Belief, reading: OutcomeEvidence): Charted | null {
  const { belief, hold, sound } = groundRows(reference, reading)
  const { mean, cov } = projected(belief.gaussian, [hold, sound])
  const x = Math.log10(reading.doseLu)
  const scatter = PRIORS.screen.sd ** 2 + EYE.ground ** 2
  const above = (at: number): Graded => {
    const sd = Math.sqrt((cov[3 * at] ?? 0) + scatter)
    const u = ((mean[at] ?? 0) - x) / sd
    return { chance: normalShare(u), change: normalDensity(u) / sd }
  }
  const [washed, notSound] = [above(0), above(1)]
  const less = (a: Graded, b: Graded): Graded => ({
    chance: Math.max(0, a.chance - b.chance),
    change: a.change - b.change,
  })
  const whole: Graded = { chance: 1, change: 0 }
  const grounds = {
    'washed off': washed,
    soft: less(notSound, washed),
    sound: less(whole, notSound),
    held: less(whole, washed),
  }
  // Where marks filled, nobody says whether the ground is soft.
  const { ground } = gradingParts(outcomeBand(reading))
  const answers =
    ground === 'held'
      ? [grounds['washed off'], grounds.held]
      : [grounds['washed off'], grounds.soft, grounds.sound]
  const mixed = ({ chance, change }: Graded): Graded => ({
    chance: (1 - LAPSE.outcome) * chance + LAPSE.outcome / answers.length,
    change: (1 - LAPSE.outcome) * change,
  })
  const information = answers
    .map(mixed)
    .reduce((sum, { chance, change }) => sum + change ** 2 / chance, 0)
  if (information < 1 / VAGUE ** 2) return null
  const { chance, change } = mixed(grounds[ground])
  const sd = 1 / Math.sqrt(information)
  const value = change / chance / information
  return { value: Math.max(-MOST_SD * sd, Math.min(MOST_SD * sd, value)), sd }
}

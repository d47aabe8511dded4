import { describe, expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import { randomFrom } from '../belief/draws.testing.ts'
import type { Evidence, OutcomeEvidence } from '../belief/evidence.ts'
import { projected } from '../belief/gaussian.ts'
import type { Grade } from '../belief/grades.ts'
import { startBelief } from '../belief/state.ts'
import { taughtBy } from '../belief/update.ts'
import { holdResidual } from './residual.ts'
import { groundRows, groundWitness } from './witness.ts'

const START = startBelief({ usualBaseDensity: density(0), secondsUnits: [] })
const wedge = (lastSolidStep: number, doseLu = 60): Evidence => ({
  kind: 'wedge',
  doseLu: lu(doseLu),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep,
})
const marks = { medium: 'drawing ink' }

describe('what a reading says by itself', () => {
  test('oracle step-wedge: a wedge says the middle of the step after its last solid one, with a third of a step and its screen', () => {
    // Step k passed, k + 1 not: with noise of half a step the ground holds from D1 + i (k − 1/2) on.
    for (const step of [5, 6, 7]) {
      const { value, sd } = groundWitness(START, wedge(step)) ?? { value: 0, sd: 0 }
      near(value, Math.log10(60) - 0.05 - 0.15 * (step - 0.5), {
        within: 0.012,
        because: 'a quotient of two curves that are only nearly normal',
      })
      near(sd, Math.sqrt(0.15 ** 2 / 3 + 0.05 ** 2), { within: 0.006, because: 'the same' })
    }
  })

  test('whatever was believed before, it says nearly the same', () => {
    const told = taughtBy(taughtBy(START, wedge(5)).belief, wedge(5)).belief
    const [fresh, known] = [START, told].map((belief) => groundWitness(belief, wedge(6)))
    near(fresh?.value ?? 0, known?.value ?? 1, { within: 0.012, because: 'nearly normal' })
    near(fresh?.sd ?? 0, known?.sd ?? 1, { within: 0.008, because: 'nearly normal' })
  })

  test('a ground that held by far says next to nothing', () => {
    const good: Evidence = { kind: 'outcome', marks, doseLu: lu(5000), grade: 'good' }
    expect(groundWitness(START, good)).toBeNull()
    expect(holdResidual(START, good)).toBeNull()
  })
})

describe('against a reference', () => {
  test('one step more of light wanted is one step, either way', () => {
    const [less, same, more] = [6, 5, 4].map((step) => holdResidual(START, wedge(step))?.value ?? 0)
    near(more - same, 0.15, { within: 0.01, because: 'nearly normal' })
    near(same - less, 0.15, { within: 0.01, because: 'nearly normal' })
  })

  test('screens of shops as the reference has them want nothing on average, and scatter as is said', () => {
    const { belief, hold, sound } = groundRows(START, {})
    const { mean, cov } = projected(belief.gaussian, [hold, sound])
    const { normal } = randomFrom(8)
    const doseLu = lu(10 ** mean[1])
    const outcome = (grade: Grade): OutcomeEvidence => ({ kind: 'outcome', marks, doseLu, grade })
    const said = new Map(
      (['washed off', 'soft', 'good'] as const).map((grade) => {
        return [grade, holdResidual(START, outcome(grade))]
      }),
    )
    const values = Array.from({ length: 4000 }, () => {
      const own = Math.sqrt(cov[0]) * normal()
      const thick = Math.sqrt(cov[3] - cov[1] ** 2 / cov[0]) * normal()
      const screen = 0.05 * normal()
      const at = Math.log10(doseLu)
      const holds = at > mean[0] + own + screen + 0.03 * normal()
      const isSound = at > mean[1] + (cov[1] / cov[0]) * own + thick + screen + 0.03 * normal()
      return said.get(holds ? (isSound ? 'good' : 'soft') : 'washed off')?.value ?? Number.NaN
    })
    const average = values.reduce((sum, value) => sum + value / values.length, 0)
    const square = values.reduce((sum, value) => sum + value ** 2 / values.length, 0)
    const sd = said.get('good')?.sd ?? 0
    near(average, 0, { within: (4 * sd) / Math.sqrt(4000), because: '4,000 draws, four sd' })
    near(Math.sqrt(square) / sd, 1, { within: 0.08, because: '4,000 draws, and slips not drawn' })
  })
})

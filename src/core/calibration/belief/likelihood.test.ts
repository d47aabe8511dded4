import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density } from '../../units/quantity.ts'
import { GRADES, type Grading, gradingParts, MARKS_GRADES } from './grades.ts'
import type { Likelihood } from './gridPass.ts'
import { bandsLikelihood, gradingChance, LAPSE, wedgeLikelihood } from './likelihood.ts'

const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
const WORDS: readonly Grading[] = GRADES.map((grade) => ({ grade }))
const TICKS: readonly Grading[] = [
  { ground: 'washed off' },
  ...MARKS_GRADES.flatMap((marks) =>
    (['soft', 'sound'] as const).map((ground) => ({ ground, marks })),
  ),
]
const chanceOf = ({ log, floor }: Likelihood, z: readonly number[]): number =>
  Math.exp(log(Float64Array.from(z))) + floor

const log10 = fc.double({ min: 0.5, max: 2.6, noNaN: true })
const forms = [
  { name: 'five words', form: WORDS },
  { name: 'seven pairs of ticks', form: TICKS },
] as const

test.each(forms)('invariant: $name share out one screen, slips of the pen or none', ({ form }) => {
  fc.assert(
    fc.property(log10, log10, log10, log10, (x, hold, sound, fog) => {
      const at = { hold, sound, fog }
      const sum = (of: (grading: Grading) => number): number =>
        form.reduce((total, grading) => total + of(grading), 0)
      near(
        sum((grading) => gradingChance(gradingParts(grading), { x, at })),
        1,
        { within: 1e-12, because: 'parts of one' },
      )
      for (const lapse of [LAPSE.strip, LAPSE.outcome]) {
        const all = sum((grading) =>
          chanceOf(bandsLikelihood([{ x, grading }], { lapse }), [hold, sound, fog]),
        )
        near(all, 1, { within: 1e-12, because: 'parts of one' })
        for (const grading of form) {
          const chance = chanceOf(bandsLikelihood([{ x, grading }], { lapse }), [hold, sound, fog])
          expect(chance).toBeGreaterThanOrEqual(lapse / form.length - 1e-15)
        }
      }
    }),
    { seed: 61 },
  )
})

test('oracle grade-likelihood: what cannot be is a slip: 1 outcome in 100, 1 band in 250, 1 tick in 350', () => {
  // Far over the fog limit nothing is good: 0.05/5, 0.02/5, 0.02/7 are left.
  const z = [1, 1.4, 1.7]
  const left = (grading: Grading, lapse: number): number =>
    chanceOf(bandsLikelihood([{ x: 2.6, grading }], { lapse }), z)
  const rounding = { within: 1e-9, because: 'a normal tail 20 sd out' }
  near(left({ grade: 'good' }, LAPSE.outcome), 0.01, rounding)
  near(left({ grade: 'good' }, LAPSE.strip), 0.004, rounding)
  near(left({ ground: 'sound', marks: 'open' }, LAPSE.strip), 0.02 / 7, rounding)
})

/** Φ by Simpson's rule on its density: nothing of the code under test. */
function below(x: number): number {
  const steps = 4000
  const width = (x + 12) / steps
  let sum = 0
  for (let at = 0; at <= steps; at++) {
    const weight = at === 0 || at === steps ? 1 : at % 2 === 1 ? 4 : 2
    sum += weight * Math.exp(-0.5 * (-12 + at * width) ** 2)
  }
  return (sum * width) / 3 / Math.sqrt(2 * Math.PI)
}

test('oracle grade-likelihood: the five words by their precedence, each worked out apart', () => {
  const at = { hold: 1.31, sound: 1.47, fog: 1.52 }
  for (const x of [1.28, 1.33, 1.46, 1.55, 1.66]) {
    const washed = below((at.hold - x) / 0.03)
    const sound = below((x - at.sound) / 0.03)
    const open = below((at.fog - x) / 0.04)
    const filled = below((x - at.fog - 0.1) / 0.04)
    const expected = [
      washed,
      (1 - washed - sound) * open,
      sound * open,
      (1 - washed) * (1 - open - filled),
      (1 - washed) * filled,
    ]
    GRADES.forEach((grade, i) => {
      near(gradingChance(gradingParts({ grade }), { x, at }), expected[i], {
        within: 2e-6,
        because: 'looked up in a table good to 5e-7, three at a time',
      })
    })
  }
})

test('two ticks say more than one word: soft and filled is filled, and soft as well', () => {
  const at = { hold: 1.31, sound: 1.47, fog: 1.37 }
  const where = { x: 1.42, at }
  const filled = gradingChance(gradingParts({ grade: 'filled' }), where)
  const both = (['soft', 'sound'] as const).map((ground) =>
    gradingChance({ ground, marks: 'filled' }, where),
  )
  near(both[0] + both[1], filled, { within: 1e-12, because: 'one is the sum of the two' })
  expect(both[0]).toBeGreaterThan(10 * both[1])
})

test('a sound dose that a belief puts under the hold dose leaves no chance below nothing', () => {
  const at = { hold: 1.5, sound: 1.4, fog: 1.9 }
  for (const x of [1.42, 1.5, 1.53]) {
    expect(gradingChance(gradingParts({ grade: 'soft' }), { x, at })).toBeGreaterThanOrEqual(0)
  }
})

/** Chance that floor(mu + noise) is k, the noise cut into narrow strips; ends of the wedge closed. */
function floorChance(mu: number, k: number, steps: number): number {
  let sum = 0
  const width = 0.0005
  for (let noise = -4; noise < 4; noise += width) {
    const middle = noise + width / 2
    const passed = Math.max(0, Math.min(steps, Math.floor(mu + middle)))
    if (passed === k) sum += Math.exp(-0.5 * (middle / 0.5) ** 2) * width
  }
  return sum / (0.5 * Math.sqrt(2 * Math.PI))
}

test('oracle wedge-noise: last solid and first clear step, by cutting the noise into strips', () => {
  const x = Math.log10(57)
  for (const hold of [1.02, 0.71, 1.9]) {
    const mu = (x - 0.05 - hold) / 0.15 + 1
    for (const k of [0, 1, 4, 5, 6, 7, 20, 21]) {
      const likelihood = wedgeLikelihood({ x, wedge: WEDGE, lastSolidStep: k })
      near(chanceOf(likelihood, [hold]), floorChance(mu, k, 21), {
        within: 1e-3,
        because: 'strips of 0.0005 step: an edge is off by at most 4e-4',
      })
    }
  }
  const [hold, skin] = [1.02, 0.8]
  const muOf = (z: number): number => (x - 0.05 - z) / 0.15 + 1
  const both = wedgeLikelihood({ x, wedge: WEDGE, lastSolidStep: 5, firstClearStep: 7 })
  near(
    chanceOf(both, [hold, skin]),
    floorChance(muOf(hold), 5, 21) * floorChance(muOf(skin), 6, 21),
    {
      within: 1e-3,
      because: 'two edges of strips',
    },
  )
})

test('invariant: the steps of a wedge share out one reading, both ends included', () => {
  const z = fc.double({ min: -1.5, max: 3.5, noNaN: true })
  const steps = fc.integer({ min: 2, max: 31 })
  fc.assert(
    fc.property(z, log10, steps, (hold, x, count) => {
      const wedge = { ...WEDGE, steps: count }
      const chance = (lastSolidStep: number): number =>
        chanceOf(wedgeLikelihood({ x, wedge, lastSolidStep }), [hold])
      const all = Array.from({ length: count + 1 }, (_, k) => chance(k))
      near(
        all.reduce((sum, part) => sum + part, 0),
        1,
        { within: 1e-8, because: 'looked up in tables good to 1e-8' },
      )
    }),
    { seed: 62 },
  )
})

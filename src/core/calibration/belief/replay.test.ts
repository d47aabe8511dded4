import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import { randomFrom } from './draws.testing.ts'
import { groundEstimate } from './estimates.ts'
import { GRADES } from './grades.ts'
import { type Kept, replay } from './replay.ts'
import type { Belief } from './state.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }

/** A few weeks of wedges and screens; what they say does not matter here. */
function weeks(seed: number): readonly Kept[] {
  const { uniform, one } = randomFrom(seed)
  return Array.from({ length: 24 }, (_, at): Kept => {
    const day = 3 + Math.floor(at / 2) * 2
    const where = {
      day,
      lampHours: 100 + 3 * day,
      emulsion: day < 14 ? 'first bucket' : 'second bucket',
      screen: `${at % 5}`,
    }
    if (uniform() < 0.3) {
      const lastSolidStep = 4 + Math.floor(3 * uniform())
      return { kind: 'wedge', doseLu: lu(57), wedge: WEDGE, lastSolidStep, ...where }
    }
    const marks = { medium: one(['soft pencil', 'drawing ink']) }
    const grade = uniform() < 0.7 ? 'good' : one(GRADES)
    return { kind: 'outcome', marks, doseLu: lu(35 + 20 * uniform()), grade, ...where }
  })
}

const beliefOf = (evidence: readonly Kept[], until?: number): Belief =>
  replay(evidence, { shop: SHOP, ...(until === undefined ? {} : { until }) }).belief

test('invariant: a reading that is struck out leaves no trace', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 1, max: 999 }), (gone, seed) => {
      const evidence = weeks(seed)
      const struck = evidence.map((each, at) => (at === gone ? { ...each, struckOut: true } : each))
      const never = evidence.filter((_, at) => at !== gone)
      expect(beliefOf(struck)).toEqual(beliefOf(never))
    }),
    { seed: 68, numRuns: 6 },
  )
})

test('invariant: the belief of any evening is the belief without what came later', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 40 }),
      fc.integer({ min: 1, max: 999 }),
      (until, seed) => {
        const evidence = weeks(seed)
        const early = evidence.filter(({ day = 0 }) => day <= until)
        expect(beliefOf(evidence, until)).toEqual(beliefOf(early))
      },
    ),
    { seed: 69, numRuns: 6 },
  )
})

test('one more day on top of a kept belief is a replay of everything, in whatever order it came', () => {
  const evidence = weeks(5)
  const last = Math.max(...evidence.map(({ day = 0 }) => day))
  const from = beliefOf(evidence, last - 1)
  const today = evidence.filter(({ day }) => day === last)
  expect(today.length).toBeGreaterThan(1)
  const onTop = replay(today.toReversed(), { shop: SHOP, from }).belief
  expect(onTop).toEqual(beliefOf(evidence.toReversed()))
})

test('a day has no hours, and what has no date comes before all that has one', () => {
  const [first] = weeks(7)
  const morning = { ...first, day: 9.25 }
  expect(beliefOf([morning]).day).toBe(9)
  const { day: _, ...undated } = first
  const { days } = replay([morning, undated, { ...first, day: 2 }], { shop: SHOP })
  expect(days.map(({ day }) => day)).toEqual([null, 2, 9])
  expect(days[0].jumpChance).toBe(0)
})

test('evidence that cannot be is refused by name; a far date and a heap of entries break nothing', () => {
  const [wedge] = weeks(9).filter(({ kind }) => kind === 'wedge')
  const refused =
    (more: object): (() => Belief) =>
    () =>
      beliefOf([{ ...wedge, ...more }])
  expect(refused({ doseLu: 0 })).toThrow('doseLu: expected 0.01 to 1000000 lu, got 0')
  expect(refused({ lastSolidStep: 22 })).toThrow(
    'lastSolidStep: expected a whole number from 0 to 21',
  )
  expect(refused({ firstClearStep: 0 })).toThrow('firstClearStep')
  expect(refused({ lampHours: -1 })).toThrow('lampHours')
  expect(refused({ day: Number.NaN })).toThrow('day')
  expect(refused({ baseDensity: 9 })).toThrow('filmBaseDensity')
  const marks = { medium: 'soft pencil' }
  expect(refused({ kind: 'outcome', marks, grade: 'lovely' })).toThrow(
    'grade: expected washed off, soft, good, filling, filled, got lovely',
  )
  expect(refused({ kind: 'outcome', marks, ticks: { ground: 'soft' } })).toThrow(
    'marks: expected open, filling, filled, got undefined',
  )
  const bands = [{ doseLu: Number.NaN, ground: 'washed off' }]
  expect(refused({ kind: 'strip', marks, bands })).toThrow('doseLu')
  const year2190 = { ...wedge, day: 80_000 }
  const far = replay([...weeks(9), year2190], { shop: SHOP })
  const { holdDoseLu } = groundEstimate(far.belief, {})
  expect(Number.isFinite(holdDoseLu.value)).toBe(true)
  expect(holdDoseLu.high / holdDoseLu.low).toBeLessThan(3)
  const heap = Array.from({ length: 400 }, (_, at) => ({ ...weeks(11)[at % 24], day: 4 }))
  const { gaussian } = beliefOf(heap)
  const size = gaussian.mean.length
  for (let at = 0; at < size; at++) expect(gaussian.cov[at * (size + 1)]).toBeGreaterThan(0)
})

test('a hundred wedges that agree leave half a step of one screen between belief and truth', () => {
  const many = Array.from({ length: 100 }, (_, at): Kept => {
    return {
      kind: 'wedge',
      doseLu: lu(57),
      wedge: WEDGE,
      lastSolidStep: 5,
      day: 1,
      screen: `${at}`,
    }
  })
  const { holdDoseLu } = groundEstimate(beliefOf(many), { day: 1 })
  const middle = Math.log10(57) - 0.05 - 0.15 * 4.5
  near(Math.log10(holdDoseLu.value), middle, { within: 0.02, because: 'between steps 5 and 6' })
  // One reading: half a step of noise, a step's even spread, its own screen; a hundred: a tenth.
  const sd = Math.sqrt(0.15 ** 2 * (0.25 + 1 / 12) + 0.05 ** 2) / 10
  const width = Math.log10(holdDoseLu.high / holdDoseLu.low) / (2 * 1.645)
  near(width / sd, 1, { within: 0.15, because: 'agreement is a little less than random' })
})

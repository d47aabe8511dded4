import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import { groundEstimate } from './estimates.ts'
import type { Evidence, WedgeEvidence } from './evidence.ts'
import { jumpChance, noDay, takenInDay } from './jump.ts'
import { type Belief, onDay, startBelief } from './state.ts'
import { taughtBy } from './update.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const wedge = (lastSolidStep: number, more: Partial<WedgeEvidence> = {}): WedgeEvidence => ({
  kind: 'wedge',
  doseLu: lu(61),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep,
  ...more,
})
const day = (belief: Belief, number: number, readings: readonly Evidence[]): Belief =>
  takenInDay(belief, { day: number, readings }).belief
/** Weeks of wedges that all say the same. */
const settled = (): Belief => {
  let belief = startBelief(SHOP)
  for (const week of [0, 1, 2, 3, 4]) {
    const readings = [0, 1].map((at) =>
      wedge(6, { lampHours: 400 + 8 * week, screen: `${week}/${at}` }),
    )
    belief = day(belief, 7 * week, readings)
  }
  return belief
}
const hold = (belief: Belief): number => Math.log10(groundEstimate(belief, {}).holdDoseLu.value)

test('oracle jump-hypothesis: a change is as likely as days have passed, and a new lamp makes it even', () => {
  const belief = settled()
  const chance = (number: number, hours?: number): number =>
    jumpChance(belief, {
      day: number,
      lampHours: new Map(hours === undefined ? [] : [['', hours]]),
    })
  expect(chance(28)).toBe(0)
  near(chance(29), 1 / 300, { within: 1e-12, because: 'one day' })
  near(chance(58), 1 - (299 / 300) ** 30, { within: 1e-12, because: 'thirty days' })
  expect(chance(29, 3)).toBe(0.5)
  near(chance(29, 433), 1 / 300, { within: 1e-12, because: 'the old lamp' })
  expect(jumpChance(startBelief(SHOP), { day: 5, lampHours: new Map() })).toBe(0)
  expect(jumpChance(belief, { day: null, lampHours: new Map() })).toBe(0)
})

test('wedges that agree speak against a jump, three that moved by three steps for it', () => {
  const belief = settled()
  const same = takenInDay(belief, { day: 35, readings: [wedge(6, { lampHours: 440 })] })
  expect(same.jumpChance).toBeLessThan(7 / 300)
  expect(Math.abs(same.jump)).toBeLessThan(0.05)
  const moved = takenInDay(belief, {
    day: 35,
    readings: [3, 3, 3].map((step, at) => wedge(step, { lampHours: 440, screen: `${at}` })),
  })
  expect(moved.jumpChance).toBeGreaterThan(0.9)
  near(moved.jump, 0.45, { within: 0.12, because: 'three steps of 0.15, drawn back by the past' })
  near(hold(moved.belief), hold(belief) + 0.45, { within: 0.12, because: 'likewise' })
})

test('without the second filter the same wedges would be followed less than half as far', () => {
  const belief = settled()
  const readings = [3, 3, 3].map((step, at) => wedge(step, { screen: `${at}` }))
  const [with_, without] = [
    day(belief, 35, readings),
    readings.reduce((one, each) => taughtBy(one, each).belief, onDay(belief, 35)),
  ]
  const followed = (after: Belief): number => (hold(after) - hold(belief)) / 0.45
  expect(followed(with_)).toBeGreaterThan(0.75)
  expect(followed(without)).toBeLessThan(0.8 * followed(with_))
})

test('invariant: the readings of one day may be handed over in any order, to the last bit', () => {
  const readings: Evidence[] = [
    wedge(5, { screen: 'a' }),
    wedge(6, { screen: 'b', firstClearStep: 8 }),
    {
      kind: 'outcome',
      marks: { medium: 'soft pencil' },
      doseLu: lu(41),
      grade: 'good',
      screen: 'a',
    },
    { kind: 'outcome', marks: { medium: 'drawing ink' }, doseLu: lu(66), grade: 'filled' },
    {
      kind: 'strip',
      marks: { medium: 'soft pencil' },
      bands: [
        { doseLu: lu(20), grade: 'washed off' },
        { doseLu: lu(34), grade: 'soft' },
        { doseLu: lu(57), ground: 'sound', marks: 'filling' },
      ],
    },
  ]
  const belief = settled()
  const expected = day(belief, 31, readings)
  fc.assert(
    fc.property(fc.shuffledSubarray(readings, { minLength: readings.length }), (shuffled) => {
      expect(day(belief, 31, shuffled)).toEqual(expected)
    }),
    { seed: 67, numRuns: 12 },
  )
})

test('each reading comes back with the chance it had', () => {
  const { readings } = takenInDay(settled(), {
    day: 29,
    readings: [wedge(6, { screen: 'a' }), wedge(14, { screen: 'b' })],
  })
  expect(readings.map(({ evidence }) => evidence.screen)).toEqual(['b', 'a'])
  const [odd, even] = readings.map(({ chance }) => chance)
  expect(odd).toBeLessThan(1e-6)
  expect(even).toBeLessThanOrEqual(1)
})

test('within a day wedges are read before strips, and strips before screens', () => {
  const marks = { medium: 'soft pencil' }
  const outcome: Evidence = { kind: 'outcome', marks, doseLu: lu(40), grade: 'good' }
  const strip: Evidence = { kind: 'strip', marks, bands: [{ doseLu: lu(40), grade: 'good' }] }
  const { readings } = takenInDay(startBelief(SHOP), {
    day: null,
    readings: [outcome, strip, wedge(5)],
  })
  expect(readings.map(({ evidence }) => evidence.kind)).toEqual(['wedge', 'strip', 'outcome'])
})

test('oracle jump-hypothesis: a lamp fitted since its unit was heard of makes a jump even, hours or none', () => {
  let belief = startBelief(SHOP)
  for (const on of [0, 7, 14]) belief = day(belief, on, [wedge(6, { unit: 'ours', day: on })])
  const chance = (unit: string, fitted: number): number =>
    jumpChance(belief, { day: 20, lampHours: new Map(), lampsFitted: new Map([[unit, fitted]]) })
  expect(chance('ours', 17)).toBe(0.5)
  near(chance('ours', 14), 1 - (1 - 1 / 300) ** 6, { within: 1e-12, because: 'read since' })
  near(chance('other', 17), 1 - (1 - 1 / 300) ** 6, { within: 1e-12, because: 'never read' })
  // a wedge one step on is believed to be the lamp's doing, and not without a new lamp
  const held = (lampFitted?: number): number => {
    const after = day(belief, 20, [wedge(7, { unit: 'ours', day: 20, lampFitted })])
    return Math.log10(groundEstimate(after, { unit: 'ours' }).holdDoseLu.value)
  }
  const before = Math.log10(groundEstimate(belief, { unit: 'ours' }).holdDoseLu.value)
  expect(before - held(17)).toBeGreaterThan(1.5 * (before - held()))
})

test('a new lamp is read once a reading under it was told, of whichever day and with hours or none', () => {
  const on = (number: number, more: Partial<WedgeEvidence> = {}): WedgeEvidence =>
    wedge(6, { unit: 'ours', day: number, ...more })
  let old = startBelief(SHOP)
  for (const number of [0, 7, 14]) old = day(old, number, [on(number, { lampHours: 400 + number })])
  const asked = { day: 20, lampHours: new Map([['ours', 1]]), lampsFitted: new Map([['ours', 17]]) }
  expect(jumpChance(old, asked)).toBe(0.5)
  for (const lampHours of [undefined, 0]) {
    const read = day(old, 19, [on(19, { lampFitted: 17, lampHours })])
    near(jumpChance(read, asked), 1 / 300, { within: 1e-12, because: 'one day since' })
  }
})

test('a day that grows by a reading anywhere, is put right or starts from another evening comes to the same bits as one taken anew', () => {
  const belief = settled()
  const patch = (doseLu: number): Evidence => {
    return { kind: 'outcome', marks: { medium: 'soft pencil' }, doseLu: lu(doseLu), grade: 'good' }
  }
  const all = [patch(45), patch(38), wedge(5, { lampHours: 440 }), patch(41), patch(60), wedge(6)]
  all.push(wedge(5, { lampFitted: 34, screen: 'b' }))
  const memory = noDay()
  const days = [...all.map((_, at) => all.slice(0, at + 1)), all.toSpliced(1, 1), all]
  for (const readings of days) {
    for (const evening of [belief, day(belief, 33, [wedge(6)])]) {
      const again = takenInDay(evening, { day: 35, readings, memory })
      expect(again).toEqual(takenInDay(evening, { day: 35, readings }))
      expect(takenInDay(evening, { day: 35, readings, memory })).toEqual(again)
    }
  }
})

test('what a day holds already is not reckoned again', () => {
  const belief = settled()
  const memory = noDay()
  const first = wedge(6)
  takenInDay(belief, { day: 35, readings: [first], memory })
  const [step] = memory.steady
  takenInDay(belief, { day: 35, readings: [first, wedge(7)], memory })
  expect(memory.steady[0]).toBe(step)
  expect(memory.steady).toHaveLength(2)
})

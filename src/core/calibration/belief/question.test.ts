import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import { outlookOn, type Question } from './question.ts'
import { type Kept, replay } from './replay.ts'
import { startBelief } from './state.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const START = startBelief(SHOP)
const PENCIL = { marks: [{ medium: 'soft pencil' }] }
const wedge: Kept = {
  kind: 'wedge',
  doseLu: lu(58),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep: 6,
  day: 10,
  unit: 'lamp',
  lampHours: 300,
}
const { belief } = replay([wedge], { shop: SHOP })
const holdOf = (question: Question) => {
  const { parts } = outlookOn(belief, question)
  return parts.map(({ share, gaussian }) => ({ share, variance: gaussian.cov[0] }))
}
const today = { ...PENCIL, unit: 'lamp', day: 10, lampHours: 300 }
const rounding = { within: 1e-12, because: 'sums' }

test('on the day of the last reading there is one belief, and nothing has wandered', () => {
  const [now, ...more] = holdOf(today)
  expect(more).toEqual([])
  expect(now.share).toBe(1)
  // A day before the last reading is asked of the same belief.
  expect(holdOf({ ...today, day: 4 })).toEqual([now])
})

test('oracle jump-hypothesis: later the hold dose has wandered, or jumped besides', () => {
  const [now] = holdOf(today)
  const [steady, jumped] = holdOf({ ...today, day: 30, lampHours: 350 })
  near(steady.variance, now.variance + 20 * 5e-5 + 50 * 2e-5, rounding)
  near(jumped.variance, steady.variance + 0.2 ** 2, rounding)
  near(jumped.share, 1 - (299 / 300) ** 20, rounding)
  near(steady.share + jumped.share, 1, rounding)
})

test('a lamp whose hours fell is a new one: it may want another dose as likely as not', () => {
  expect(holdOf({ ...today, day: 11, lampHours: 2 }).map(({ share }) => share)).toEqual([0.5, 0.5])
})

test('a question without marks, or with a number that cannot be, is refused by name', () => {
  expect(() => outlookOn(START, { marks: [] })).toThrow('marks: expected at least 1, got 0')
  expect(() => outlookOn(START, { ...PENCIL, lampHours: -2 })).toThrow('lampHours')
  const read = { density: density(0.9), densitySd: density(0) }
  expect(() => outlookOn(START, { marks: [read] })).toThrow(
    'densitySd: expected 0.005 to 2 D, got 0',
  )
})

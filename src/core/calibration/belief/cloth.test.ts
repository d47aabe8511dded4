import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import { chancesAt } from './chances.ts'
import { clothOf } from './cloth.ts'
import { outlookOn } from './question.ts'
import { startBelief } from './state.ts'

const START = startBelief({ usualBaseDensity: density(0), secondsUnits: [] })
const pencil = outlookOn(START, { marks: [{ medium: 'soft pencil' }] })

test('threads along end where a normal curve has its quantiles', () => {
  const { alongEndsLu } = clothOf(pencil, { along: 5, acrossLu: [] })
  // Fog limit 1.013 − 0.235 + 0.93; variances of ground, skin, pencil, film and eye added by hand.
  const sd = Math.sqrt(0.053 + 0.08 ** 2 + 0.2 ** 2 + 0.1 ** 2 + 0.04 ** 2)
  // scipy 1.17.1: stats.norm.ppf of 0.1, 0.3, 0.5, 0.7, 0.9
  const deviates = [
    -1.2815515655446004, -0.5244005127080409, 0, 0.5244005127080407, 1.2815515655446004,
  ]
  deviates.forEach((deviate, at) => {
    near(Math.log10(alongEndsLu[at]), 1.708 + sd * deviate, { within: 1e-5, because: 'halving' })
  })
})

test('threads across are as long as the chance that the ground holds', () => {
  const doses = [7, 11, 19, 45].map(lu)
  const { across } = clothOf(pencil, { along: 3, acrossLu: doses })
  expect(across.map(({ doseLu }) => doseLu)).toEqual(doses)
  across.forEach(({ doseLu, lengthShare }) => {
    expect(lengthShare).toBe(chancesAt(pencil, doseLu).hold)
  })
  expect(across.map(({ lengthShare }) => lengthShare)).toEqual(
    across.map(({ lengthShare }) => lengthShare).toSorted((a, b) => a - b),
  )
})

test('threads of a film that mixes media end where the first of its marks fogs over', () => {
  const mixed = outlookOn(START, { marks: [{ medium: 'soft pencil' }, { medium: 'drawing ink' }] })
  const alone = clothOf(pencil, { along: 7, acrossLu: [] }).alongEndsLu
  const both = clothOf(mixed, { along: 7, acrossLu: [] }).alongEndsLu
  both.forEach((end, at) => expect(end).toBeLessThan(alone[at] * 1.01))
  expect(() => clothOf(pencil, { along: 0, acrossLu: [] })).toThrow(
    'along: expected a whole number',
  )
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { rolledTo, usualRolls } from './rolls.ts'

test('a film that is pushed over others takes them along, and one that is pulled away does not', () => {
  const rolls = [0.4, 0.6, 0.8]
  expect(rolledTo(rolls, 0, 0.7).map((roll) => Number(roll.toFixed(6)))).toEqual([0.7, 0.73, 0.8])
  expect(rolledTo(rolls, 2, 0.95)).toEqual([0.4, 0.6, 0.95])
  expect(rolledTo(rolls, 1, -3)).toEqual([0, 0, 0.8])
})

test('invariant: rolls stay in the order of printing, on the print', () => {
  const place = fc.double({ min: -0.5, max: 1.5, noNaN: true })
  const pulls = fc.array(fc.tuple(fc.nat({ max: 4 }), place), { maxLength: 12 })
  fc.assert(
    fc.property(pulls, (all) => {
      const rolls = all.reduce((now, [at, to]) => rolledTo(now, at, to), usualRolls(5))
      expect(rolls).toEqual(rolls.toSorted((one, other) => one - other))
      expect(rolls.every((roll) => roll >= 0 && roll <= 1)).toBe(true)
    }),
    { seed: 7 },
  )
})

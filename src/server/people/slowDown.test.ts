import { expect, test } from 'vitest'
import { slowDown } from './slowDown.ts'

const at = (sec: number): Date => new Date(sec * 1000)

test('after some wrong tries one waits, twice as long each time, up to the longest', () => {
  const tries = slowDown({ longestSec: 6 })
  for (let count = 0; count < 5; count++) {
    tries.expectTurn('Lea', at(0))
    tries.wrong('Lea', at(0))
  }
  expect(() => tries.expectTurn('Lea', at(0.2))).toThrow('wait 1 seconds')
  expect(() => tries.expectTurn('Bo', at(0.2))).not.toThrow()
  expect(() => tries.expectTurn('Lea', at(1.1))).not.toThrow()
  tries.wrong('Lea', at(1.1))
  expect(() => tries.expectTurn('Lea', at(1.2))).toThrow('wait 2 seconds')
  for (let count = 0; count < 9; count++) tries.wrong('Lea', at(3))
  expect(() => tries.expectTurn('Lea', at(3))).toThrow('wait 6 seconds')
  expect(() => tries.expectTurn('Lea', at(20 * 60))).not.toThrow()
  tries.right('Lea')
  expect(() => tries.expectTurn('Lea', at(3))).not.toThrow()
})

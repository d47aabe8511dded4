import { expect, test } from 'vitest'
import { givenOut, withoutScreen } from './givenOut.ts'

const people = ['ada', 'bo', 'cy'].map((id) => ({ id }))
const owned = (owner: string | null, state: string) => ({
  state,
  owner: owner === null ? null : { id: owner },
})

// what is held here anybody can see: who has a screen in work waits for none
test('who has a coated screen or one in print waits for none; a torn or lost one is none', () => {
  const screens = [owned('ada', 'coated'), owned('bo', 'torn'), owned(null, 'clean')]
  expect(withoutScreen(people, screens).map(({ id }) => id)).toEqual(['bo', 'cy'])
})

test('where each has one, each gets another', () => {
  const screens = [owned('ada', 'coated'), owned('bo', 'in print'), owned('cy', 'exposed')]
  expect(withoutScreen(people, screens)).toEqual(people)
})

test('screens go round in order, one each', () => {
  expect(givenOut(['7', '8'], ['ada', 'bo', 'cy'])).toEqual([
    { tag: '7', owner: 'ada' },
    { tag: '8', owner: 'bo' },
  ])
})

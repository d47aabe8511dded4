import { expect, test } from 'vitest'
import { shortNames } from './shortNames.ts'

const short = (...people: readonly string[]): readonly string[] => [...shortNames(people).values()]

// what is held here anybody can see: nobody is called by another's name
test('a first name is enough, and two of one name get letters of the last', () => {
  expect(short('Tamsin Ore', 'Kofi van der Hoogeveen', 'Jonah')).toEqual([
    'Tamsin',
    'Kofi',
    'Jonah',
  ])
  expect(short('Tamsin Ore', 'Tamsin Li')).toEqual(['Tamsin O', 'Tamsin L'])
  expect(short('Bea Ormond', 'Bea Orwell', 'Bea Lind')).toEqual(['Bea Orm', 'Bea Orw', 'Bea L'])
})

test('who cannot be told apart by a first and a last name keeps the whole one', () => {
  expect(short('Ada Bo Fenn', 'Ada Cy Fenn', 'Ada')).toEqual(['Ada Bo Fenn', 'Ada Cy Fenn', 'Ada'])
})

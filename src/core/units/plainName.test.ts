import { expect, test } from 'vitest'
import { readClassList } from '../register/classList.ts'
import { plainName } from './plainName.ts'

// UAX #15, table 4 of canonical composites: U+00E9 is U+0065 U+0301, U+1E69 is s with dots below and above
const ONE_SIGN = 'Zo\u00e9  \u1e69ir'
const LETTERS_AND_MARKS = 'ZOE\u0301 s\u0307\u0323ir '

test('oracle unicode-normal-forms: a name is the same however its marks are stored', () => {
  expect(ONE_SIGN.trim() === LETTERS_AND_MARKS.trim()).toBe(false)
  expect(plainName(LETTERS_AND_MARKS)).toBe(plainName(ONE_SIGN))
  expect(plainName('Zoe Sir')).not.toBe(plainName(ONE_SIGN))
})

test('a class list names somebody once, however the marks of the name are stored', () => {
  const rows = [ONE_SIGN, LETTERS_AND_MARKS].map((name, at) => ({ line: at + 1, cells: [name] }))
  const { pupils, problems } = readClassList(rows, { className: null })
  expect(pupils.map(({ line }) => line)).toEqual([1])
  expect(problems).toEqual([{ line: 2, says: expect.stringContaining('stands in line 1 already') }])
})

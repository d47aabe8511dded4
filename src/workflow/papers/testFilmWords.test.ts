import { expect, test } from 'vitest'
import type { Run } from './lines.ts'
import { countOf, dosesSentence, stepLines } from './testFilmWords.ts'

const plain = (parts: readonly Run[]): string => parts.map(([, text]) => text).join('')

test('the sentence under the title says how many, from where to where, and how much less each', () => {
  expect(dosesSentence([62, 52, 44, 37, 31, 26], 'light units')).toBe(
    'Six bands, uncovered one after another: 62 down to 26 light units, each a sixth less.',
  )
  expect(dosesSentence([480, 240, 120], 'seconds')).toBe(
    'Three bands, uncovered one after another: 480 down to 120 seconds, each half the one before.',
  )
})

test('uneven doses are not said to be even', () => {
  expect(dosesSentence([60, 50, 20], 'light units')).toBe(
    'Three bands, uncovered one after another: 60 down to 20 light units.',
  )
})

test('the steps say which band is uncovered and what is given', () => {
  expect(stepLines([62, 52, 44, 26], 'light units').map(plain)).toEqual([
    'Cover all bands but the first. Give 10 light units.',
    'Uncover fifty-two as well. Give 8 more.',
    'Uncover forty-four. Give 18 more.',
    'Uncover twenty-six, the last. Give 26 more.',
  ])
})

test('long words and tenths are left in figures, and one is one', () => {
  expect(stepLines([361, 360, 6.5], 'seconds').map(plain)).toEqual([
    'Cover all bands but the first. Give 1 second.',
    'Uncover 360 as well. Give 353.5 more.',
    'Uncover 6.5, the last. Give 6.5 more.',
  ])
  expect(countOf(1, 'light units')).toBe('1 light unit')
  expect(countOf(1.5, 'seconds')).toBe('1.5 seconds')
})

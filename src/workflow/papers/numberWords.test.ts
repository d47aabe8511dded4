import fc from 'fast-check'
import { expect, test } from 'vitest'
import { counted, numberWords } from './numberWords.ts'

test.each([
  [3, 'three'],
  [10, 'ten'],
  [19, 'nineteen'],
  [40, 'forty'],
  [62, 'sixty-two'],
  [100, 'one hundred'],
  [360, 'three hundred and sixty'],
  [907, 'nine hundred and seven'],
  [999, 'nine hundred and ninety-nine'],
  [6.4, 'six point four'],
  [0.05, 'nought point nought five'],
  [12.75, 'twelve point seven five'],
  [1250, '1250'],
])('%f is said %s', (value, words) => {
  expect(numberWords(value)).toBe(words)
})

test('what a sum leaves behind the second decimal is not counted', () => {
  expect(counted(0.1 + 0.2)).toBe('0.3')
  expect(counted(40)).toBe('40')
  expect(numberWords(2.999999999)).toBe('three')
})

test('invariant: no two numbers below a thousand have the same words', () => {
  const said = Array.from({ length: 1000 }, (_, value) => numberWords(value))
  expect(new Set(said).size).toBe(1000)
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 999 }),
      fc.integer({ min: 1, max: 99 }),
      (whole, part) => {
        const value = whole + part / 100
        expect(said).not.toContain(numberWords(value))
        expect(Number(counted(value))).toBeCloseTo(value, 9) // 1 + 36/100 is not quite 1.36
      },
    ),
  )
})

import { expect, test } from 'vitest'
import { borneText, doseText } from './figures.ts'

test.each([
  [0.1273, 0.1, 0.15, '0.127'],
  [0.1273, 0.01, 0.25, '0.13'],
  [32.2, 28, 37, '32'],
  [32.2, 31.8, 32.6, '32.2'],
  [748, 718, 781, '748'],
])('%s between %s and %s is said as %s', (value, low, high, text) => {
  expect(borneText({ value, low, high })).toBe(text)
})

test('a dose has tenths below ten only', () => {
  expect([doseText(9.66), doseText(42.4)]).toEqual(['9.7', '42'])
})

import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { studentQuantile } from './studentQuantile.ts'

test.each([
  [1, 6.314, 12.706],
  [2, 2.92, 4.303],
  [3, 2.353, 3.182],
  [4, 2.132, 2.776],
  [5, 2.015, 2.571],
  [6, 1.943, 2.447],
  [7, 1.895, 2.365],
  [8, 1.86, 2.306],
  [9, 1.833, 2.262],
  [10, 1.812, 2.228],
  [15, 1.753, 2.131],
  [20, 1.725, 2.086],
  [30, 1.697, 2.042],
  [60, 1.671, 2.0],
  [100, 1.66, 1.984],
])(
  'oracle student-t: with %d degrees of freedom 0.95 is %d and 0.975 is %d',
  (freedom, five, two) => {
    const printed = { within: 5.1e-4, because: 'the table has three decimals' }
    near(studentQuantile(0.95, freedom), five, printed)
    near(studentQuantile(0.975, freedom), two, printed)
    near(studentQuantile(0.05, freedom), -five, printed)
  },
)

test('oracle student-t: far more digits, from an independent program', () => {
  const digits = { within: 1e-12, because: 'both are good to the last digits' }
  near(studentQuantile(0.95, 1), 6.313751514675037, digits)
  near(studentQuantile(0.95, 8), 1.8595480375308973, digits)
  near(studentQuantile(0.975, 30), 2.0422724563012378, digits)
  near(studentQuantile(0.95, 100), 1.6602343260853392, digits)
})

test('a chance of one, or half a degree of freedom, is refused by name', () => {
  expect(() => studentQuantile(1, 5)).toThrow('chance: expected')
  expect(() => studentQuantile(0.95, 2.5)).toThrow('freedom: expected a whole number')
})

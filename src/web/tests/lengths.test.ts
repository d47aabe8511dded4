import { expect, test } from 'vitest'
import { rulerText } from './lengths.ts'

test('a length is given as it stands on a ruler: whole millimetres, or sixteenths of an inch', () => {
  expect(rulerText(86.3, 'metric')).toBe('86 mm')
  expect(rulerText(25.4 * 3.375, 'imperial')).toBe('3 3/8 in')
  expect(rulerText(25.4 * 0.5, 'imperial')).toBe('1/2 in')
  expect(rulerText(25.4 * 4, 'imperial')).toBe('4 in')
  expect(rulerText(25.4 * 1.0625, 'imperial')).toBe('1 1/16 in')
})

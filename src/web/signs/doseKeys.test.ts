import { describe, expect, test } from 'vitest'
import { doseAfterKey, settled } from './doseKeys.ts'

describe('keys on a dose', () => {
  const at = { doseLu: 42, lowLu: 20, highLu: 80 }
  test.each([
    ['ArrowRight', 43],
    ['ArrowUp', 43],
    ['ArrowLeft', 41],
    ['ArrowDown', 41],
    // half a step of 0.15 D is a factor of 10^0.075 = 1.1885
    ['PageUp', 50],
    ['PageDown', 35],
    ['Home', 20],
    ['End', 80],
    ['a', null],
  ])('%s leads from 42 to %s', (key, doseLu) => {
    expect(doseAfterKey(key, at)).toBe(doseLu)
  })

  test('no key leads off the scale', () => {
    expect(doseAfterKey('PageUp', { ...at, doseLu: 79 })).toBe(80)
    expect(doseAfterKey('ArrowLeft', { ...at, doseLu: 20 })).toBe(20)
  })
})

test('doses one can set are whole from ten up, and tenths below', () => {
  const within = { lowLu: 0.5, highLu: 100 }
  expect(settled(42.4, within)).toBe(42)
  expect(settled(4.26, within)).toBe(4.3)
  expect(settled(400, within)).toBe(100)
})

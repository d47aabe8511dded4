import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { doseAfterKey, doseScale, scaleNumbers, settled } from './doseScale.ts'

const scale = doseScale({ lowLu: 20, highLu: 80 }, 300)

test('the scale is logarithmic: twice the dose is as far from any dose', () => {
  expect(scale.xPx(20)).toBe(0)
  expect(scale.xPx(40)).toBeCloseTo(150, 9)
  expect(scale.xPx(80)).toBeCloseTo(300, 9)
  expect(() => doseScale({ lowLu: 80, highLu: 20 }, 300)).toThrow('lowLu: expected')
})

test('invariant: a place on the scale is the dose that stands there', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 300, noNaN: true }), (xPx) => {
      expect(scale.xPx(scale.doseLu(xPx))).toBeCloseTo(xPx, 6)
    }),
  )
})

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

test('invariant: numbers under a scale stand apart, inside it, and clear of the dose', () => {
  const low = fc.double({ min: 0.5, max: 200, noNaN: true })
  const ratio = fc.double({ min: 1.3, max: 40, noNaN: true })
  const part = fc.double({ min: 0, max: 1, noNaN: true })
  fc.assert(
    fc.property(low, ratio, part, (lowLu, times, share) => {
      const own = doseScale({ lowLu, highLu: lowLu * times }, 350)
      const keepFreeLu = own.doseLu(share * 350)
      const numbers = scaleNumbers(own, { first: [lowLu * 1.1], keepFreeLu, apartPx: 40 })
      numbers.forEach(({ xPx, middlePx, doseLu }, at) => {
        expect(xPx).toBeGreaterThanOrEqual(-0.01)
        expect(xPx).toBeLessThanOrEqual(350.01)
        const middle = Math.min(335, Math.max(15, share * 350))
        expect(Math.abs(middlePx - middle)).toBeGreaterThanOrEqual(39.99)
        expect(Math.abs(middlePx - xPx)).toBeLessThanOrEqual(15)
        expect(own.xPx(doseLu)).toBe(xPx)
        const before = numbers[at - 1]
        if (before !== undefined) expect(middlePx - before.middlePx).toBeGreaterThanOrEqual(39.99)
      })
    }),
  )
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { doseScale, scaleNumbers } from './doseScale.ts'

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

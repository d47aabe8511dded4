import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { lu, mm } from '../units/quantity.ts'
import { doseAtLu, evennessAt, type GlassPlace, timeFactorOfDistance } from './doseField.ts'

const at = (xMm: number, yMm: number): GlassPlace => ({ xMm: mm(xMm), yMm: mm(yMm) })

test.each([
  [500, 100, 0.92456],
  [500, 200, 0.74316],
  [500, 250, 0.64],
  [500, 350, 0.45043],
  [750, 250, 0.81],
  [750, 350, 0.67432],
  [1000, 200, 0.92456],
  [1000, 350, 0.79365],
])('oracle lamp-geometry: cos4 at L %d mm, r %d mm is %d', (distance, radius, expected) => {
  const rounded = { within: 5.1e-6, because: 'the table is rounded to 5 digits' }
  near(evennessAt(at(radius, 0), { distanceMm: mm(distance) }), expected, rounded)
  near(evennessAt(at(0.6 * radius, -0.8 * radius), { distanceMm: mm(distance) }), expected, rounded)
})

test('oracle lamp-geometry: exactly 0.64 at half the distance and 0.81 at a third of it', () => {
  const exact = { within: 1e-15, because: '(4/5)^2 and (9/10)^2 but for the last bit' }
  near(evennessAt(at(310, 0), { distanceMm: mm(620) }), 0.64, exact)
  near(evennessAt(at(0, 210), { distanceMm: mm(630) }), 0.81, exact)
})

test('oracle lamp-geometry: inverse square, 1.0 m to 1.2 m is 1.44, 0.5 m to 1.0 m is 4', () => {
  const exact = { within: 1e-12, because: 'decimal fractions in binary' }
  near(timeFactorOfDistance({ fromMm: mm(1000), toMm: mm(1200) }), 1.44, exact)
  near(timeFactorOfDistance({ fromMm: mm(500), toMm: mm(1000) }), 4, exact)
})

test('oracle lamp-geometry: a lamp at 1.5 diagonals leaves a corner 1.2346 times short', () => {
  const evenness = (place: GlassPlace): number => evennessAt(place, { distanceMm: mm(1.5 * 500) })
  const corner = doseAtLu(at(150, 200), { setLu: lu(37), sensor: at(0, 0), evenness })
  near(37 / corner, 1.2346, { within: 5e-5, because: 'rounded to 4 digits' })
})

test('what cannot be is refused by name', () => {
  expect(() => evennessAt(at(3, 4), { distanceMm: mm(Number.NaN) })).toThrow(
    'distanceMm: expected 5 to 10000 mm, got NaN',
  )
  expect(() => evennessAt(at(3, Number.NaN), { distanceMm: mm(700) })).toThrow('place')
  const evenness = (): number => 1
  expect(() => doseAtLu(at(3, 4), { setLu: lu(-2), sensor: at(5, 6), evenness })).toThrow('setLu')
})

test('invariant: light falls away from the axis, and the sensor gets what was set', () => {
  const coordinate = fc.double({ min: -2000, max: 2000, noNaN: true })
  const distance = fc.double({ min: 50, max: 3000, noNaN: true }).map(mm)
  fc.assert(
    fc.property(coordinate, coordinate, distance, (x, y, distanceMm) => {
      const evenness = (place: GlassPlace): number => evennessAt(place, { distanceMm })
      expect(evenness(at(x, y))).toBeLessThanOrEqual(1)
      expect(evenness(at(1.1 * x, 1.1 * y))).toBeLessThanOrEqual(evenness(at(x, y)))
      const dose = doseAtLu(at(x, y), { setLu: lu(41), sensor: at(x, y), evenness })
      near(dose, 41, { within: 1e-12, because: 'one division and one product' })
    }),
    { seed: 11 },
  )
})

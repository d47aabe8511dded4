import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { mm, um } from '../units/quantity.ts'
import { enlargement, imageShiftUm } from './offAxis.ts'

test('oracle lamp-geometry: g 0.1 mm, r 350 mm, L 1000 mm shifts an edge by 35 um', () => {
  const place = { xMm: mm(-280), yMm: mm(210) }
  const shift = imageShiftUm(place, { gapUm: um(100), distanceMm: mm(1000) })
  near(Math.hypot(shift.xUm, shift.yUm), 35, { within: 1e-12, because: 'a 3-4-5 triangle' })
  expect(shift.xUm).toBeLessThan(0)
  expect(shift.yUm).toBeGreaterThan(0)
})

test('a film in contact shifts nothing and enlarges nothing', () => {
  const setup = { gapUm: um(0), distanceMm: mm(640) }
  expect(imageShiftUm({ xMm: mm(310), yMm: mm(120) }, setup)).toEqual({ xUm: 0, yUm: 0 })
  expect(enlargement(setup)).toBe(1)
})

test('a negative gap is refused by name', () => {
  expect(() => enlargement({ gapUm: um(-3), distanceMm: mm(640) })).toThrow(
    'gapUm: expected 0 to 6000 um, got -3',
  )
})

test('invariant: the shift is where similar triangles from the lamp put the shadow', () => {
  const coordinate = fc.double({ min: -900, max: 900, noNaN: true })
  const gap = fc.double({ min: 0, max: 400, noNaN: true }).map(um)
  const distance = fc.double({ min: 300, max: 1500, noNaN: true }).map(mm)
  fc.assert(
    fc.property(coordinate, coordinate, gap, distance, (x, y, gapUm, distanceMm) => {
      // A straight ray from (0, 0, L) through (x, y, 0) meets the emulsion at z = -g.
      const lengthen = (distanceMm * 1000 + gapUm) / (distanceMm * 1000)
      const shift = imageShiftUm({ xMm: mm(x), yMm: mm(y) }, { gapUm, distanceMm })
      const within = { within: 1e-8, because: 'um as a difference of places near 1e6 um' }
      near(shift.xUm, 1000 * x * lengthen - 1000 * x, within)
      near(shift.yUm, 1000 * y * lengthen - 1000 * y, within)
      near(enlargement({ gapUm, distanceMm }), lengthen, { within: 1e-12, because: 'rounding' })
    }),
    { seed: 12 },
  )
})

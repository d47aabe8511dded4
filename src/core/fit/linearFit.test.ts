import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { NORRIS } from './certified.testing.ts'
import { linearFit } from './linearFit.ts'

// By hand: (0,1) (1,3) (2,4) has the line 7/6 + 3/2 x; residuals -1/6 1/3 -1/6; (XᵀX)⁻¹ is
// 1/6 · [5 -3; -3 3].
test('oracle least-squares: a line through three points, worked by hand', () => {
  const rows = [0, 1, 2].map((x) => [1, x])
  const fit = linearFit(rows, [1, 3, 4])
  const rounding = { within: 1e-14, because: 'sixths in binary' }
  const found = [
    ...(fit?.coefficients ?? []),
    ...(fit?.residuals ?? []),
    ...(fit?.spread.flat() ?? []),
  ]
  const byHand = [7 / 6, 3 / 2, -1 / 6, 1 / 3, -1 / 6, 5 / 6, -1 / 2, -1 / 2, 1 / 2]
  expect(found).toHaveLength(byHand.length)
  byHand.forEach((value, at) => near(found[at], value, rounding))
  expect(fit?.spare).toBe(1)
})

test('oracle nist-strd: the certified line of the Norris set, its sds and its scatter', () => {
  const fit = linearFit(
    NORRIS.points.map(({ x }) => [1, x]),
    NORRIS.points.map(({ y }) => y),
  )
  const digits = (expected: number) => ({
    within: 1e-12 * Math.abs(expected),
    because: 'certified to 15 digits, three are left to rounding',
  })
  const squares = (fit?.residuals ?? []).reduce((sum, residual) => sum + residual ** 2, 0)
  const sd = Math.sqrt(squares / 34)
  near(sd, NORRIS.residualSd, digits(NORRIS.residualSd))
  NORRIS.coefficients.forEach((expected, at) => {
    near(fit?.coefficients[at] ?? Number.NaN, expected, digits(expected))
    const found = sd * Math.sqrt(fit?.spread[at]?.[at] ?? Number.NaN)
    near(found, NORRIS.sds[at], digits(NORRIS.sds[at]))
  })
})

test('columns that make each other up, or fewer rows than columns, are no fit', () => {
  const places = [3, 5, 8, 13]
  expect(
    linearFit(
      places.map((x) => [1, x, 2 - 7 * x]),
      places,
    ),
  ).toBeNull()
  expect(linearFit([[1, 2, 3]], [4])).toBeNull()
  expect(linearFit([], [])).toBeNull()
})

test('invariant: coefficients that made the values come back, and no residual is left', () => {
  const part = fc.double({ min: -50, max: 50, noNaN: true })
  fc.assert(
    fc.property(part, part, part, (a, b, c) => {
      const rows = [0, 0.7, 1.9, 3.1, 4.6].map((x) => [1, x, x * x])
      const values = rows.map(([one = 0, x = 0, xx = 0]) => a * one + b * x + c * xx)
      const fit = linearFit(rows, values)
      const rounding = { within: 1e-10, because: 'values up to a thousand in doubles' }
      ;[a, b, c].forEach((expected, at) => near(fit?.coefficients[at] ?? 0, expected, rounding))
      fit?.residuals.forEach((residual) => near(residual, 0, rounding))
    }),
    { seed: 21 },
  )
})

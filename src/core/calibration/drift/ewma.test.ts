import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { ewma } from './ewma.ts'

const HANDBOOK = {
  sd: 2.0539,
  values: [
    52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6,
    52.4, 53.6, 52.1,
  ],
  averages: [
    50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05,
    49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
  ],
}

test('oracle handbook-ewma: all twenty averages of the example, and no point is outside', () => {
  const { sd, values, averages } = HANDBOOK
  const points = ewma(
    values.map((value) => ({ value, sd })),
    { lambda: 0.3, limit: 3, target: 50, usualSd: sd },
  )
  points.forEach(({ value, out }, at) => {
    near(value, averages[at], { within: 0.00501, because: 'printed with two digits' })
    expect(out).toBe(false)
  })
  const last = points[19]
  near(last.high, 52.5884, { within: 6e-5, because: 'printed with four digits' })
  near(last.low, 47.4115, { within: 1e-4, because: 'the page cuts the fifth digit off' })
})

test('the first limits are those of a single value, λ times its own', () => {
  const [first] = ewma([{ value: 1, sd: 2 }], { lambda: 0.3, limit: 3, target: 0, usualSd: 2 })
  near(first.high, 0.3 * 3 * 2, { within: 1e-12, because: 'worked by hand' })
  near(first.value, 0.3, { within: 1e-12, because: 'worked by hand' })
  expect(first.out).toBe(false)
})

test('a value of twice the usual scatter counts a quarter', () => {
  const [first] = ewma([{ value: 1, sd: 4 }], { lambda: 0.3, limit: 3, target: 0, usualSd: 2 })
  near(first.value, 0.3 / 4, { within: 1e-12, because: 'worked by hand' })
})

test('invariant: a chart moved and stretched with its values says the same', () => {
  const value = fc.double({ min: -9, max: 9, noNaN: true })
  const values = fc.array(fc.record({ value, sd: fc.double({ min: 0.5, max: 3, noNaN: true }) }))
  fc.assert(
    fc.property(values, value, fc.double({ min: 0.1, max: 10, noNaN: true }), (all, by, times) => {
      const moved = all.map((each) => ({ value: by + times * each.value, sd: times * each.sd }))
      const plain = ewma(all, { target: 0, usualSd: 1 })
      ewma(moved, { target: by, usualSd: times }).forEach((point, at) => {
        near(point.value, by + times * plain[at].value, { within: 1e-9, because: 'rounding' })
        near(point.high, by + times * plain[at].high, { within: 1e-9, because: 'rounding' })
      })
    }),
    { seed: 31 },
  )
})

import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { CERTIFIED } from './certified.testing.ts'
import { curveFit } from './curveFit.ts'

const part = (expected: number, share: number, because: string) => ({
  within: share * Math.abs(expected),
  because,
})

describe.each(Object.entries(CERTIFIED))('%s', (_, set) => {
  test.each(set.starts.map((start, at) => [at + 1, start] as const))(
    'oracle nist-strd: certified parameters, sds and scatter from start %d',
    (_number, start) => {
      const fit = curveFit((b) => set.points.map(({ x, y }) => set.model(b, x) - y), start)
      const squares = fit?.squares ?? Number.NaN
      near(squares, set.squares, part(set.squares, 1e-10, 'certified to eleven digits'))
      const spare = set.points.length - set.parameters.length
      expect(fit?.spare).toBe(spare)
      const sd = Math.sqrt(squares / spare)
      near(sd, set.residualSd, part(set.residualSd, 1e-10, 'certified to eleven digits'))
      set.parameters.forEach((expected, at) => {
        const found = fit?.parameters[at] ?? Number.NaN
        near(found, expected, part(expected, 1e-7, 'slopes by differences, to nine digits'))
        const foundSd = sd * Math.sqrt(fit?.spread[at]?.[at] ?? Number.NaN)
        near(foundSd, set.sds[at], part(set.sds[at], 1e-6, 'slopes by differences, to nine digits'))
      })
    },
  )
})

test('a curve whose best parameter lies at infinity is no fit', () => {
  // Values that fall where the model can only rise: b2 runs away, the sum of squares creeps down.
  const points = [1, 2, 3, 5, 7, 10].map((x, at) => ({ x, y: [200, 201, 199, 200, 202, 198][at] }))
  const rising = ([b1 = 0, b2 = 0]: readonly number[], x: number) => b1 * (1 - Math.exp(-b2 * x))
  for (const start of [
    [150, 0.5],
    [200, 3],
    [200, 40],
  ]) {
    expect(curveFit((b) => points.map(({ x, y }) => rising(b, x) - y), start)).toBeNull()
  }
})

test('two parameters that only ever act together are no fit', () => {
  const points = [1, 2, 3, 5].map((x) => ({ x, y: 6 * x }))
  expect(curveFit(([a = 0, b = 0]) => points.map(({ x, y }) => a * b * x - y), [2, 2.5])).toBeNull()
})

test('a start where the model has no value is no fit', () => {
  expect(curveFit(([a = 0]) => [Math.log(a), 1], [-3])).toBeNull()
})

test('values without any noise are met to the last digits, and a parameter of nought is found', () => {
  const xs = [0, 1, 2, 3, 4, 5]
  const model = ([a = 0, b = 0, c = 0]: readonly number[], x: number) => a + b * Math.exp(-c * x)
  const truth = [0, 4, 0.7]
  const fit = curveFit((p) => xs.map((x) => model(p, x) - model(truth, x)), [1, 2, 1])
  const rounding = { within: 1e-9, because: 'no noise, slopes to nine digits' }
  truth.forEach((expected, at) => near(fit?.parameters[at] ?? Number.NaN, expected, rounding))
})

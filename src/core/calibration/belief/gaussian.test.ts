import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import {
  carried,
  collapsed,
  extended,
  factorOf,
  type Gaussian,
  inverseFactorOf,
  loosened,
  marginal,
  projected,
} from './gaussian.ts'

const number = fc.double({ min: -2, max: 2, noNaN: true })
/** A Gaussian over four numbers: a random factor times itself, and a little more. */
const gaussians = fc.array(number, { minLength: 20, maxLength: 20 }).map((values): Gaussian => {
  const cov = Float64Array.from({ length: 16 }, (_, at) => {
    const [i, j] = [Math.floor(at / 4), at % 4]
    let sum = i === j ? 0.3 : 0
    for (let k = 0; k < 4; k++) sum += values[4 * i + k] * values[4 * j + k]
    return sum
  })
  return { mean: Float64Array.from(values.slice(16)), cov }
})
const ROWS = [
  { at: [0, 1], times: [1, 1], offset: 0.7 },
  { at: [2, 0, 3], times: [-1, 2, 0.5], offset: -0.2 },
]
const rounding = { within: 1e-9, because: 'rounding' }

test('invariant: news of one Gaussian reading is carried as Kalman’s formulas carry it', () => {
  fc.assert(
    fc.property(gaussians, number, (gaussian, read) => {
      const [row] = ROWS
      const noise = 0.37
      const before = projected(gaussian, [row])
      const spread = before.cov[0]
      const gain = spread / (spread + noise)
      const after = {
        mean: Float64Array.of(before.mean[0] + gain * (read - before.mean[0])),
        cov: Float64Array.of(spread * (1 - gain)),
      }
      const { mean, cov } = carried(gaussian, [row], { before, after })
      // x' = x + P h (y − h x)/(h P h + r), P' = P − P h h P/(h P h + r), written out.
      const side = [0, 1, 2, 3].map((i) => gaussian.cov[4 * i] + gaussian.cov[4 * i + 1])
      const innovation = read - gaussian.mean[0] - gaussian.mean[1] - 0.7
      for (let i = 0; i < 4; i++) {
        near(mean[i], gaussian.mean[i] + (side[i] * innovation) / (spread + noise), rounding)
        for (let j = 0; j < 4; j++) {
          const expected = gaussian.cov[4 * i + j] - (side[i] * side[j]) / (spread + noise)
          near(cov[4 * i + j], expected, rounding)
          expect(cov[4 * i + j]).toBe(cov[4 * j + i])
        }
      }
    }),
    { seed: 63 },
  )
})

test('invariant: what is carried comes out again where it was put in', () => {
  fc.assert(
    fc.property(gaussians, number, (gaussian, shift) => {
      const before = projected(gaussian, ROWS)
      const after = {
        mean: before.mean.map((value, i) => value + shift * (1 - 0.4 * i)),
        cov: before.cov.map((value) => 0.6 * value),
      }
      const found = projected(carried(gaussian, ROWS, { before, after }), ROWS)
      const close = { within: 1e-7, because: 'an inverse of two rows that may nearly agree' }
      found.mean.forEach((value, i) => near(value, after.mean[i], close))
      found.cov.forEach((value, i) => near(value, after.cov[i], close))
    }),
    { seed: 64 },
  )
})

test('a mixture of two keeps the mean and spread that its parts have together', () => {
  const part = (mean: number, variance: number): Gaussian => ({
    mean: Float64Array.of(mean, 5),
    cov: Float64Array.of(variance, 0.1, 0.1, 2),
  })
  const { mean, cov } = collapsed([
    { share: 0.25, gaussian: part(1, 0.4) },
    { share: 0.75, gaussian: part(3, 0.8) },
  ])
  // By hand: mean 2.5; variance 0.25 (0.4 + 2.25) + 0.75 (0.8 + 0.25) = 1.45.
  expect([...mean]).toEqual([2.5, 5])
  near(cov[0], 1.45, rounding)
  near(cov[3], 2, rounding)
  near(cov[1], 0.1, rounding)
})

test('numbers are appended at their priors, loosened one by one, and left out again', () => {
  const gaussian = { mean: Float64Array.of(1, 2), cov: Float64Array.of(3, 0.5, 0.5, 4) }
  const wider = extended(gaussian, [{ mean: 7, sd: 0.2 }])
  expect([...wider.mean]).toEqual([1, 2, 7])
  expect([...wider.cov]).toEqual([3, 0.5, 0, 0.5, 4, 0, 0, 0, 0.2 ** 2])
  const looser = loosened(wider, [{ at: 2, variance: 1 }])
  expect(looser.cov[8]).toBe(1 + 0.2 ** 2)
  expect(wider.cov[8]).toBe(0.2 ** 2)
  expect(marginal(looser, [1, 0])).toEqual({
    mean: Float64Array.of(2, 1),
    cov: Float64Array.of(4, 0.5, 0.5, 3),
  })
})

test('invariant: a factor times itself is the matrix, and its inverse undoes it', () => {
  fc.assert(
    fc.property(gaussians, ({ cov }) => {
      const factor = factorOf(cov, 4)
      const inverse = inverseFactorOf(factor, 4)
      for (let i = 0; i < 4; i++) {
        for (let j = 0; j < 4; j++) {
          const at = [0, 1, 2, 3]
          const square = at.reduce((sum, k) => sum + factor[4 * i + k] * factor[4 * j + k], 0)
          near(square, cov[4 * i + j], rounding)
          const one = at.reduce((sum, k) => sum + inverse[4 * i + k] * factor[4 * k + j], 0)
          near(one, i === j ? 1 : 0, rounding)
        }
      }
    }),
    { seed: 65 },
  )
})

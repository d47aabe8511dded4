import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { leftOpenByStrip } from './toldByStrip.ts'

/** Hold and sound dose known and far below, so that only the fog limit is in question. */
const fogOf = (sd: number) => ({
  mean: Float64Array.of(-20, -19, 1.7),
  cov: Float64Array.of(1e-6, 0, 0, 0, 1e-6, 0, 0, 0, sd ** 2),
})

test('oracle normal-integral: one band parts a normal curve in halves of variance 1 − 2/π each', () => {
  const sd = 40
  const left = leftOpenByStrip(fogOf(sd), [1.7])
  near(left[8] / sd ** 2, 1 - 2 / Math.PI, {
    within: 0.01,
    because: 'an eye of 0.04 and 0.10 of filling are nothing beside 40',
  })
})

test('oracle normal-integral: seven bands leave what a cut normal curve keeps between its cuts', () => {
  const bands = Array.from({ length: 7 }, (_, at) => 1.7 + (at - 3) * Math.log10(1.25))
  const left = leftOpenByStrip(fogOf(0.2), bands)
  // Of fog limit and eye together the cuts are the bands and 0.10 under each; what stays between
  // two cuts, and what the eye hides, summed with scipy's norm.pdf and norm.cdf.
  near(Math.sqrt(left[8]), 0.0521023, { within: 0.001, because: '2048 points' })
})

test('bands far closer than the scatter leave an even spread between two bands, and the eye', () => {
  const [sd, step] = [0.6, 0.3]
  const bands = Array.from({ length: 31 }, (_, at) => 1.7 + step * (at - 15))
  const left = leftOpenByStrip(fogOf(sd), bands)
  // Filling for 0.10 above the limit parts each space in 0.1 and 0.2.
  const spread = (0.1 ** 3 + 0.2 ** 3) / 0.3 / 12
  near(Math.sqrt(left[8]), Math.sqrt(spread + 0.04 ** 2), {
    within: 0.004,
    because: 'the eye’s two ends are one draw here, and cells are not quite even',
  })
})

test('bands that no shop’s limits come near leave everything as it was', () => {
  const cov = Float64Array.of(0.04, 0.03, 0.02, 0.03, 0.06, 0.02, 0.02, 0.02, 0.09)
  const left = leftOpenByStrip({ mean: Float64Array.of(1, 1.5, 2), cov }, [-5, -4.9, -4.8])
  left.forEach((value, at) => {
    near(value, cov[at], { within: 0.0015, because: '2048 points stand for a normal curve' })
  })
  expect(left[1]).toBeCloseTo(left[3], 12)
})

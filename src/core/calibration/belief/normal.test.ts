import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import {
  logShareBetween,
  normalQuantile,
  normalShare,
  quickNormalQuantile,
  quickNormalShare,
} from './normal.ts'

// scipy 1.17.1: scipy.stats.norm.cdf
const SHARES = [
  [-37, 5.7255712225239266e-300],
  [-12, 1.776482112077653e-33],
  [-8, 6.22096057427174e-16],
  [-5.3, 5.790134039964578e-8],
  [-3, 0.0013498980316300933],
  [-1.96, 0.024997895148220435],
  [-1, 0.15865525393145707],
  [-0.3, 0.3820885778110474],
  [0, 0.5],
  [0.7, 0.758036347776927],
  [2.4, 0.9918024640754038],
  [4, 0.9999683287581669],
] as const

test.each(SHARES)('oracle normal-integral: below %d lies %d', (x, expected) => {
  near(normalShare(x) / expected, 1, { within: 2e-13, because: 'sums of 30 terms' })
  near(quickNormalShare(x), expected, { within: 5e-7, because: 'a table of 256 a unit' })
})

test('the table reaches from nothing to all', () => {
  expect([-9, 9, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY].map(quickNormalShare)).toEqual(
    [0, 1, 0, 1],
  )
})

// scipy 1.17.1: scipy.stats.norm.ppf
const QUANTILES = [
  [1e-12, -7.034483825301131],
  [1e-5, -4.264890793922825],
  [0.005, -2.575829303548901],
  [0.05, -1.6448536269514729],
  [0.31, -0.4958503473474533],
  [0.77, 0.7388468491852137],
  [0.999, 3.090232306167813],
] as const

test.each(QUANTILES)('oracle abramowitz-stegun: a share of %d lies below %d', (part, expected) => {
  near(normalQuantile(part), expected, { within: 1e-11, because: 'two steps of third order' })
  near(quickNormalQuantile(part), expected, { within: 4.5e-4, because: 'as the handbook says' })
})

// mpmath 1.3.0: log(ncdf(high) - ncdf(low)) in 60 digits
const BETWEEN = [
  [-30, -29, -424.78741990973],
  [-9, -8.5, -39.209373391744],
  [-1, 2, -0.200166294324463],
  [6, 7, -20.7380670032825],
  [20, 22, -203.917155371097],
  [Number.NEGATIVE_INFINITY, -11, -63.8249340944237],
] as const

test.each(BETWEEN)('oracle normal-integral: the log of the share from %d to %d is %d', (...row) => {
  const [low, high, expected] = row
  near(logShareBetween(low, high), expected, { within: 1e-9, because: 'a ratio of two tails' })
})

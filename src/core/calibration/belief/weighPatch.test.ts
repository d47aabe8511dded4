import { describe, expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { factorOf, type Gaussian } from './gaussian.ts'
import { GRADES, type Grading, gradingParts } from './grades.ts'
import { gradingChance } from './likelihood.ts'
import { weighPatch } from './weighPatch.ts'

const LAPSE = 0.05
const NEW_SHOP: Gaussian = {
  mean: Float64Array.of(1.013, 1.463, 1.708),
  cov: Float64Array.of(0.053, 0.053, 0.053, 0.053, 0.0755, 0.053, 0.053, 0.053, 0.1094),
}
const OLD_SHOP: Gaussian = {
  mean: Float64Array.of(1.07, 1.46, 1.76),
  cov: Float64Array.of(0.004, 0.004, 0.004, 0.004, 0.009, 0.0045, 0.004, 0.0045, 0.019),
}
const GRADINGS: readonly (readonly [string, Grading])[] = [
  ...GRADES.map((grade) => [grade, { grade }] as const),
  ['soft and filled', { ground: 'soft', marks: 'filled' }],
  ['sound and filling', { ground: 'sound', marks: 'filling' }],
]

/** Moments by plain sums over 101³ points of the prior, a tenth of an sd apart, ±5 sd. */
function bySums(
  prior: Gaussian,
  { grading, x }: Readonly<{ grading: Grading; x: number }>,
): Gaussian & Readonly<{ logChance: number }> {
  const factor = factorOf(prior.cov, 3)
  const slip = LAPSE / ('grade' in grading ? 5 : 7)
  const parts = gradingParts(grading)
  const axis = Array.from({ length: 101 }, (_, at) => (at - 50) / 10)
  const dense = axis.map((u) => Math.exp(-0.5 * u * u))
  let [total, all] = [0, 0]
  const mean = new Float64Array(3)
  const cov = new Float64Array(9)
  const z = new Float64Array(3)
  axis.forEach((a, i) => {
    axis.forEach((b, j) => {
      axis.forEach((c, k) => {
        z[0] = factor[0] * a
        z[1] = factor[3] * a + factor[4] * b
        z[2] = factor[6] * a + factor[7] * b + factor[8] * c
        const at = {
          hold: prior.mean[0] + z[0],
          sound: prior.mean[1] + z[1],
          fog: prior.mean[2] + z[2],
        }
        const own = dense[i] * dense[j] * dense[k]
        const weight = own * ((1 - LAPSE) * gradingChance(parts, { x, at }) + slip)
        all += own
        total += weight
        for (let m = 0; m < 3; m++) {
          mean[m] += weight * z[m]
          for (let n = 0; n < 3; n++) cov[3 * m + n] += weight * z[m] * z[n]
        }
      })
    })
  })
  for (let m = 0; m < 3; m++) mean[m] /= total
  for (let m = 0; m < 9; m++) cov[m] = cov[m] / total - mean[Math.floor(m / 3)] * mean[m % 3]
  return { mean: mean.map((off, m) => prior.mean[m] + off), cov, logChance: Math.log(total / all) }
}

describe.each([
  ['a new shop', NEW_SHOP, 1.62],
  ['a shop that knows itself', OLD_SHOP, 1.66],
] as const)('oracle moment-matching: one screen in %s, by plain sums', (_, prior, x) => {
  test.each(GRADINGS)('%s', (_, grading) => {
    const expected = bySums(prior, { grading, x })
    const { after, logChance } = weighPatch(prior, { x, grading, lapse: LAPSE })
    near(logChance, expected.logChance, { within: 3e-3, because: 'cut at 4.2 sd' })
    const sds = [0, 4, 8].map((at) => Math.sqrt(expected.cov[at]))
    const grid = {
      within: 4e-3,
      because: 'in sd: edges a tenth of an sd wide on a grid of a third',
    }
    after.mean.forEach((mean, m) => near((mean - expected.mean[m]) / sds[m], 0, grid))
    after.cov.forEach((value, at) => {
      const scale = sds[Math.floor(at / 3)] * sds[at % 3]
      near((value - expected.cov[at]) / scale, 0, { ...grid, within: 8e-3 })
    })
  })
})

test('a patch that nobody could have graded so was a slip: nothing is learned', () => {
  const { after, logChance } = weighPatch(OLD_SHOP, {
    x: -2,
    grading: { grade: 'good' },
    lapse: LAPSE,
  })
  expect(after).toEqual(OLD_SHOP)
  near(logChance, Math.log(0.01), {
    within: 1e-12,
    because: 'one of five words, one time in twenty',
  })
})

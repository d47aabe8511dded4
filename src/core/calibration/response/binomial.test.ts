import { describe, expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { binomialFit } from './binomial.ts'
import { LINKS } from './links.ts'

/** Beetles after five hours of gas: log10 of its strength in mg/l, how many there were and died. */
const BEETLES = [
  { x: 1.6907, trials: 59, came: 6 },
  { x: 1.7242, trials: 60, came: 13 },
  { x: 1.7552, trials: 62, came: 18 },
  { x: 1.7842, trials: 56, came: 28 },
  { x: 1.8113, trials: 63, came: 52 },
  { x: 1.8369, trials: 59, came: 53 },
  { x: 1.861, trials: 62, came: 61 },
  { x: 1.8839, trials: 60, came: 60 },
] as const

const BLISS = [
  {
    link: 'logit',
    intercept: -60.71745456,
    slope: 34.27032573,
    se: [5.180711, 2.91214],
    deviance: 11.232231,
    half: [1.771721, 0.003858],
    killed: [3.4575, 9.8417, 22.4514, 33.8976, 50.0958, 53.2909, 59.2222, 58.743],
    both: -15.082151,
  },
  {
    link: 'probit',
    intercept: -34.9352589,
    slope: 19.72793421,
    se: [2.647918, 1.487235],
    deviance: 10.119758,
    half: [1.7708524, 0.003803],
    killed: [3.3578, 10.7216, 23.4819, 33.8155, 49.6156, 53.3189, 59.6647, 59.228],
    both: -3.936544,
  },
  {
    link: 'complementary log-log',
    intercept: -39.57231061,
    slope: 22.04116982,
    se: [3.240273, 1.799355],
    deviance: 3.446439,
    half: [1.778753, 0.004007],
    killed: [5.5894, 11.2807, 20.9542, 30.3694, 47.7764, 54.1427, 61.1133, 59.9472],
    both: -5.828651,
  },
] as const

describe.each(BLISS)('$link', ({ link, intercept, slope, se, deviance, half, killed, both }) => {
  const fit = binomialFit(BEETLES, { link })
  if (fit === null) throw new Error('the beetles have a curve')

  test('oracle bliss1935: coefficients, standard errors, deviance, the dose that kills half', () => {
    const printed = 'printed with so many digits'
    near(fit.intercept, intercept, { within: 6e-7, because: printed })
    near(fit.slope, slope, { within: 6e-7, because: printed })
    near(Math.sqrt(fit.cov.intercept), se[0], { within: 6e-7, because: printed })
    near(Math.sqrt(fit.cov.slope), se[1], { within: 6e-7, because: printed })
    near(fit.cov.both, both, { within: 6e-7, because: printed })
    near(fit.deviance, deviance, { within: 6e-7, because: printed })
    near(fit.half.x, half[0], { within: 6e-8, because: printed })
    near(fit.half.sd, half[1], { within: 6e-7, because: printed })
  })

  test('oracle bliss1935: how many it expects to be killed at each dose', () => {
    BEETLES.forEach(({ x, trials }, at) => {
      const { share } = LINKS[link].of(fit.intercept + fit.slope * x)
      near(trials * share, killed[at], { within: 5.1e-5, because: 'printed with four digits' })
    })
  })
})

test('there is no curve where a dose parts the two, where all came, or at one dose alone', () => {
  const at = (x: number, trials: number, came: number) => ({ x, trials, came })
  for (const link of ['logit', 'probit', 'complementary log-log'] as const) {
    expect(binomialFit([at(1, 3, 0), at(2, 4, 4)], { link })).toBeNull()
    expect(binomialFit([at(1, 3, 3), at(2, 4, 4)], { link })).toBeNull()
    expect(binomialFit([at(1.5, 4, 2)], { link })).toBeNull()
    expect(binomialFit([], { link })).toBeNull()
  }
})

import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density } from '../../units/quantity.ts'
import { randomFrom } from './draws.testing.ts'
import { carried, factorOf, type Gaussian, projected } from './gaussian.ts'
import { GRADES, gradingParts } from './grades.ts'
import { bandsLikelihood, gradingChance, LAPSE } from './likelihood.ts'
import { PRIORS, WALK } from './priors.ts'
import { type Belief, onDay, SHARED, startBelief } from './state.ts'
import { weigh } from './weigh.ts'

// Annual flow of the Nile at Aswan, 1871 to 1970.
const NILE = `
1120 1160 963 1210 1160 1160 813 1230 1370 1140 995 935 1110 994 1020 960 1180 799 958 1140
1100 1210 1150 1250 1260 1220 1030 1100 774 840 874 694 940 833 701 916 692 1020 1050 969
831 726 456 824 702 1120 1100 832 764 821 768 845 864 862 698 845 744 796 1040 759
781 865 845 944 984 897 822 1010 771 676 649 846 812 742 801 1040 860 874 848 890
744 749 838 1050 918 986 797 923 975 815 1020 906 901 1170 912 746 919 718 714 740`
  .trim()
  .split(/\s+/)
  .map(Number)

// After year, level predicted for the next one, its variance.
const PREDICTED = [
  [2, 1140.9278, 9368.836],
  [3, 1072.7985, 7250.57],
  [10, 1162.9026, 5520.384],
  [50, 849.0706, 5501.258],
  [100, 798.3703, 5501.258],
] as const

test('oracle nile-level: the walk, the grid and the regression are the local level filter', () => {
  expect(NILE.reduce((sum, flow) => sum + flow, 0)).toBe(91935)
  // A thousand of the series' units is one of ours; a year is as many days as walk 1469.1.
  const [unit, observation, level] = [1000, 15099, 1469.1]
  const yearDays = level / unit ** 2 / WALK.perDay
  const start = startBelief({ usualBaseDensity: density(0), secondsUnits: [] })
  const cov = start.gaussian.cov.slice()
  cov[0] = (observation + level) / unit ** 2
  let belief: Belief = {
    ...start,
    gaussian: { mean: Float64Array.of(NILE[0] / unit, 0.2, 0.4), cov },
    day: 0,
  }
  const row = [{ at: [SHARED.hold], times: [1], offset: 0 }]
  NILE.slice(1).forEach((flow, at) => {
    const before = projected(belief.gaussian, row)
    const log = ([value]: Float64Array): number =>
      (-0.5 * (flow / unit - value) ** 2) / (observation / unit ** 2)
    const { after } = weigh(before, { log, floor: 0 })
    const day = (at + 1) * yearDays
    belief = onDay({ ...belief, gaussian: carried(belief.gaussian, row, { before, after }) }, day)
    const expected = PREDICTED.find(([year]) => year === at + 2)
    if (expected === undefined) return
    const { mean, cov } = belief.gaussian
    near(mean[0] * unit, expected[1], { within: 0.2, because: 'a grid cut off at 4.2 sd' })
    near((cov[0] * unit ** 2) / expected[2], 1, { within: 1.5e-3, because: 'cut off at 4.2 sd' })
  })
})

const NOISES = [
  { name: 'a plain', noise: [0.01, 0.03, 0.02], times: 1 },
  { name: 'a sharp', noise: [0.0009, 0.0016, 0.0004], times: 20 },
] as const

test.each(NOISES)(
  '$name Gaussian reading of three numbers is a product of Gaussians',
  ({ noise, times }) => {
    const prior: Gaussian = {
      mean: Float64Array.of(1, 1.5, 1.7),
      cov: Float64Array.of(0.05, 0.04, 0.03, 0.04, 0.07, 0.035, 0.03, 0.035, 0.09).map(
        (value) => value * times,
      ),
    }
    const read = [1.2, 1.4, 1.9]
    const log = (z: Float64Array): number =>
      read.reduce((sum, y, i) => sum - (0.5 * (y - z[i]) ** 2) / noise[i], 0)
    const { after, logChance } = weigh(prior, { log, floor: 0 })
    let step = prior
    let chance = 0
    read.forEach((y, i) => {
      const spread = step.cov[4 * i]
      const gain = spread / (spread + noise[i])
      const off = y - step.mean[i]
      chance +=
        0.5 * Math.log(noise[i] / (spread + noise[i])) - (0.5 * off ** 2) / (spread + noise[i])
      const row = [{ at: [i], times: [1], offset: 0 }]
      const mean = Float64Array.of(step.mean[i] + gain * off)
      const before = projected(step, row)
      step = carried(step, row, {
        before,
        after: { mean, cov: Float64Array.of(spread * (1 - gain)) },
      })
    })
    const sharp = { within: 1e-4, because: 'a grid cut off at 4.2 sd' }
    after.mean.forEach((value, i) => near(value, step.mean[i], sharp))
    after.cov.forEach((value, i) => near(value, step.cov[i], sharp))
    near(logChance, chance, { within: 2e-3, because: 'a grid cut off at 4.2 sd' })
  },
)

test('oracle moment-matching: graded strips and screens against a plain simulation of the prior', () => {
  const { normal, uniform } = randomFrom(72)
  for (let turn = 0; turn < 8; turn++) {
    const kind = turn % 2 === 0 ? 'outcome' : 'strip'
    const variance = PRIORS.unit.sd ** 2 * (0.3 + turn / 3)
    const prior: Gaussian = {
      mean: Float64Array.of(1.013, 1.463, 1.708),
      cov: new Float64Array(9).fill(variance),
    }
    prior.cov[4] += 0.0225 * (0.2 + 0.1 * turn)
    prior.cov[8] += 0.04 * (1 - 0.1 * turn)
    const factor = factorOf(prior.cov, 3)
    const draw = (): Float64Array => {
      const [a, b, c] = [normal(), normal(), normal()]
      return prior.mean.map(
        (mean, i) => mean + factor[3 * i] * a + factor[3 * i + 1] * b + factor[3 * i + 2] * c,
      )
    }
    const truth = draw()
    const at = { hold: truth[0], sound: truth[1], fog: truth[2] }
    const xs = kind === 'strip' ? [1.2, 1.35, 1.5, 1.65, 1.8, 1.95, 2.1] : [1.55 + 0.05 * turn]
    const bands = xs.map((x) => {
      let left = uniform()
      const grade = GRADES.find((each) => {
        left -= gradingChance(gradingParts({ grade: each }), { x, at })
        return left < 0
      })
      return { x, grading: { grade: grade ?? 'good' } }
    })
    const likelihood = bandsLikelihood(bands, { lapse: LAPSE[kind] })
    const { after, logChance } = weigh(prior, likelihood)

    const draws = 300_000
    let total = 0
    const mean = [0, 0, 0]
    const square = [0, 0, 0]
    for (let n = 0; n < draws; n++) {
      const z = draw()
      const weight = Math.exp(likelihood.log(z)) + likelihood.floor
      total += weight
      for (let i = 0; i < 3; i++) {
        mean[i] += weight * (z[i] - truth[i])
        square[i] += weight * (z[i] - truth[i]) ** 2
      }
    }
    near(logChance, Math.log(total / draws), { within: 0.03, because: 'noise of the simulation' })
    for (let i = 0; i < 3; i++) {
      const middle = mean[i] / total
      const sd = Math.sqrt(square[i] / total - middle ** 2)
      near((after.mean[i] - truth[i] - middle) / sd, 0, {
        within: 0.06,
        because: 'in sd: far slips of a strip lie outside the grid; noise of the simulation',
      })
      near(Math.sqrt(after.cov[4 * i]) / sd, 1, {
        within: kind === 'strip' ? 0.17 : 0.02,
        because: 'far slips of a strip lie outside the grid, seen up to 16 % of sd in 60 strips',
      })
    }
  }
})

test('a reading that fits nowhere is a slip of the pen, or a broken likelihood', () => {
  const prior = { mean: Float64Array.of(1), cov: Float64Array.of(0.04) }
  const nowhere = (): number => Number.NEGATIVE_INFINITY
  expect(weigh(prior, { log: nowhere, floor: 0.01 })).toEqual({
    after: prior,
    logChance: Math.log(0.01),
    passes: 1,
  })
  expect(() => weigh(prior, { log: nowhere, floor: 0 })).toThrow('likelihood: expected above 0')
  expect(() => weigh(prior, { log: () => Number.NaN, floor: 0 })).toThrow('no number')
})

import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { binomialFit } from './binomial.ts'
import { ordinalFit } from './ordinal.ts'

/** Coal miners by years at the face: lungs normal, mild, severe. */
const MINERS = [
  [5.8, 98, 0, 0],
  [15, 51, 2, 1],
  [21.5, 34, 6, 3],
  [27.5, 35, 5, 8],
  [33.5, 32, 10, 9],
  [39.5, 23, 7, 8],
  [46, 12, 6, 10],
  [51.5, 4, 2, 5],
].map(([years, ...counts]) => ({ x: Math.log(years), counts }))

test('oracle ashford1959: cuts, slope, standard errors and deviance of the miners', () => {
  const fit = ordinalFit(MINERS)
  if (fit === null) throw new Error('the miners have a curve')
  const printed = 'printed with five digits'
  near(fit.cuts[0], -9.67609, { within: 6e-6, because: printed })
  near(fit.cuts[1], -10.58173, { within: 6e-6, because: printed })
  near(fit.slope, 2.59681, { within: 6e-6, because: printed })
  near(fit.deviance, 5.02683, { within: 6e-6, because: printed })
  // Those printed come from the curvature at the greatest place: 1.3233, 1.3437, 0.3810.
  const expected = [1.32407297, 1.34543443, 0.38110097]
  fit.se.forEach((se, at) => {
    near(se, expected[at], { within: 1e-6, because: 'expected information, computed apart' })
  })
})

test('with two grades it is the logit curve, worked out in another way', () => {
  const two = MINERS.map(({ x, counts: [normal, mild, severe] }) => ({
    x,
    counts: [normal, mild + severe],
  }))
  const fit = ordinalFit(two)
  const trials = two.map(({ x, counts: [no, yes] }) => ({ x, trials: no + yes, came: yes }))
  const logit = binomialFit(trials, { link: 'logit' })
  if (fit === null || logit === null) throw new Error('both have a curve')
  near(fit.slope, logit.slope, { within: 1e-7, because: 'both settle to nine digits' })
  near(fit.halves[0].x, logit.half.x, { within: 1e-7, because: 'likewise' })
  near(fit.halves[0].sd, logit.half.sd, { within: 1e-7, because: 'likewise' })
})

test('there is no curve where a dose parts all grades', () => {
  const at = (x: number, ...counts: number[]) => ({ x, counts })
  expect(ordinalFit([at(1, 3, 0, 0), at(2, 0, 4, 0), at(3, 0, 0, 2)])).toBeNull()
  expect(ordinalFit([at(1, 3, 0), at(2, 2, 0)])).toBeNull()
  expect(ordinalFit([])).toBeNull()
})

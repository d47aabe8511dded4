import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import type { Cause } from './causes.ts'
import { weighCauses, withCause } from './weighCauses.ts'

const cause = (own: Partial<Cause>): Cause => ({
  kind: 'lamp',
  name: '',
  day: 0,
  chance: 0.05,
  touches: [false, true, true],
  sd: 0.2,
  each: false,
  ...own,
})
const LAMP = cause({})
const SLIP = cause({
  kind: 'reading mistake',
  chance: 0.02,
  sd: 0.5,
  touches: [false, false, true],
})
const UNEVEN = cause({ kind: 'drying', chance: 0.01, sd: 0.15, each: true })
const COV = Float64Array.of(0.012, 0.002, 0.002, 0.002, 0.012, 0.002, 0.002, 0.002, 0.02)
const residuals = [0.01, 0.16, 0.2]

test('oracle bayes-linear: each cause by its whole normal density, and its shift by regression', () => {
  const { nothing, weighed } = weighCauses([LAMP, SLIP, UNEVEN], { cov: COV, residuals })
  const chanceOf = (own: Cause) => weighed.find((each) => each.cause === own)?.chance ?? 0
  const because = 'rounding; scipy’s densities of the same three readings, printed to 8 digits'
  near(nothing, 0.89052174, { within: 1e-8, because })
  near(chanceOf(LAMP), 0.0888602, { within: 1e-8, because })
  near(chanceOf(SLIP), 0.01020115, { within: 1e-8, because })
  near(chanceOf(UNEVEN), 0.01041691, { within: 1e-8, because })
  near(weighed[0].shift, 0.14356435643564358, { within: 1e-12, because })
  near(weighed[0].plainShift, 0.17261904761904764, { within: 1e-12, because })
})

test('a cause that is told is no more in what is left: its readings may lie anywhere together', () => {
  const cov = withCause(COV, LAMP)
  expect([...cov]).toEqual(
    [0.012, 0.002, 0.002, 0.002, 0.052, 0.042, 0.002, 0.042, 0.06].map(near9),
  )
  expect([...withCause(COV, UNEVEN)].map((value) => Number(value.toFixed(4)))).toEqual([
    0.012, 0.002, 0.002, 0.002, 0.0345, 0.002, 0.002, 0.002, 0.0425,
  ])
})

const near9 = (value: number): unknown => expect.closeTo(value, 9)

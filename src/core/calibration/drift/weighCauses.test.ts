import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import type { Cause } from './causes.ts'
import { settledAfter, settledOf, weighCauses } from './weighCauses.ts'

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
  const { nothing, weighed } = weighCauses([LAMP, SLIP, UNEVEN], settledOf(COV, residuals))
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
  const settled = settledOf(COV, residuals)
  const loosened = [
    [LAMP, [0.012, 0.002, 0.002, 0.002, 0.052, 0.042, 0.002, 0.042, 0.06]],
    [UNEVEN, [0.012, 0.002, 0.002, 0.002, 0.0345, 0.002, 0.002, 0.002, 0.0425]],
  ] as const
  for (const [cause, cov] of loosened) {
    const { precision, pulls } = settledAfter(settled, cause)
    // worked by hand: the covariance with the cause's variance in it; its inverse is what is known
    expect(times([...precision], cov)).toEqual([1, 0, 0, 0, 1, 0, 0, 0, 1].map(near9))
    const whole = settledOf(Float64Array.from(cov), residuals)
    expect([...pulls]).toEqual([...whole.pulls].map(near9))
  }
})

function times(a: readonly number[], b: readonly number[]): readonly number[] {
  return a.map((_, at) => {
    const [i, j] = [Math.floor(at / 3), at % 3]
    return [0, 1, 2].reduce((sum, k) => sum + (a[3 * i + k] ?? 0) * (b[3 * k + j] ?? 0), 0)
  })
}

test('uneven drying from one day or the next, and of a day by itself, each by its whole normal density', () => {
  const size = 7
  const cov = Float64Array.from({ length: size ** 2 }, (_, at) => {
    const [i, j] = [Math.floor(at / size), at % size]
    return 0.004 + 0.0003 * Math.min(i, j) + (i === j ? 0.008 + 0.001 * (i % 3) : 0)
  })
  const values = [0.05, -0.1, 0.2, 0.02, -0.3, 0.15, -0.22]
  const from = (first: number, last = size): Cause =>
    cause({
      kind: 'drying',
      each: true,
      sd: 0.15,
      chance: 0.01,
      touches: values.map((_, at) => at >= first && at < last),
    })
  const causes = [from(0), from(5), from(2), from(3, 5), from(6)]
  const { nothing, weighed } = weighCauses(causes, settledOf(cov, values))
  const quiet = logDensity(cov, values)
  for (const { cause: own, chance } of weighed) {
    const loose = cov.map((value, at) => {
      const [i, j] = [Math.floor(at / size), at % size]
      return i === j && own.touches[i] === true ? value + 0.15 ** 2 : value
    })
    const log = Math.log(0.01 / 0.99) + logDensity(loose, values) - quiet
    near(Math.log(chance / nothing), log, { within: 1e-9, because: 'rounding' })
  }
})

/** −½ (log det C + yᵀC⁻¹y), by plain elimination. */
function logDensity(cov: Float64Array, values: readonly number[]): number {
  const size = values.length
  const rows = values.map((value, i) => [...cov.slice(i * size, (i + 1) * size), value])
  let log = 0
  for (let k = 0; k < size; k++) {
    const pivot = rows[k]?.[k] ?? 1
    log -= 0.5 * Math.log(pivot) + (0.5 * (rows[k]?.[size] ?? 0) ** 2) / pivot
    for (let i = k + 1; i < size; i++) {
      const less = (rows[i]?.[k] ?? 0) / pivot
      rows[i] = (rows[i] ?? []).map((value, j) => value - less * (rows[k]?.[j] ?? 0))
    }
  }
  return log
}

const near9 = (value: number): unknown => expect.closeTo(value, 9)

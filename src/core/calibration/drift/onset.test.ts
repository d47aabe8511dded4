import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { onsetOdds } from './onset.ts'

const RULE = { targetSd: 0.05, shiftSd: 0.1, weeksBefore: 6 }

test('oracle onset-odds: after each value the sum of the normal densities with a shift over those without', () => {
  const values = [
    { day: 0, value: 0.03, sd: 0.1 },
    { day: 7, value: 0.12, sd: 0.1 },
    { day: 7, value: 0.2, sd: 0.2 },
    { day: 21, value: 0.11, sd: 0.08 },
  ]
  const expected = [1.5138661367769954, 1.7597977942999659, 1.864465111459904, 2.240070313500193]
  onsetOdds(values, RULE).forEach((odds, at) => {
    near(odds, expected[at], { within: 1e-10, because: 'rounding; scipy, whole covariances' })
  })
})

test('a step speaks louder with each reading, and more of it on either side alike', () => {
  const step = (shift: number) =>
    onsetOdds(
      Array.from({ length: 12 }, (_, week) => {
        return { day: 7 * week, value: week < 4 ? 0 : shift, sd: 0.1 }
      }),
      RULE,
    )
  const up = step(0.15)
  expect(up).toEqual(step(-0.15))
  for (let week = 6; week < 12; week++) expect(up[week]).toBeGreaterThan(up[week - 1])
  expect(step(0.3)[7]).toBeGreaterThan(up[7])
})

test('how much is read in a term does not make a change likelier beforehand', () => {
  const quiet = (perWeek: number) =>
    onsetOdds(
      Array.from({ length: 14 * perWeek }, (_, at) => {
        return { day: (7 * at) / perWeek, value: 0, sd: 10 }
      }),
      RULE,
    ).at(-1) ?? 0
  // Readings that say nothing leave the weeks themselves: 6 and 13 more.
  near(quiet(1), Math.log(6 + 13), {
    within: 1e-3,
    because: 'readings of sd 10 say next to nothing',
  })
  near(quiet(7), Math.log(6 + 14 - 1 / 7), {
    within: 1e-2,
    because: 'the same, seven times as many',
  })
})

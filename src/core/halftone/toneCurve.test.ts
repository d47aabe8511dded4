import fc from 'fast-check'
import { expect, test } from 'vitest'
import { coveredShare, tintDensity } from '../colour/tone.ts'
import { near } from '../units/near.testing.ts'
import { isToneCurve, type PrintedTones, toneCurve, USUAL_PRINTED_TONES } from './toneCurve.ts'

test('a measured tone comes back as measured, and one between lies between', () => {
  const { filmShare, printedShare } = toneCurve([
    [0.2, 0.31],
    [0.5, 0.68],
    [0.8, 0.92],
  ])
  near(filmShare(0.68), 0.5, { within: 1e-12, because: 'a node' })
  near(printedShare(0.8), 0.92, { within: 1e-9, because: 'a node' })
  expect(filmShare(0.5)).toBeGreaterThan(0.2)
  expect(filmShare(0.5)).toBeLessThan(0.5)
  expect([filmShare(0), filmShare(1)]).toEqual([0, 1])
})

test('oracle murray-davies: tints read by density and compensated print as they were asked', () => {
  // a press whose dots grow by 4 g a (1 − a), read with a densitometer, solid 1.4
  const press = (a: number): number => a + 4 * 0.17 * a * (1 - a)
  const solid = 1.4
  const pairs: PrintedTones = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9].map((film) => {
    const tint = tintDensity(press(film), { solid })
    return [film, coveredShare({ tint, solid })] as const
  })
  const { filmShare } = toneCurve(pairs)
  for (let asked = 0.02; asked < 1; asked += 0.02) {
    near(press(filmShare(asked)), asked, { within: 0.004, because: 'nine readings and a cubic' })
  }
})

test('pairs that do not rise are none', () => {
  expect(isToneCurve(USUAL_PRINTED_TONES)).toBe(true)
  expect(
    isToneCurve([
      [0.5, 0.6],
      [0.4, 0.7],
    ]),
  ).toBe(false)
  expect(
    isToneCurve([
      [0.4, 0.6],
      [0.5, 0.6],
    ]),
  ).toBe(false)
  expect(isToneCurve([[0.4, 1]])).toBe(false)
  expect(() => toneCurve([[0, 0.2]])).toThrow('pairs')
})

test('invariant: a curve never turns back, and print and film undo each other', () => {
  const steps = fc.array(
    fc.tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 60 })),
    {
      minLength: 2,
      maxLength: 9,
    },
  )
  fc.assert(
    fc.property(steps, (given) => {
      const sums = [0, 1].map((axis) => given.reduce((sum, step) => sum + (step[axis] ?? 0), 0))
      let [film, print] = [0, 0]
      const pairs = given.slice(0, -1).map(([a, b]) => {
        film += a / (sums[0] ?? 1)
        print += b / (sums[1] ?? 1)
        return [film, print] as const
      })
      const { filmShare, printedShare } = toneCurve(pairs)
      let before = -1
      for (let at = 0; at <= 100; at++) {
        const here = filmShare(at / 100)
        expect(here).toBeGreaterThan(before)
        near(printedShare(here), at / 100, { within: 1e-6, because: 'halved forty times' })
        before = here
      }
    }),
    { numRuns: 60 },
  )
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { densityCurve, type WedgeStep } from './densityCurve.ts'

const wedge = (seenOf: (density: number) => number, count = 21): readonly WedgeStep[] =>
  Array.from({ length: count }, (_, at) => {
    const density = 0.05 + 0.15 * at
    return { density, seen: seenOf(density), sd: 0.003 }
  })

/** What is seen through a lens with stray light of one part in a hundred. */
const veiled = (density: number): number => -Math.log10((10 ** -density + 0.01) / 1.01)

test('stray light is undone between the steps, as Beer and the wedge say', () => {
  const curve = densityCurve(wedge(veiled))
  if (curve === null) throw new Error('no curve')
  for (const density of [0.1, 0.42, 0.77, 1.3, 1.6]) {
    near(curve.densityOf(veiled(density)), density, {
      within: 0.004,
      because: 'a cubic over 0.15 D of a gentle bend',
    })
  }
  expect(curve.highestDensity).toBeGreaterThan(2)
  expect(curve.highestDensity).toBeLessThan(2.9) // further on a step is less than 0.02 of light
})

test('steps that look alike end what is told', () => {
  const curve = densityCurve(wedge((density) => Math.min(density, 1.5)))
  expect(curve?.highestDensity).toBeCloseTo(1.4, 9)
})

test('oracle pool-adjacent: 1 2 4 3 5 shares 3.5 between the third and the fourth', () => {
  const steps = [1, 2, 4, 3, 5].map((seen, at) => ({ density: at, seen, sd: 0.01 }))
  const curve = densityCurve(steps)
  expect(curve?.densityOf(3.5)).toBeCloseTo(2.5, 12)
  expect(curve?.densityOf(5)).toBeCloseTo(4, 12)
})

test('two steps, or none that differ, make no curve', () => {
  expect(densityCurve(wedge((density) => density, 2))).toBeNull()
  expect(densityCurve(wedge(() => 0.4))).toBeNull()
})

test('scatter is what the maker’s tolerance does, not the bend', () => {
  const off = [18, -7, -21, 13, 16, -4, -24, -2, 19, 5, -16, 22].map((part) => part / 1000)
  const steps = wedge((density) => density, off.length).map((step, at) => ({
    ...step,
    density: step.density + (off[at] ?? 0),
  }))
  near(densityCurve(steps)?.scatter ?? Number.NaN, 0.017, {
    within: 0.008,
    because: 'the sd of twelve numbers of sd 0.017',
  })
  expect(densityCurve(wedge(veiled, 12))?.scatter).toBeLessThan(0.01)
})

test('invariant: the curve of Fritsch and Carlson rises wherever its steps do', () => {
  const rise = fc.double({ min: 0.03, max: 0.6, noNaN: true })
  fc.assert(
    fc.property(fc.array(fc.tuple(rise, rise), { minLength: 4, maxLength: 30 }), (rises) => {
      let [seen, density] = [0, 0]
      const steps = rises.map(([more, denser]) => {
        seen += more
        density += denser
        return { seen, density, sd: 0.001 }
      })
      const curve = densityCurve(steps)
      if (curve === null) throw new Error('no curve')
      let last = Number.NEGATIVE_INFINITY
      for (let at = -0.5; at < seen + 0.5; at += 0.07) {
        const here = curve.densityOf(at)
        expect(here).toBeGreaterThanOrEqual(last - 1e-12)
        expect(curve.slopeAt(at)).toBeGreaterThanOrEqual(-1e-9)
        last = here
      }
    }),
    { numRuns: 40 },
  )
})

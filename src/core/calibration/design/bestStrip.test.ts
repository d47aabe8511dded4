import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import type { Kept } from '../belief/replay.ts'
import { replay } from '../belief/replay.ts'
import { startBelief } from '../belief/state.ts'
import { bestStrip } from './bestStrip.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const NEW = startBelief(SHOP)
const wedges = [5, 5, 4, 5, 6, 5].map((lastSolidStep, day): Kept => {
  const wedge = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
  return {
    kind: 'wedge',
    doseLu: lu(60),
    wedge,
    lastSolidStep,
    firstClearStep: lastSolidStep + 2,
    day,
  }
})
const WEDGED = replay(wedges, { shop: SHOP }).belief
const pencil = { marks: [{ medium: 'soft pencil' }] }

test('oracle strip-design: with the wedge known a ratio of 1.25 is best, in a new shop 1.4 to 1.6', () => {
  expect(bestStrip(WEDGED, pencil).ratio).toBe(1.25)
  for (const medium of ['soft pencil', 'drawing ink', 'cut masking film']) {
    const { ratio } = bestStrip(NEW, { marks: [{ medium }] })
    expect(ratio).toBeGreaterThanOrEqual(1.4)
    expect(ratio).toBeLessThanOrEqual(1.6)
  }
})

test('it lies about the dose that is best by now, with five to eight bands or as many as are wanted', () => {
  const { bandsLu, before, after } = bestStrip(WEDGED, pencil)
  expect(bandsLu.length).toBeGreaterThanOrEqual(5)
  expect(bandsLu.length).toBeLessThanOrEqual(8)
  const middle = Math.sqrt(bandsLu[0] * (bandsLu.at(-1) ?? 0))
  near(middle / before.doseLu, 1, { within: 1e-9, because: 'rounding' })
  expect(after.fogSd).toBeLessThan(0.7 * before.fogSd)
  expect(after.chanceGood).toBeGreaterThan(before.chanceGood)
  expect(bestStrip(WEDGED, pencil, { bands: 3 }).bandsLu).toHaveLength(3)
})

test('invariant: as many bands as were wanted, in equal ratios about the best dose', () => {
  fc.assert(
    fc.property(fc.integer({ min: 2, max: 12 }), (bands) => {
      const { bandsLu, ratio, before } = bestStrip(WEDGED, pencil, { bands })
      expect(bandsLu).toHaveLength(bands)
      bandsLu.forEach((dose, at) => {
        const exact = before.doseLu * ratio ** (at - (bands - 1) / 2)
        near(dose, exact, { within: 1e-9 * exact, because: 'rounding' })
      })
    }),
    { seed: 12, numRuns: 10 },
  )
})

test('a strip in a medium that is known well promises little', () => {
  const told = Array.from({ length: 12 }, (_, at): Kept => {
    const doseLu = lu(35 + 3 * at)
    const grade = at > 8 ? 'filling' : 'good'
    return { kind: 'outcome', marks: { medium: 'soft pencil' }, doseLu, grade, day: 10 + at }
  })
  const known = replay([...wedges, ...told], { shop: SHOP }).belief
  const { before, after } = bestStrip(known, pencil)
  const fresh = bestStrip(WEDGED, pencil)
  expect(after.chanceGood - before.chanceGood).toBeLessThan(
    fresh.after.chanceGood - fresh.before.chanceGood,
  )
})

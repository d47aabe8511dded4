import fc from 'fast-check'
import { expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { ACTINIC_TABLE } from './actinicTable.ts'
import { leakingLid, leakSentences } from './leakingLid.ts'
import { effectiveness, exposureLimit } from './ultraviolet.ts'

test('oracle icnirp-uv: worked results of a public test file', () => {
  const worked = [
    { nm: 300, wattPerM2: 1, skinSec: 100, eyeSec: 100 },
    { nm: 254, wattPerM2: 100, skinSec: 0.6, eyeSec: 0.6 },
    { nm: 365, wattPerM2: 10, skinSec: 27_272.7, eyeSec: 1000 },
    { nm: 365, wattPerM2: 100, skinSec: 2727.27, eyeSec: 100 },
  ]
  for (const { skinSec, eyeSec, ...ray } of worked) {
    const limit = exposureLimit([ray])
    near(limit.skinSec, skinSec, { within: skinSec * 1e-5, because: 'printed to six figures' })
    near(limit.eyeSec, eyeSec, { within: eyeSec * 1e-9, because: 'exact' })
  }
})

test('oracle icnirp-uv: effectiveness times the limit is 30 J/m² in every row', () => {
  expect(ACTINIC_TABLE).toHaveLength(56)
  for (const [nm, share, limit] of ACTINIC_TABLE) {
    near(share * limit, 30, { within: 1.5, because: `${nm} nm: printed to two figures` })
  }
})

test('oracle icnirp-uv: the equations of the guideline agree with the table where they are good', () => {
  const equation = (nm: number): number =>
    nm <= 270
      ? 0.959 ** (270 - nm)
      : nm <= 300
        ? 1 - 0.36 * ((nm - 270) / 20) ** 1.64
        : 0.3 * 0.736 ** (nm - 300) + 10 ** (2 - 0.0163 * nm)
  for (const nm of [225, 258, 284, 300, 306, 345, 365, 387, 400]) {
    const value = equation(nm)
    near(effectiveness(nm), value, { within: value * 0.11, because: 'approximations, as printed' })
  }
})

test('above 400 nm nothing is weighted; below 180 nm there is no table', () => {
  expect(effectiveness(405)).toBe(0)
  expect(exposureLimit([{ nm: 405, wattPerM2: 50 }])).toMatchObject({
    skinSec: 28_800,
    eyeSec: 28_800,
  })
  expect(() => effectiveness(170)).toThrow('nm: expected 180 to 800')
})

test('invariant: more light never gives more time, and eyes never have longer than skin', () => {
  const ray = fc.record({
    nm: fc.integer({ min: 180, max: 420 }),
    wattPerM2: fc.double({ min: 0, max: 1000, noNaN: true }),
  })
  fc.assert(
    fc.property(fc.array(ray, { maxLength: 4 }), ray, (rays, more) => {
      const [less, all] = [exposureLimit(rays), exposureLimit([...rays, more])]
      expect(all.skinSec).toBeLessThanOrEqual(less.skinSec)
      expect(all.eyeSec).toBeLessThanOrEqual(less.eyeSec)
      expect(all.eyeSec).toBeLessThanOrEqual(all.skinSec)
    }),
    { seed: 22, numRuns: 60 },
  )
})

test('beside a leaking lid: by hand, and in sentences that defer', () => {
  const { worst, mildest } = leakingLid()
  // 60 W/m², of it 0.6 at 313 nm (S 0.006) and 59.4 at 365 nm (S 0.00011)
  near(worst.skinSec, 30 / (0.6 * 0.006 + 59.4 * 0.00011), { within: 1e-6, because: 'by hand' })
  near(worst.eyeSec, 10_000 / 59.4, { within: 1e-6, because: 'by hand; 313 nm is no UV-A' })
  near(mildest.eyeSec, 28_800, {
    within: 1e-9,
    because: '0.2 W/m² for 8 hours stays below 10 kJ/m²',
  })
  const said = leakSentences().join(' ')
  expect(said).toMatch(
    /eyes .* in 2 minutes to the whole day, bare skin in 45 minutes to the whole day/,
  )
  expect(said).toMatch(/manual and your local rules come before/)
})

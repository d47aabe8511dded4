import { expect, test } from 'vitest'
import { fabricGeometry } from '../../fabric/geometry.ts'
import { near } from '../../units/near.testing.ts'
import { density, lu, perCm, um } from '../../units/quantity.ts'
import { chanceGood, chancesAt, worthOf } from './chances.ts'
import type { Marks } from './evidence.ts'
import { type Outlook, outlookOn } from './question.ts'
import { recommendedDose } from './recommend.ts'
import { startBelief } from './state.ts'

const START = startBelief({ usualBaseDensity: density(0), secondsUnits: [] })
const outlook = (...media: readonly string[]): Outlook =>
  outlookOn(START, { marks: media.map((medium): Marks => ({ medium })) })

const PRIOR_ALONE = [
  ['soft pencil', 40],
  ['drawing ink', 53],
  ['cut masking film', 94],
] as const

test.each(PRIOR_ALONE)('oracle dose-rule: before any reading %s gets %d lu', (medium, expected) => {
  const { doseLu } = recommendedDose(outlook(medium))
  near(doseLu / expected, 1, { within: 0.025, because: 'the top is flat, see the next test' })
  const [found, printed] = [doseLu, expected].map((dose) =>
    worthOf(outlook(medium), Math.log10(dose)),
  )
  expect(found).toBeGreaterThanOrEqual(printed)
  near(found, printed, { within: 5e-4, because: 'five screens in ten thousand apart' })
})

// numpy 2.4.6 and scipy 1.17.1: sums over 20001 points of the normal curve, doses 0.0025 apart in
// log10. Medium, dose, chance of good there, least and greatest dose of 0.8 of the best chance.
const APART = [
  ['soft pencil', 41, 0.358, 26, 67],
  ['drawing ink', 53.4, 0.603, 32, 92],
  ['cut masking film', 93.9, 0.902, 43, null],
] as const

test.each(APART)('oracle dose-rule: %s as a sum over the curve has it', (...row) => {
  const [medium, dose, good, low, high] = row
  const found = recommendedDose(outlook(medium))
  near(found.doseLu / dose, 1, { within: 0.007, because: 'a grid of 0.0025 on a flat top' })
  near(found.chances.good, good, { within: 2e-3, because: 'three decimals, a grid of steps' })
  near(found.lowLu, low, { within: 0.6, because: 'whole units' })
  if (high !== null) near(found.highLu, high, { within: 0.6, because: 'whole units' })
})

test('no dose of a fine search is worth more, and the range ends at 0.8 of the best chance', () => {
  for (const media of [['soft pencil'], ['laser toner'], ['grease marker', 'graphite wash']]) {
    const seen = outlook(...media)
    const found = recommendedDose(seen)
    const worth = worthOf(seen, Math.log10(found.doseLu))
    let best = 0
    for (let x = 0.9; x < 2.6; x += 0.01) {
      expect(worthOf(seen, x)).toBeLessThanOrEqual(worth + 5e-5)
      best = Math.max(best, chanceGood(seen, x))
    }
    near(found.bestChanceGood, best, { within: 2e-4, because: 'doses 2 % apart on a flat top' })
    const rounding = { within: 2e-3, because: 'ends to 0.1 % of the dose' }
    near(chancesAt(seen, found.lowLu).good, 0.8 * best, rounding)
    near(chancesAt(seen, found.highLu).good, 0.8 * best, rounding)
    expect(found.lowLu).toBeLessThan(found.doseLu)
    expect(found.highLu).toBeGreaterThan(found.doseLu)
    expect(found.screensInTen).toBe(Math.round(10 * found.chances.good))
  }
})

test('a film that mixes media goes by its weakest, and a denser one beside it changes little', () => {
  const pencil = recommendedDose(outlook('soft pencil'))
  const both = recommendedDose(outlook('soft pencil', 'cut masking film'))
  near(both.doseLu / pencil.doseLu, 1, {
    within: 0.05,
    because: 'cut film hardly ever fills first',
  })
  expect(both.chances.good).toBeLessThan(pencil.chances.good + 1e-3)
  const twice = recommendedDose(outlook('soft pencil', 'fine pigment pen'))
  expect(twice.doseLu).toBeLessThan(pencil.doseLu)
  expect(twice.chances.good).toBeLessThan(pencil.chances.good)
})

test('marks that fog before the ground holds have no good dose, and the answer says so', () => {
  const faint: Outlook = outlookOn(START, {
    marks: [{ density: density(0.1), densitySd: density(0.03) }],
  })
  const { chances, bestChanceGood, doseLu } = recommendedDose(faint)
  expect(bestChanceGood).toBeLessThan(0.01)
  expect(chances.openAndHold).toBeLessThan(0.2)
  expect(doseLu).toBeGreaterThan(0)
})

test('less doubt, same middle: a better chance and a narrower frayed edge', () => {
  const vague = outlook('soft pencil')
  const [part] = vague.parts
  const sharp: Outlook = {
    marks: 1,
    parts: [
      { share: 1, gaussian: { ...part.gaussian, cov: part.gaussian.cov.map((v) => v / 16) } },
    ],
  }
  expect(recommendedDose(sharp).chances.good).toBeGreaterThan(
    recommendedDose(vague).chances.good + 0.3,
  )
})

test('a unit that counts in another scale moves dose and range by the same factor', () => {
  const [part] = outlook('drawing ink').parts
  const moved: Outlook = {
    marks: 1,
    parts: [
      { share: 1, gaussian: { ...part.gaussian, mean: part.gaussian.mean.map((v) => v + 1) } },
    ],
  }
  const [here, there] = [recommendedDose(outlook('drawing ink')), recommendedDose(moved)]
  const rounding = { within: 3e-3, because: 'doses to 0.1 %' }
  near(there.doseLu / here.doseLu / 10, 1, rounding)
  near(there.lowLu / here.lowLu / 10, 1, rounding)
  near(there.highLu / here.highLu / 10, 1, rounding)
  expect(chancesAt(moved, lu(500)).good).toBeCloseTo(
    chancesAt(outlook('drawing ink'), lu(50)).good,
    9,
  )
})

test.each(['10-260', '21-140', '43-80', '90-48', '165-31'])(
  'a coat on %s of which nobody has told us gets a wide range that still says something',
  (name) => {
    const [threads = 0, thread = 0] = name.split('-').map(Number)
    const weave = { threadsPerCm: perCm(threads), threadUm: um(thread) }
    const { thicknessUm } = fabricGeometry(weave)
    const coat = { thicknessUm: um(thicknessUm + 8), anchorDepthUm: um(20) }
    for (const medium of ['soft pencil', 'drawing ink', 'cut masking film', 'beetroot juice']) {
      const found = recommendedDose(outlookOn(START, { coat, marks: [{ medium }] }))
      expect(found.doseLu).toBeGreaterThan(25)
      expect(found.doseLu).toBeLessThan(200)
      // A factor of 2 at least, for nothing was read; and a strip of seven bands would find it.
      expect(found.highLu / found.lowLu).toBeGreaterThan(2)
      expect(found.highLu / found.lowLu).toBeLessThan(8)
      expect(found.lowLu).toBeLessThan(found.doseLu)
      expect(found.highLu).toBeGreaterThan(found.doseLu)
      expect(found.chances.good).toBeGreaterThan(0.1)
    }
  },
)

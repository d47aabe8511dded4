import { describe, expect, test } from 'vitest'
import { near } from '../../units/near.testing.ts'
import { density, lu } from '../../units/quantity.ts'
import type { WedgeEvidence } from '../belief/evidence.ts'
import { replay } from '../belief/replay.ts'
import { startBelief } from '../belief/state.ts'
import { afterStrip } from './afterStrip.ts'
import { outcomeNow } from './outcome.ts'
import { afterSimulatedStrips, bandsAbout } from './simulated.testing.ts'

const SHOP = { usualBaseDensity: density(0), secondsUnits: [] }
const wedge = (lastSolidStep: number, day: number): WedgeEvidence => ({
  kind: 'wedge',
  doseLu: lu(60),
  wedge: { steps: 21, firstDensity: density(0.05), increment: density(0.15) },
  lastSolidStep,
  firstClearStep: lastSolidStep + 2,
  day,
})
const NEW = startBelief(SHOP)
const WEDGED = replay(
  [5, 5, 4, 5, 6, 5].map((step, day) => wedge(step, day)),
  { shop: SHOP },
).belief

describe('what is expected is what strips that are simulated and taught come to', () => {
  test.each([
    ['a new shop', NEW, 'soft pencil', 1.25],
    ['a new shop', NEW, 'drawing ink', 1.5],
    ['a shop with six wedges', WEDGED, 'soft pencil', 1.25],
    ['a shop with six wedges', WEDGED, 'drawing ink', 1.5],
  ])('%s: %#', (_, belief, medium, ratio) => {
    const question = { marks: [{ medium }] }
    const bandsLu = bandsAbout(outcomeNow(belief, question).doseLu, { count: 7, ratio })
    const expected = afterStrip(belief, question, { bandsLu })
    const simulated = afterSimulatedStrips(belief, { medium, bandsLu, shops: 60, seed: 5 })
    near(expected.fogSd / simulated.fogSd, 1, {
      within: 0.12,
      because: 'sixty shops, and a belief that allows for slips and keeps its outlook normal',
    })
    near(expected.chanceGood + 0.02, simulated.chanceGood, {
      within: 0.06,
      because:
        'too careful by up to 0.04 against 300 shops; here sixty, whose mean scatters by 0.02',
    })
  })
})

test('oracle strip-design: seven bands about the best guess know a new shop’s pencil to 0.12 or so', () => {
  const question = { marks: [{ medium: 'soft pencil' }] }
  const { doseLu, fogSd } = outcomeNow(NEW, question)
  near(fogSd, 0.311, { within: 0.001, because: 'the priors’ own, added up: see belief-priors' })
  const knownBy = (ratio: number): number =>
    afterStrip(NEW, question, { bandsLu: bandsAbout(doseLu, { count: 7, ratio }) }).fogSd
  near(knownBy(1.25), 0.12, { within: 0.015, because: 'a trial’s "about"' })
  near(knownBy(1.4), 0.11, { within: 0.015, because: 'a trial’s "about"' })
  near(knownBy(1.6), 0.11, { within: 0.015, because: 'a trial’s "about"' })
})

test('a strip about a dose where nothing happens tells next to nothing', () => {
  const question = { marks: [{ medium: 'drawing ink' }] }
  const now = outcomeNow(WEDGED, question)
  const far = afterStrip(WEDGED, question, { bandsLu: bandsAbout(0.2, { count: 7, ratio: 1.25 }) })
  near(far.fogSd, now.fogSd, { within: 0.005, because: 'all bands wash off in any shop' })
  expect(far.chanceGood).toBeGreaterThanOrEqual(now.chanceGood)
  expect(far.chanceGood - now.chanceGood).toBeLessThan(0.01)
})

test('the strip’s own screen and film are not the next ones: their scatter stays', () => {
  const question = { marks: [{ medium: 'soft pencil' }] }
  const bandsLu = bandsAbout(45, { count: 40, ratio: 1.1 })
  const { fogSd } = afterStrip(WEDGED, question, { bandsLu })
  // A reading as sharp as can be, weakened by what differs from film to film, from screen to
  // screen and from eye to eye: two normal numbers, of which one is seen with the other's scatter.
  const own = 0.1 ** 2 + 0.05 ** 2 + 0.04 ** 2
  const prior = outcomeNow(WEDGED, question).fogSd ** 2
  near(fogSd, Math.sqrt((prior * own) / (prior + own)), {
    within: 0.004,
    because: 'what the ground tells of it besides',
  })
})

test('a second film beside the first tells more of its medium, though less than as much again', () => {
  const sdOf = (medium: string, films: 1 | 2): number => {
    const question = { marks: [{ medium }] }
    const bandsLu = bandsAbout(outcomeNow(WEDGED, question).doseLu, { count: 7, ratio: 1.4 })
    return afterStrip(WEDGED, question, { bandsLu, films }).fogSd
  }
  for (const medium of ['soft pencil', 'drawing ink', 'litho crayon']) {
    const [one, two] = [sdOf(medium, 1), sdOf(medium, 2)]
    expect(two).toBeLessThan(0.99 * one)
    // what both films share, screen and ground, is told once: less than half the variance goes
    expect(two).toBeGreaterThan(Math.SQRT1_2 * one)
  }
})

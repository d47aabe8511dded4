import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { ciede2000 } from '../colour/ciede2000.ts'
import { demichelWeights } from '../colour/inkMixing.ts'
import { labFromXyz50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { SOLID } from '../halftone/solid.ts'
import { keepToLimit } from './inkLimit.ts'
import type { Ink } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'

const LABS: readonly Lab[] = [
  [55, -37, -50],
  [48, 74, -3],
  [89, -5, 93],
  [16, 0, 0],
]
const INKS = LABS.map((lab, at): Ink => ({ name: `${at}`, lab, opacity: 0, angleDeg: null }))
const PRIMARIES = estimatedPrimaries(INKS)

function lookOf(shares: readonly number[]): Lab {
  const weights = demichelWeights(shares)
  const part = (channel: 0 | 1 | 2): number =>
    PRIMARIES.reduce((sum, xyz, at) => sum + (weights[at] ?? 0) * xyz[channel], 0)
  const xyz: Xyz = [part(0), part(1), part(2)]
  return labFromXyz50(xyz)
}

function limited(percents: readonly number[], coverage: number): readonly number[] {
  const tones = Uint16Array.from(percents, (percent) => Math.round((percent / 100) * SOLID))
  keepToLimit(tones, coverage)
  return Array.from(tones, (tone) => Math.round((1000 * tone) / SOLID) / 10)
}

test('oracle pdf32000: black takes the place of what three inks share, worked out by hand', () => {
  // 300 % to 240 %: 30 of each of three give way to 30 of black
  expect(limited([80, 70, 90, 60], 2.4)).toEqual([50, 40, 60, 90])
  // within the limit nothing moves
  expect(limited([80, 70, 30, 60], 2.4)).toEqual([80, 70, 30, 60])
})

test('under full black what three inks share is left out, and then they are thinned alike', () => {
  expect(limited([100, 100, 100, 100], 2.5)).toEqual([50, 50, 50, 100])
  expect(limited([90, 60, 0, 100], 2)).toEqual([60, 40, 0, 100])
  expect(limited([90, 60, 0, 100], 1)).toEqual([0, 0, 0, 100])
})

const percent = fc.integer({ min: 0, max: 100 })
const four = fc.tuple(percent, percent, percent, percent)

test('invariant: never above the limit, never less black, no coloured ink more, and no less ink than must be', () => {
  fc.assert(
    fc.property(four, fc.integer({ min: 100, max: 400 }), (percents, most) => {
      const before = Uint16Array.from(percents, (share) => Math.round((share / 100) * SOLID))
      const after = before.slice()
      keepToLimit(after, most / 100)
      const [was, is] = [before, after].map((all) => all.reduce((sum, tone) => sum + tone, 0))
      expect(is).toBeLessThanOrEqual(Math.floor((most / 100) * SOLID))
      // rounding: to whole tones in three inks
      expect(is).toBeGreaterThanOrEqual(Math.min(was ?? 0, Math.floor((most / 100) * SOLID)) - 6)
      expect(after[3]).toBeGreaterThanOrEqual(before[3] ?? 0)
      for (let ink = 0; ink < 3; ink++) expect(after[ink]).toBeLessThanOrEqual(before[ink] ?? 0)
    }),
  )
})

test('invariant: the print stays nearer to what was asked than if all four were thinned alike', () => {
  const rich = fc.sample(four, { numRuns: 400, seed: 11 }).filter((shares) => sumOf(shares) > 240)
  const differences = rich.map((percents) => {
    const asked = lookOf(percents.map((share) => share / 100))
    const kept = lookOf(limited(percents, 2.4).map((share) => share / 100))
    const alike = lookOf(percents.map((share) => (share / 100) * (240 / sumOf(percents))))
    return { kept: ciede2000(asked, kept), alike: ciede2000(asked, alike) }
  })
  expect(rich.length).toBeGreaterThan(50)
  const mean = (of: 'kept' | 'alike'): number =>
    differences.reduce((sum, each) => sum + each[of], 0) / differences.length
  expect(mean('kept')).toBeLessThan(mean('alike'))
})

function sumOf(percents: readonly number[]): number {
  return percents.reduce((sum, share) => sum + share, 0)
}

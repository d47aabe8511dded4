import { expect, test } from 'vitest'
import { ciede2000 } from '../colour/ciede2000.ts'
import { labFromXyz50, WHITE_D50, xyz50FromLab } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'
import { srgbFromXyz50 } from '../colour/srgb.ts'
import { SOLID } from '../halftone/solid.ts'
import { near } from '../units/near.testing.ts'
import { highlightTone } from './highlightTone.ts'
import { COVERAGE_LIMIT } from './inkLimit.ts'
import { mixedColour, mixerOf } from './nearestShares.ts'
import type { Ink } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'
import { spotTable, spotTones } from './spotTable.ts'

const ink = (name: string, lab: Lab, opacity: number): Ink => ({
  name,
  lab,
  opacity,
  angleDeg: null,
})
const RED = ink('red', [52, 62, 38], 0.6)
const BLUE = ink('blue', [38, 5, -45], 0.4)
const BLACK = ink('black', [18, 1, 0], 0.9)

const table = spotTable([BLUE, RED, BLACK])

/** By hand: shares of bare, first alone, second alone and both. */
function twoMixed(
  [a, b]: readonly [number, number],
  [none, one, other, both]: readonly Xyz[],
): Xyz {
  const at = (channel: 0 | 1 | 2): number =>
    (1 - a) * (1 - b) * none[channel] +
    a * (1 - b) * one[channel] +
    (1 - a) * b * other[channel] +
    a * b * both[channel]
  return [at(0), at(1), at(2)]
}

function tonesOf(xyz: Xyz): number[] {
  const into = new Uint16Array(3)
  const [r, g, b] = srgbFromXyz50(xyz).map((value) => Math.round(255 * value))
  spotTones(table, [r, g, b], into)
  return [...into].map((tone) => tone / SOLID)
}

test('a solid of an ink asks for that solid and nothing else, white for nothing', () => {
  expect(tonesOf(xyz50FromLab(RED.lab ?? [0, 0, 0]))).toEqual([0, 1, 0])
  expect(tonesOf(xyz50FromLab(BLACK.lab ?? [0, 0, 0]))).toEqual([0, 0, 1])
  expect(tonesOf(WHITE_D50)).toEqual([0, 0, 0])
})

test('a clear ink over another multiplies, an opaque one covers', () => {
  const half: Lab = [60, 0, 0]
  const [, , , clear] = estimatedPrimaries([ink('one', half, 0), ink('two', half, 0)])
  const y = xyz50FromLab(half)[1]
  near(clear[1], y * y, { within: 1e-12, because: 'by hand' })
  const [, , , covered] = estimatedPrimaries([ink('one', half, 0), ink('two', half, 1)])
  near(covered[1], y, { within: 1e-12, because: 'by hand' })
})

test('oracle neugebauer: tints of two inks come back as they were mixed', () => {
  const [none, blue, red, both] = estimatedPrimaries([BLUE, RED])
  for (const pair of [
    [0.2, 0.5],
    [0.6, 0.3],
    [0.85, 0.1],
    [0.35, 0.75],
    [0, 0.4],
  ] as const) {
    const mixed = twoMixed(pair, [none, blue, red, both])
    const [a, b, k] = tonesOf(mixed)
    // what the answer prints, the black laid under as by hand too
    const printed = twoMixed([a, b], [none, blue, red, both])
    const black = xyz50FromLab(BLACK.lab ?? [0, 0, 0])
    const seen = printed.map((value, at) => (1 - k) * value + k * black[at]) as unknown as Xyz
    expect(ciede2000(labFromXyz50(seen), labFromXyz50(mixed)), pair.join()).toBeLessThan(3)
    expect(k, pair.join()).toBeLessThan(0.15)
    near(b, pair[1], { within: 0.1, because: 'the black takes a part, and the grid is coarse' })
  }
})

test('invariant: no place gets more ink than dries', () => {
  const { sharesAt } = spotTable([BLUE, RED, BLACK, ink('green', [50, -45, 30], 0.3)])
  for (let node = 0; node < 17 ** 3; node += 37) {
    const sum = sharesAt(node).reduce((all, share) => all + share, 0)
    expect(sum).toBeLessThanOrEqual(COVERAGE_LIMIT + 1e-6)
  }
})

test('invariant: within limits of a plan, no place gets more inks nor more of them', () => {
  const inks = [BLUE, RED, BLACK, ink('green', [50, -45, 30], 0.3)]
  for (const limits of [
    { coverage: 1.5, inks: 2 },
    { coverage: 2.4, inks: 3 },
    { coverage: 1, inks: 1 },
  ]) {
    const limited = spotTable(inks, { isCoarse: true, limits })
    const into = new Uint16Array(4)
    for (let at = 0; at < 300; at++) {
      spotTones(limited, [(at * 37) % 256, (at * 101) % 256, (at * 211) % 256], into)
      const shares = [...into].map((tone) => tone / SOLID)
      const sum = shares.reduce((all, share) => all + share, 0)
      expect(sum).toBeLessThanOrEqual(limits.coverage + 0.03) // an end share becomes a solid
      expect(shares.filter((share) => share > 0).length).toBeLessThanOrEqual(limits.inks)
    }
  }
})

test('highlights take nothing up to their lightness, all of it just below white, and no white', () => {
  expect(highlightTone(255, 255, 255, 0.8)).toBe(0)
  expect(highlightTone(196, 196, 196, 0.8)).toBe(0) // L 79.1
  // L of #e2e2e2 is 89.85, by the CIE's formula: half way from 0.8 to 1 but for 0.0075
  near(highlightTone(226, 226, 226, 0.8) / SOLID, 0.4925, { within: 0.002, because: 'four digits' })
  near(highlightTone(254, 254, 254, 0.8) / SOLID, 0.983, { within: 0.002, because: 'L 99.65' })
})

test('the coarse grid, for looking from afar, prints nearly what the fine one prints', () => {
  const inks = [BLUE, RED, BLACK]
  const coarse = spotTable(inks, { isCoarse: true })
  const [into, quick] = [new Uint16Array(3), new Uint16Array(3)]
  const mixer = mixerOf(estimatedPrimaries(inks), { limit: COVERAGE_LIMIT })
  const shares = (tones: Uint16Array) => Float64Array.from(tones, (tone) => tone / SOLID)
  const differences: number[] = []
  for (let at = 0; at < 400; at++) {
    const colour = [(at * 37) % 256, (at * 101) % 256, (at * 211) % 256] as const
    spotTones(table, colour, into)
    spotTones(coarse, colour, quick)
    differences.push(ciede2000(mixedColour(shares(into), mixer), mixedColour(shares(quick), mixer)))
  }
  const mean = differences.reduce((sum, each) => sum + each, 0) / differences.length
  expect(mean).toBeLessThan(1)
  expect(differences.toSorted((one, other) => one - other)[380]).toBeLessThan(4)
})

test('tones run evenly along a ramp, without jumps', () => {
  let before = tonesOf(WHITE_D50)
  const solid = xyz50FromLab(RED.lab ?? [0, 0, 0])
  for (let step = 1; step <= 40; step++) {
    const share = step / 40
    const mixed = WHITE_D50.map((white, at) => white + share * (solid[at] - white))
    const tones = tonesOf(mixed as unknown as Xyz)
    tones.forEach((tone, at) => expect(Math.abs(tone - before[at])).toBeLessThan(0.12))
    before = tones
  }
})

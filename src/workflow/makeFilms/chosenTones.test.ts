import { expect, test } from 'vitest'
import { labFromSrgb } from '../../core/colour/srgb.ts'
import { near } from '../../core/units/near.testing.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { chosenTones } from './chosenTones.ts'
import { inkAtOnePlace, inkWords } from './inkAtOnePlace.ts'
import { planFromJson } from './readPlan.ts'

type Colour = readonly [number, number, number]

function row(colours: readonly Colour[]): Artwork {
  const samples = Uint8Array.from(colours.flat())
  async function* bands() {
    yield { rows: 1, samples }
  }
  return { space: 'rgb', widthPx: colours.length, heightPx: 1, bands }
}

async function sharesOf(artwork: Artwork, inks: readonly object[]): Promise<readonly number[][]> {
  const plan = planFromJson(JSON.stringify({ widthMm: 10, mode: 'spot', inks }))
  const out: number[][] = []
  for await (const plates of chosenTones(plan, { soft: false })(artwork).rows()) {
    for (const plate of plates) out.push(Array.from(plate, (tone) => tone / 65_535))
  }
  return out
}

const RED: Colour = [200, 30, 40]
const BLUE: Colour = [30, 60, 180]
const labOf = ([r, g, b]: Colour) => labFromSrgb([r / 255, g / 255, b / 255])
/** Half of the light of a colour, half of white: what a tint of half reflects. */
const half = (colour: Colour): Colour => {
  const mixed = colour.map((value) => {
    const light = (value / 255) ** 2.2
    return Math.round(255 * ((light + 1) / 2) ** (1 / 2.2))
  })
  return [mixed[0] ?? 0, mixed[1] ?? 0, mixed[2] ?? 0]
}
const GREEN_LAB = [45, -40, 20]

test('oracle neugebauer: an ink that takes a colour prints its tints, whatever it is printed in', async () => {
  const artwork = row([RED, half(RED), BLUE, half(BLUE), [255, 255, 255]])
  const own = await sharesOf(artwork, [
    { name: 'red', lab: labOf(RED), opacity: 0 },
    { name: 'blue', lab: labOf(BLUE), opacity: 0 },
  ])
  const taken = await sharesOf(artwork, [
    { name: 'green', lab: GREEN_LAB, takes: [labOf(RED)], opacity: 0 },
    { name: 'blue', lab: labOf(BLUE), opacity: 0 },
  ])
  expect(taken).toEqual(own)
  near(taken[0]?.[1] ?? 0, 0.5, { within: 0.04, because: '2.2 is nearly the curve of sRGB' })
})

test('oracle demichel: two colours poured into one ink both print in it, tints and all', async () => {
  const artwork = row([RED, half(RED), BLUE, half(BLUE), [255, 255, 255]])
  const takes = [labOf(RED), labOf(BLUE)]
  const [poured = []] = await sharesOf(artwork, [{ name: 'ink', lab: GREEN_LAB, takes }])
  expect([poured[0], poured[2], poured[4]]).toEqual([1, 1, 0])
  near(poured[1] ?? 0, 0.5, { within: 0.05, because: '2.2 is nearly the curve of sRGB' })
  near(poured[3] ?? 0, 0.5, { within: 0.05, because: '2.2 is nearly the curve of sRGB' })
})

test('ink at one place is counted from the films’ squares, and said where it is too much', () => {
  const shares = [
    [1, 0.6, 0.2],
    [0.9, 0.7, 0],
    [0.8, 0.4, 0.1],
  ].map((plate) => Float32Array.from(plate))
  const coverage = { widthPx: 3, heightPx: 1, squarePx: 100, shares }
  const plain = { halftone: null, resolutionDpi: 508 }
  const ink = inkAtOnePlace(coverage, plain)
  near(ink.most, 2.7, { within: 1e-6, because: 'single precision' })
  near(ink.aboveShare, 1 / 3, { within: 1e-9, because: 'one square of three' })
  expect(inkWords(ink, { mode: 'process' })).toEqual([
    'Up to 270 % of ink lies at one place, and above 240 % on 33 % of the sheet: that does not dry before the next screen. "limits":{"coverage":2.4} in the plan keeps all of it to that.',
  ])
  // dots of 1.7 mm: four of them are wider than the square of 5 mm, so two squares are one part
  const dots = { kind: 'dot', shape: 'round', rulingPerCm: 6, angleDeg: 15 } as const
  near(inkAtOnePlace(coverage, { ...plain, halftone: dots }).most, 2.2, {
    within: 1e-6,
    because: 'single precision',
  })
  const held = inkAtOnePlace(coverage, { ...plain, limits: { coverage: 2.8, inks: 4 } })
  expect(inkWords(held, { mode: 'process' })).toEqual([])
})

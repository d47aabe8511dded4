import { expect, test } from 'vitest'
import { ciede2000 } from '../colour/ciede2000.ts'
import { xyz50FromLab } from '../colour/lab.ts'
import type { Lab, Srgb } from '../colour/space.ts'
import { labFromSrgb, srgbFromXyz50 } from '../colour/srgb.ts'
import { near } from '../units/near.testing.ts'
import { inkChoices, worthwhileChoice } from './inkChoice.ts'
import { paletteOf } from './palette.ts'
import { STOCKS } from './quality.testing.ts'

const colourOf = (lab: Lab | null): Srgb => srgbFromXyz50(xyz50FromLab(lab ?? [100, 0, 0]))

const STOCK = STOCKS.six
const [YELLOW, , RED, , BLUE] = STOCK

test('a picture of four flat colours is found in its four, with their shares', () => {
  const flat = [
    [255, 255, 255],
    [200, 30, 40],
    [20, 60, 140],
    [24, 22, 26],
  ]
  const rgb = Uint8Array.from(
    Array.from({ length: 1000 }, (_, at) => flat[at % 10 < 4 ? 0 : (at % 3) + 1] ?? []).flat(),
  )
  const found = paletteOf(rgb, { count: 6 })
  expect(found.map(({ srgb }) => srgb.map((part) => Math.round(255 * part)))).toEqual(
    expect.arrayContaining(flat),
  )
  expect(found).toHaveLength(4)
  near(found[0]?.share ?? 0, 0.4, { within: 1e-12, because: 'four in ten' })
})

test('flat colours of stock inks choose those inks, with nothing to see between', () => {
  const colours = [YELLOW, RED, BLUE].map((ink) => ({
    srgb: colourOf(ink?.lab ?? null),
    share: 1 / 3,
  }))
  const choices = inkChoices(colours, { stock: STOCK, most: 4, mode: 'line' })
  const three = choices[2]
  expect(three?.inks.map(({ name }) => name)).toEqual(['yellow', 'red', 'blue'])
  expect(three?.worstDifference).toBeLessThan(0.5)
  expect(worthwhileChoice(choices)).toBe(three)
})

test('oracle sharma2005: the mean is that of the nearest inks, and more inks never print farther off', () => {
  const srgb = [
    [0.9, 0.7, 0.3],
    [0.6, 0.2, 0.3],
    [0.3, 0.5, 0.4],
  ] as const
  const colours = srgb.map((one, at) => ({ srgb: one, share: [0.5, 0.3, 0.2][at] ?? 0 }))
  const choices = inkChoices(colours, { stock: STOCK, most: 6, mode: 'line' })
  const all = colours.map(({ srgb: one, share }) => {
    const labs: Lab[] = [[100, 0, 0], ...STOCK.map(({ lab }) => lab ?? ([100, 0, 0] as const))]
    return share * Math.min(...labs.map((lab) => ciede2000(labFromSrgb(one), lab)))
  })
  near(
    choices[5]?.meanDifference ?? 0,
    all.reduce((sum, one) => sum + one, 0),
    {
      within: 1e-9,
      because: 'all six are there',
    },
  )
  // by every pair there is
  const pairs = STOCK.flatMap((one, at) => STOCK.slice(at + 1).map((other) => [one, other]))
  const best = Math.min(
    ...pairs.map(
      (pair) =>
        inkChoices(colours, { stock: pair, most: 2, mode: 'line' })[1]?.meanDifference ?? 99,
    ),
  )
  near(choices[1]?.meanDifference ?? 0, best, {
    within: 1e-9,
    because: 'the best of fifteen pairs',
  })
  choices.slice(1).forEach(({ meanDifference }, at) => {
    expect(meanDifference).toBeLessThanOrEqual((choices[at]?.meanDifference ?? 0) + 1e-9)
  })
})

test('with tones a mixture of two inks needs no third', () => {
  const grey: Srgb = [0.62, 0.62, 0.62]
  const colours = [{ srgb: grey, share: 1 }]
  const tones = inkChoices(colours, { stock: STOCK, most: 2, mode: 'spot' })
  expect(tones[0]?.inks.map(({ name }) => name)).toEqual(['black'])
  expect(tones[0]?.meanDifference).toBeLessThan(2)
  expect(worthwhileChoice(tones)?.inks).toHaveLength(1)
})

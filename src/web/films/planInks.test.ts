import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { colourName } from './colourName.ts'
import { inksOf, planRead, withEdge, withInk } from './planFile.ts'
import {
  hexOf,
  labOfHex,
  ownEdgeOf,
  withColour,
  withFoundInks,
  withHighlights,
  withMerged,
  withOwnEdge,
  withPrintForAll,
  withPrintWay,
  withTint,
} from './planInks.ts'

/** The colours of a poster on white paper. */
const FOUND = [
  { srgb: [1, 1, 1], share: 0.5 },
  { srgb: [0.94, 0.7, 0.16], share: 0.2 },
  { srgb: [0.77, 0.2, 0.17], share: 0.1 },
  { srgb: [0.14, 0.34, 0.47], share: 0.1 },
  { srgb: [0.08, 0.08, 0.08], share: 0.099 },
  { srgb: [0.6, 0.6, 0.6], share: 0.001 },
] as const
const poster = () => withFoundInks({ mode: 'single', widthMm: 200 }, FOUND)

test('colours that were found become flat inks by their names, the palest first, and paper none', () => {
  const { plan, wrong } = planRead(poster())
  expect([wrong, plan?.mode]).toEqual([null, 'line'])
  expect(plan?.inks.map(({ name }) => name)).toEqual(['yellow', 'red', 'dark blue', 'black'])
})

test('a cream ground is the paper too, and a pale ink on it is an ink', () => {
  const named = (colours: Parameters<typeof withFoundInks>[1]) =>
    planRead(withFoundInks({ mode: 'single', widthMm: 200 }, colours)).plan?.inks.map(
      ({ name }) => name,
    )
  const [, ...inks] = FOUND
  const cream = { srgb: [0.97, 0.94, 0.86], share: 0.5 } as const
  expect(named([cream, ...inks])).toEqual(['yellow', 'red', 'dark blue', 'black'])
  // as pale a colour on white is something that was put there
  expect(named([...FOUND, { ...cream, share: 0.1 }])).toHaveLength(5)
})

test('an ink that is poured into another leaves its colours there, and one that is coloured keeps its own', () => {
  const merged = withMerged(poster(), 1, 2)
  const [, blue] = planRead(merged).plan?.inks ?? []
  expect([blue?.name, blue?.takes?.length]).toEqual(['dark blue', 2])
  const green = withColour(merged, 0, { name: 'moss', lab: [50, -30, 30] })
  const [moss] = planRead(green).plan?.inks ?? []
  expect([moss?.name, moss?.lab]).toEqual(['moss', [50, -30, 30]])
  expect(hexOf(moss?.takes?.[0] ?? [0, 0, 0])).toMatch(/^#(ef|f0)b[234]2[789a]$/) // still finds the yellow
})

test('a print’s measured tints are written into one ink, and into all', () => {
  const shop = [
    { id: 'moon', name: 'moon', lab: [83, 8, 71] as [number, number, number], opacity: 0.4 },
    { id: 'water', name: 'water', lab: [45, -28, -12] as [number, number, number], opacity: 0.6 },
  ]
  const two = shop.reduce(withInk, { mode: 'spot', widthMm: 200 } as PlanFile)
  const measured = withTint(withPrintWay(two, 0, 'measured'), 0, 1, 0.7)
  const printed = planRead(measured).plan?.inks.map((ink) => ink.printed?.[1] ?? null)
  expect(printed).toEqual([[0.5, 0.7], null])
  const all = planRead(withPrintForAll(measured, 0)).plan?.inks ?? []
  expect(all.map((ink) => ink.printed?.[1])).toEqual([
    [0.5, 0.7],
    [0.5, 0.7],
  ])
  expect(planRead(withTint(measured, 0, 1, 0.1)).wrong?.field).toBe('inks[0].printed')
  expect(planRead(withPrintWay(measured, 0, 'same')).plan?.inks[0]?.printed).toBeUndefined()
})

test('an ink’s own edges come before those of all, and highlights are printed last', () => {
  const file = withOwnEdge(withEdge(poster(), 'spread', 80), 3, 'choke', 120)
  const { edgeUm, inks = [] } = planRead(file).plan ?? {}
  expect([edgeUm, inks[0]?.edgeUm, inks[3]?.edgeUm]).toEqual([80, undefined, -120])
  const [, , , black] = inksOf(withOwnEdge(file, 3, 'all'))
  expect(black === undefined ? null : ownEdgeOf(black).way).toBe('all')
  const white = planRead(withHighlights(poster())).plan
  expect([white?.mode, white?.inks.at(-1)?.highlightsFrom]).toEqual(['spot', 0.85])
})

test('a colour keeps its place through the picker’s digits, and has a plain name', () => {
  // the red of sRGB under D50, from memory: 54.29, 80.81, 69.89
  const red = labOfHex('#ff0000')
  for (const [at, value] of [54.29, 80.81, 69.89].entries()) {
    near(red[at] ?? 0, value, { within: 0.06, because: 'kept to a tenth' })
  }
  for (const hex of ['#c4342c', '#245678', '#f0b428']) expect(hexOf(labOfHex(hex))).toBe(hex)
  expect([colourName([14, 0, 0]), colourName([60, 0, 0]), colourName([30, 40, -50])]).toEqual([
    'black',
    'grey',
    'dark violet',
  ])
})

import { expect, test } from 'vitest'
import { weaveNamed } from '../core/fabric/geometry.ts'
import { near } from '../core/units/near.testing.ts'
import { CELL_PLANES, TILE_SIDE } from '../raster/tiles.ts'
import { printPlan } from './printPlan.ts'
import { coverTiles, marksCover } from './printPlanCover.ts'
import type { PlanFacts, PlanLayer } from './printPlanFacts.ts'

const SCREEN: PlanLayer['screen'] = {
  name: 'screen 8',
  isChosen: true,
  weave: weaveNamed('77-55'),
  thicknessUm: null,
  insideMm: { widthMm: 500, heightMm: 700 },
  tensionNewtonPerCm: 22,
  overMeshUm: 10,
}
const layer = (id: string, lab: readonly [number, number, number], opacity: number): PlanLayer => ({
  id,
  shortName: id,
  ink: { name: id, lab, opacity, isMeasured: true },
  film: { sizeMm: { widthMm: 210, heightMm: 297 }, coverShare: 0.2, edgeShare: 0.1 },
  screen: SCREEN,
  isPrinted: false,
})
const FACTS: PlanFacts = {
  editionCount: 20,
  layers: [layer('ochre', [71, 14, 52], 0.5), layer('black', [16, 0, 0], 0.9)],
  stock: [
    { id: 'k', name: 'black', lab: [16, 0, 0], grams: 900, pricePerKg: 24, isMeasured: true },
    { id: 'w', name: 'white', lab: [95, 0, 2], grams: 2400, pricePerKg: 22, isMeasured: true },
    { id: 'y', name: 'yellow', lab: [85, 4, 86], grams: 1100, pricePerKg: 34, isMeasured: true },
    { id: 'r', name: 'red', lab: [46, 62, 34], grams: 700, pricePerKg: 38, isMeasured: true },
  ],
  paper: { sizeMm: { widthMm: 500, heightMm: 700 }, onShelf: 2, pricePerSheet: 1.9 },
}
const ASKED = {
  proofs: 2,
  offContactMm: 3,
  potCm3: 120,
  shelves: 30,
  sheetMm: { widthMm: 250, heightMm: 350 },
  screenCost: 6,
  filmCost: 1.5,
}

test('a plan by hand: sheets, growth, ink, paper and price agree', () => {
  const plan = printPlan(FACTS, ASKED)
  // 22 through two layers that spoil one in twenty each: 22 / 0.95² = 24.4
  expect(plan).toMatchObject({ wanted: 22, toPull: 25 })
  // 25 sheets, four from each bought one, two of them there
  expect(plan.paper).toMatchObject({ fromOne: 4, wanted: 7, toBuy: 5 })
  const [ochre, black] = plan.layers
  // W 700, a (700 − 297)/2 = 201.5, h 3: 9 · 297 / (201.5 · 498.5) = 26.6 um
  near(ochre?.gap?.growthUm ?? 0, 26.6, { within: 0.05, because: 'three digits' })
  // 0.2 of 623.7 cm² is 124.7 cm²
  near(ochre?.coveredCm2 ?? 0, 124.74, { within: 1e-9, because: 'a product' })
  const film = black?.wetFilmUm?.high ?? 0
  near(black?.ink?.mixCm3 ?? 0, 120 + 124.74 * film * 1e-4 * 25, { within: 1e-9, because: 'a sum' })
  expect(black?.recipe?.parts.map(({ name }) => name)).toEqual(['black'])
  expect(ochre?.recipe?.parts.length).toBeGreaterThan(1)
  expect(ochre?.recipe?.deltaE).toBeLessThan(ochre?.recipe?.doubtDeltaE ?? 0)
  const inks = plan.layers.reduce((sum, { recipe }) => sum + (recipe?.cost ?? Number.NaN), 0)
  near(plan.cost?.total ?? 0, 7 * 1.9 + inks + 12 + 3, { within: 1e-9, because: 'a sum' })
  expect(plan.order.isAsGiven).toBe(true)
})

test('what nobody said stays open, and paper that did not rest wants a wider trap', () => {
  const nothing = printPlan({ ...FACTS, editionCount: null, paper: null }, {})
  expect(nothing).toMatchObject({ wanted: null, toPull: null, paper: null, cost: null })
  expect(nothing.layers[0]).toMatchObject({ ink: null, recipe: null, time: null })
  const bare = { ...layer('grey', [62, 1, 6], 0.6), film: null, screen: null }
  expect(printPlan({ ...FACTS, layers: [bare] }, {}).layers[0]).toMatchObject({ gap: null })
  const rested = printPlan(FACTS, ASKED).register
  const fresh = printPlan(FACTS, { ...ASKED, paperRested: false }).register
  expect(fresh.trapMm).toBeGreaterThan(1.1 * rested.trapMm)
  expect(printPlan(FACTS, { ...ASKED, paperRested: false }).register).toEqual(fresh)
  const large = {
    ...layer('wide', [50, 0, 0], 0.5),
    screen: { ...SCREEN, insideMm: { widthMm: 210, heightMm: 297 } },
  }
  const { gap, squeegee } = printPlan({ ...FACTS, layers: [large] }, ASKED).layers[0] ?? {}
  expect([gap?.growthUm, squeegee?.shortMm]).toEqual([null, 130])
})

test('a film’s cover is counted: a block of 64 by 100 cells of half a millimetre', () => {
  // 127 um a pixel: level 2, cells of four pixels
  const film = { widthPx: 1000, heightPx: 800, pixelUm: 127 }
  const places = coverTiles(film)
  expect(places).toEqual([{ level: 2, x: 0, y: 0 }])
  const bytes = new Uint8Array(CELL_PLANES.count * TILE_SIDE ** 2)
  const put = (x: number, y: number, marks: number): void => {
    bytes[CELL_PLANES.marks * TILE_SIDE ** 2 + y * TILE_SIDE + x] = marks
  }
  for (let y = 0; y < 64; y++) for (let x = 0; x < 100; x++) put(x, y, 255)
  for (let y = 0; y < 64; y++) put(100, y, 51) // a fifth of a cell more at its edge
  const [place] = places
  const cover = marksCover(film, place === undefined ? [] : [{ place, bytes }])
  near(cover.coverShare, (6400 + 12.8) / (250 * 200), { within: 1e-9, because: 'cells of 4 px' })
  near(cover.edgeShare, 12.8 / 6412.8, { within: 1e-9, because: 'the cells that are not whole' })
  expect(marksCover(film, [{ place: { level: 2, x: 0, y: 0 }, bytes: null }])).toEqual({
    coverShare: 0,
    edgeShare: 0,
  })
})

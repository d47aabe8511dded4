import { expect, test } from 'vitest'
import { areaMm2, boxAsPart, outlinesApart } from '../core/placement/outline.ts'
import { near } from '../core/units/near.testing.ts'
import { CELL_PLANES, TILE_SIDE } from '../raster/tiles.ts'
import { lightContours } from './placeContours.ts'
import { marksOfTile, wholeLevel } from './placeMarks.ts'
import { type Laying, lightOn, problemOf } from './placeProblem.ts'

const film = {
  widthPx: 4000,
  heightPx: 5000,
  pixelUm: 50,
  sheet: { widthMm: 200, heightMm: 250 },
}

test('marks reach as far as the cells that hold any, and no farther than the sheet', () => {
  const level = wholeLevel(film)
  expect(level).toBe(5) // 5000 / 2^5 = 156.25 cells of 1.6 mm
  const tile = new Uint8Array(TILE_SIDE * TILE_SIDE * CELL_PLANES.count)
  const mark = (x: number, y: number): void => {
    tile[CELL_PLANES.marks * TILE_SIDE * TILE_SIDE + y * TILE_SIDE + x] = 1
  }
  expect(marksOfTile(tile, film)).toBeNull()
  mark(10, 20)
  mark(30, 156)
  const found = marksOfTile(tile, film)?.box
  expect([found?.xMm, found?.yMm]).toEqual([16, 32])
  near(found?.widthMm ?? 0, 21 * 1.6, { within: 1e-9, because: 'cells 10 to 30, both counted' })
  near(found?.heightMm ?? 0, 250 - 32, {
    within: 1e-9,
    because: 'the last cell is cut by the sheet',
  })
})

test('an outline follows two bars that meet at a corner, and holds every cell of them', () => {
  const tile = new Uint8Array(TILE_SIDE * TILE_SIDE * CELL_PLANES.count)
  const cells: (readonly [number, number])[] = []
  for (let along = 0; along < 100; along++) {
    for (let wide = 0; wide < 8; wide++)
      cells.push([10 + along, 20 + wide], [10 + wide, 20 + along])
  }
  for (const [x, y] of cells) {
    tile[CELL_PLANES.marks * TILE_SIDE * TILE_SIDE + y * TILE_SIDE + x] = 1
  }
  const outline = marksOfTile(tile, film)?.outline ?? []
  const covered = outline.reduce((sum, part) => sum + areaMm2(part), 0)
  // 100 and 92 cells of 8, each 1.6 mm: of the rectangle of both they are 15 %.
  near(covered / ((100 * 8 + 92 * 8) * 1.6 ** 2), 1, {
    within: 0.1,
    because: 'parts are drawn together where that adds at most 6 % each time',
  })
  for (const [x, y] of cells) {
    const cell = boxAsPart({ xMm: 1.6 * x + 0.1, yMm: 1.6 * y + 0.1, widthMm: 1.4, heightMm: 1.4 })
    expect(outlinesApart([cell], outline)).toBeLessThan(0)
  }
})

const laying: Laying = {
  frame: { insideWidthMm: 500, insideHeightMm: 700 },
  outside: { widthMm: 580, heightMm: 780 },
  films: [{ name: 'sheet', widthMm: 200, heightMm: 250, marks: null, outline: null }],
  clearance: { frameMm: 150, betweenMm: 150 },
  onGlass: { xMm: 310, yMm: 60, turned: false },
  glass: {
    widthMm: 1200,
    heightMm: 900,
    marks: [
      { xMm: 400, yMm: 200, widthMm: 30, heightMm: 20 },
      { xMm: 5, yMm: 5, widthMm: 3, heightMm: 3 },
    ],
    // a tenth of a density more light at the front than at the back
    light: {
      low: { xMm: 0, yMm: 0 },
      high: { xMm: 1200, yMm: 900 },
      coefficients: [0.4, 0, -0.05],
    },
  },
}

test('only what lies under the screen is kept clear of, and the front of the glass is towards you', () => {
  expect(problemOf(laying).keepOut).toEqual([{ xMm: 50, yMm: 100, widthMm: 30, heightMm: 20 }])
  // The sheet's back edge lies 100 + 60 + 40 = 200 from the back, so 700 from the front.
  const light = lightOn(laying, [{ xMm: 20, yMm: 100, turned: false }])
  near(light?.least ?? 0, 10 ** (-0.05 * (700 / 450 - 1)), { within: 1e-9, because: 'a plane' })
  near(light?.most ?? 0, 10 ** (-0.05 * (450 / 450 - 1)), {
    within: 1e-9,
    because: '250 mm nearer',
  })
  expect(lightOn({ ...laying, onGlass: null }, [])).toBeNull()
})

test('lines of equal light lie where the light is that share', () => {
  const contours = lightContours(laying)
  expect(contours.map(({ share }) => Math.round(100 * share))).toEqual([95, 100, 105]) // from 91 to 109, at most six
  const [first] = contours.filter(({ share }) => share === 1)
  for (const [from, to] of first?.pieces ?? []) {
    // 450 from the front is 450 from the back: 350 inside the frame
    near(from.yMm, 350, { within: 0.5, because: 'straight pieces between the cells of a grid' })
    near(to.yMm, 350, { within: 0.5, because: 'straight pieces between the cells of a grid' })
  }
  expect(lightContours({ ...laying, glass: null })).toEqual([])
})

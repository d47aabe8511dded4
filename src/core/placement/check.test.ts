import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { marksOf } from './boxes.ts'
import { checkPlaced } from './check.ts'
import { dimensionLines } from './dimensions.ts'
import { glassPlaceOf, insideFrame, inTheMiddleOf, outsideOf } from './onGlass.ts'
import { placeFilms, placeUpright } from './place.ts'
import type { FilmToPlace, PlacementProblem } from './problem.ts'

const film = (more: Partial<FilmToPlace> = {}): FilmToPlace => ({
  name: 'boat',
  widthMm: 210,
  heightMm: 297,
  turn: 'fixed',
  ...more,
})
const on = (films: readonly FilmToPlace[], more: Partial<PlacementProblem> = {}) => ({
  frame: { insideWidthMm: 500, insideHeightMm: 700 },
  films,
  clearance: { frameMm: 150, betweenMm: 120 },
  keepOut: [],
  ...more,
})

describe('a film laid by hand', () => {
  test('each rule says how much there is, what is asked, and by how much it is missed', () => {
    const keepOut = [{ xMm: 340, yMm: 560, widthMm: 20, heightMm: 50 }]
    const asked = on([film(), film({ name: 'pears', widthMm: 80, heightMm: 60 })], { keepOut })
    const laid = [
      { xMm: 100, yMm: 155, turned: false },
      { xMm: 370, yMm: 300, turned: true },
    ]
    const { verdict, rules, worst, offCentreMm } = checkPlaced(asked, laid)
    expect(verdict).toBe('does not fit')
    // pears turned: 60 wide, so 500 - 370 - 60 = 70 are left at the right
    expect(rules).toMatchObject([
      { rule: 'clearance to the frame', leastMm: 70, shortMm: 80, films: [1] },
      { rule: 'clearance between films', leastMm: 60, shortMm: 60, films: [0, 1] },
      { rule: 'keep-out', leastMm: expect.closeTo(Math.hypot(30, 108), 9) as number, films: [0] },
    ])
    expect(worst.rule).toBe('clearance to the frame')
    expect(offCentreMm).toEqual({ xMm: (100 + 430 - 500) / 2, yMm: (155 + 452 - 700) / 2 })
    expect(() => checkPlaced(asked, laid.slice(1))).toThrow('expected 2 films, got 1')
  })

  test('marks count, not the clear film around them; the sheet only stays inside the frame', () => {
    // The sheet misses 150 by 5 mm on each side; its marks, 15 mm in from each side, keep it.
    const marks = { xMm: 15, yMm: 20, widthMm: 180, heightMm: 260 }
    expect(placeFilms(on([film()]))).toMatchObject({ verdict: 'does not fit' })
    const fits = placeFilms(on([film({ marks })]))
    expect(fits).toMatchObject({ verdict: 'fits', proved: true, worst: { shortMm: 0 } })
    near(fits.films[0]?.xMm ?? 0, 145, { within: 1e-6, because: '(500 - 180) / 2 - 15' })
    near(fits.films[0]?.yMm ?? 0, 200, { within: 1e-6, because: '(700 - 260) / 2 - 20' })
    // A small drawing on a sheet as wide as the frame: the sheet comes first.
    const wide = film({ widthMm: 520, marks: { xMm: 200, yMm: 90, widthMm: 50, heightMm: 60 } })
    const { worst } = placeFilms(on([wide]))
    expect(worst.rule).toBe('sheet inside the frame')
    near(worst.shortMm, 10, { within: 1e-6, because: '(520 - 500) / 2' })
  })

  test('two films beside a scratch that leaves a slant no room have an answer', () => {
    // It was once looked for without end.
    const keepOut = [{ xMm: 398, yMm: 540, widthMm: 52, heightMm: 96 }]
    const pears = { xMm: 69.1, yMm: 155.8, widthMm: 123.3, heightMm: 92.1 }
    const kettle = { xMm: 17.6, yMm: 84, widthMm: 117.9, heightMm: 100.2 }
    const clearance = { frameMm: 150, betweenMm: 150 }
    const two = on([film({ marks: pears }), film({ marks: kettle })], { keepOut, clearance })
    expect(placeFilms(two)).toMatchObject({ verdict: 'does not fit' })
    const turning = two.films.map((each) => ({ ...each, turn: 'quarter' as const }))
    expect(placeUpright({ ...two, films: turning }).verdict).toBe('fits')
  })

  test('a turned sheet takes its marks a quarter round, clockwise', () => {
    const marks = { xMm: 10, yMm: 30, widthMm: 100, heightMm: 200 }
    // what was 30 from the top and 297 - 230 = 67 from the bottom is now so far from right and left
    expect(marksOf(film({ marks }), { xMm: 1000, yMm: 2000, turned: true })).toEqual({
      xMm: 1067,
      yMm: 2010,
      widthMm: 200,
      heightMm: 100,
    })
  })
})

test('dimension lines reach from all four sides to the frame, or to the film between', () => {
  const two = on([film({ widthMm: 100, heightMm: 200 }), film({ widthMm: 120, heightMm: 150 })])
  const lines = dimensionLines(two, [
    { xMm: 50, yMm: 60, turned: false },
    { xMm: 230, yMm: 90, turned: false },
  ])
  expect(
    lines.map(({ film: of, side, reaches, lengthMm }) => [of, side, reaches, lengthMm]),
  ).toEqual([
    [0, 'left', 'frame', 50],
    [0, 'top', 'frame', 60],
    [0, 'bottom', 'frame', 700 - 260],
    [1, 'left', 'film', 230 - 150],
    [1, 'top', 'frame', 90],
    [1, 'right', 'frame', 500 - 350],
    [1, 'bottom', 'frame', 700 - 240],
  ])
  // Beyond the frame there is nothing to measure.
  expect(dimensionLines(on([film()]), [{ xMm: -5, yMm: 0.01, turned: false }])).toHaveLength(2)
})

test('invariant: along each axis lines and sheets add up to the frame', () => {
  const places = fc.record({
    xMm: fc.double({ min: 1, max: 200, noNaN: true }),
    yMm: fc.double({ min: 1, max: 200, noNaN: true }),
    turned: fc.boolean(),
  })
  fc.assert(
    fc.property(places, (placed) => {
      const lines = dimensionLines(on([film()]), [placed])
      const [left = 0, top = 0, right = 0, bottom = 0] = lines.map(({ lengthMm }) => lengthMm)
      expect(left + right).toBeCloseTo(500 - (placed.turned ? 297 : 210), 6)
      expect(top + bottom).toBeCloseTo(700 - (placed.turned ? 210 : 297), 6)
      for (const { from, to, lengthMm } of lines) {
        expect(Math.hypot(from.xMm - to.xMm, from.yMm - to.yMm)).toBeCloseTo(lengthMm, 9)
      }
    }),
  )
})

describe('a screen on the glass', () => {
  const frame = {
    insideWidthMm: 500,
    insideHeightMm: 700,
    outsideWidthMm: null,
    outsideHeightMm: 790,
  }
  const outside = outsideOf(frame)
  const glass = { widthMm: 1200, heightMm: 900 }

  test('lies in the middle, its outside with usual bars where nobody measured them', () => {
    expect(outside).toEqual({ widthMm: 580, heightMm: 790 })
    expect(inTheMiddleOf(glass, outside)).toEqual({ xMm: 310, yMm: 55, turned: false })
  })

  test('a scratch is seen where it is, straight and turned, and not beyond the frame', () => {
    const scratch = { xMm: 400, yMm: 200, widthMm: 30, heightMm: 80 }
    const straight = { frame, outside, laid: { xMm: 310, yMm: 55, turned: false } }
    // 400 - 310 - 40 of bar; 200 - 55 - 45
    expect(insideFrame(scratch, straight)).toEqual({ ...scratch, xMm: 50, yMm: 100 })
    expect(insideFrame({ ...scratch, xMm: 310 }, straight)).toBeNull()
    const turned = { frame, outside, laid: { xMm: 100, yMm: 20, turned: true } }
    const seen = insideFrame(scratch, turned)
    expect(seen).toMatchObject({ widthMm: 80, heightMm: 30 })
    // its corner that is top left inside the frame is the lower left one on the glass
    const corner = glassPlaceOf(seen ?? scratch, turned)
    near(corner.xMm, scratch.xMm + scratch.widthMm, { within: 1e-9, because: 'a quarter turn' })
    near(corner.yMm, scratch.yMm, { within: 1e-9, because: 'a quarter turn' })
  })
})

import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { checkPlaced } from './check.ts'
import { lightOnMarks, lightSurface } from './light.ts'
import { hullOf, outlinesApart, silhouetteOf } from './outline.ts'
import { placeFilms } from './place.ts'
import type { FilmToPlace, PlacedFilm, PlacementProblem } from './problem.ts'
import { wishedFor } from './wishes.ts'

const at = (xMm: number, yMm: number) => ({ xMm, yMm })
const frame = { insideWidthMm: 900, insideHeightMm: 700 }
/** A lamp over a place, falling off as the square of the way from there. */
const lampOver = (x: number, y: number, fallsBy: number) =>
  lightSurface(({ xMm, yMm }) => 10 ** (-fallsBy * ((xMm - x) ** 2 + (yMm - y) ** 2)), frame)
const on = (films: readonly FilmToPlace[], more: Partial<PlacementProblem> = {}) => ({
  frame,
  films,
  clearance: { frameMm: 60, betweenMm: 30 },
  keepOut: [],
  ...more,
})
const film = (name: string, widthMm: number, heightMm: number): FilmToPlace => ({
  name,
  widthMm,
  heightMm,
  turn: 'fixed',
})

describe('light counts while places are searched for', () => {
  test('a film lies nearer to the brightest place the more the light falls off, and rules come first', () => {
    const one = on([film('boat', 200, 200)])
    const middleX = (problem: PlacementProblem): number =>
      (placeFilms(problem).films[0]?.xMm ?? 0) + 100
    expect(middleX(one)).toBeCloseTo(450, 3)
    const [faint, strong] = [1e-7, 2e-6].map((by) =>
      middleX({ ...one, light: lampOver(250, 350, by) }),
    )
    expect(faint).toBeGreaterThan(440)
    expect(strong).toBeLessThan(345)
    // a scratch under the bright place is kept clear of all the same
    const keepOut = [{ xMm: 240, yMm: 0, widthMm: 20, heightMm: 700 }]
    const beside = { ...one, light: lampOver(250, 350, 2e-6), keepOut }
    const laid = placeFilms(beside)
    expect(laid.verdict).toBe('fits')
    near(laid.films[0]?.xMm ?? 0, 260, { within: 25, because: 'a little clearance is wished too' })
  })

  test('invariant: no arrangement on a grid is nearer to what is wished', () => {
    // Brute force, independent of the search: one film on places of 20 mm, two on places of 70 mm.
    const keepOut = [{ xMm: 420, yMm: 300, widthMm: 30, heightMm: 60 }]
    for (const light of [lampOver(250, 200, 1e-6), lampOver(700, 600, 3e-7)]) {
      const one = on([film('boat', 210, 150)], { light, keepOut })
      const best = wishedFor(one, placeFilms(one).films)
      expect(best).toBeLessThan(gridBest(one, 20) + 0.5)
      const two = on([film('boat', 210, 150), film('pears', 150, 120)], { light, keepOut })
      expect(wishedFor(two, placeFilms(two).films)).toBeLessThan(gridBest(two, 70) + 0.5)
    }
  })

  test('a surface through six places is the light everywhere', () => {
    const one = on([film('boat', 300, 200)], { light: lampOver(450, 350, 1e-6) })
    // from the middle to a corner: 150 and 100 mm
    const told = lightOnMarks(one, [{ xMm: 300, yMm: 250, turned: false }])
    near(told?.most ?? 0, 1, { within: 1e-9, because: 'the lamp is over its middle' })
    near(told?.least ?? 0, 10 ** (-1e-6 * (150 ** 2 + 100 ** 2)), {
      within: 1e-9,
      because: 'the corners are furthest from it',
    })
  })
})

function gridBest(problem: PlacementProblem, stepMm: number): number {
  const places = (size: number, inside: number): number[] =>
    Array.from({ length: Math.floor((inside - size) / stepMm) + 1 }, (_, index) => index * stepMm)
  const laidBy = (before: readonly PlacedFilm[]): number => {
    const next = problem.films[before.length]
    if (next === undefined) return wishedFor(problem, before)
    let best = Number.POSITIVE_INFINITY
    for (const xMm of places(next.widthMm, frame.insideWidthMm)) {
      for (const yMm of places(next.heightMm, frame.insideHeightMm)) {
        best = Math.min(best, laidBy([...before, { name: next.name, xMm, yMm, turned: false }]))
      }
    }
    return best
  }
  return laidBy([])
}

describe('outlines', () => {
  const triangle = hullOf([at(0, 0), at(200, 0), at(0, 200), at(40, 40)])

  test('the way between two is the shortest of corner to side, and below 0 one frees the other', () => {
    expect(triangle).toHaveLength(3)
    const moved = (x: number, y: number) => triangle.map(({ xMm, yMm }) => at(xMm + x, yMm + y))
    // the long side is the line x + y = 200; the corner 300, 300 lies 400 / sqrt 2 beyond it
    near(outlinesApart([triangle], [moved(300, 300)]), 400 / Math.SQRT2, {
      within: 1e-9,
      because: 'a corner to a line',
    })
    near(outlinesApart([triangle], [moved(150, 0)]), -50 / Math.SQRT2, {
      within: 1e-9,
      because: '50 of its corner is cut by the line at 45 degrees',
    })
    expect(outlinesApart([triangle], [moved(230, 0)])).toBeCloseTo(30, 9)
  })

  test('two triangles lie closer than their rectangles may, in a smaller frame', () => {
    const marks = { xMm: 0, yMm: 0, widthMm: 200, heightMm: 200 }
    const upper: FilmToPlace = { ...film('upper', 200, 200), marks, outline: [triangle] }
    const other = [hullOf([at(200, 200), at(0, 200), at(200, 0)])]
    const lower: FilmToPlace = { ...film('lower', 200, 200), marks, outline: other }
    const two = on([upper, lower], {
      frame: { insideWidthMm: 400, insideHeightMm: 420 },
      clearance: { frameMm: 20, betweenMm: 20 },
    })
    const byBoxes = placeFilms({
      ...two,
      films: [
        { ...film('upper', 200, 200), marks },
        { ...film('lower', 200, 200), marks },
      ],
    })
    const byOutlines = placeFilms(two)
    expect(byBoxes.verdict).toBe('does not fit')
    expect(byOutlines).toMatchObject({ verdict: 'fits', proved: false })
    expect(checkPlaced(two, byOutlines.films).verdict).toBe('fits')
    const { smallestFrame } = byOutlines
    expect(smallestFrame.insideWidthMm).toBeLessThan(0.95 * byBoxes.smallestFrame.insideWidthMm)
    expect(placeFilms({ ...two, frame: smallestFrame }).verdict).toBe('fits')
  })

  test('what is seen of overlapping parts has the length of the whole outline', () => {
    const [a, b] = [
      hullOf([at(0, 0), at(10, 0), at(0, 10), at(10, 10)]),
      hullOf([at(5, 2), at(20, 2), at(5, 8), at(20, 8)]),
    ]
    const long = silhouetteOf([a, b]).reduce(
      (sum, { from, to }) => sum + Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm),
      0,
    )
    // 40 about the square less 6 where the other enters; 10 + 6 + 10 of that one
    near(long, 60, { within: 1e-9, because: 'counted by hand' })
  })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import {
  filmAt,
  kept,
  moved,
  placeInBox,
  type Sight,
  viewOf,
  wholeFilm,
  zoomed,
} from './viewState.ts'

const FILM = { widthPx: 5953, heightPx: 8419, pixelUm: 35.28 }
const BOX = { widthPx: 820, heightPx: 570 }

const sights = fc
  .record({
    x: fc.double({ min: -2000, max: 9000, noNaN: true }),
    y: fc.double({ min: -2000, max: 11_000, noNaN: true }),
    scale: fc.double({ min: 0.01, max: 60, noNaN: true }),
  })
  .map((sight) => kept(sight, FILM, BOX))
const places = fc.record({
  x: fc.double({ min: 0, max: 820, noNaN: true }),
  y: fc.double({ min: 0, max: 570, noNaN: true }),
})

test('the whole film stands in the middle of its box', () => {
  const sight = wholeFilm(FILM, BOX)
  expect(placeInBox({ x: 0, y: 0 }, sight, BOX).y).toBeCloseTo(0, 9)
  expect(placeInBox({ x: 5953, y: 8419 }, sight, BOX).y).toBeCloseTo(570, 9)
  expect(placeInBox({ x: 5953 / 2, y: 0 }, sight, BOX).x).toBeCloseTo(410, 9)
})

describe('invariant: whatever one does', () => {
  const inside = (sight: Sight): void => {
    expect(kept(sight, FILM, BOX)).toEqual(sight)
    expect(sight.scale).toBeGreaterThanOrEqual(wholeFilm(FILM, BOX).scale)
  }

  test('the film stays in its box', () => {
    fc.assert(
      fc.property(
        sights,
        places,
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (sight, at, factor) => {
          inside(zoomed(sight, { factor, at }, FILM, BOX))
          inside(moved(sight, { x: at.x - 400, y: at.y - 300 }, FILM, BOX))
        },
      ),
      { seed: 41 },
    )
  })

  test('a place and its film pixel are two names of one thing', () => {
    fc.assert(
      fc.property(sights, places, (sight, at) => {
        const back = placeInBox(filmAt(at, sight, BOX), sight, BOX)
        near(back.x, at.x, { within: 1e-6, because: 'there and back in 64 bits' })
        near(back.y, at.y, { within: 1e-6, because: 'there and back in 64 bits' })
      }),
      { seed: 43 },
    )
  })
})

test('coming nearer leaves the pixel under the pointer where it is', () => {
  const sight = kept({ x: 3000, y: 4000, scale: 0.5 }, FILM, BOX)
  const at = { x: 611, y: 123 }
  const next = zoomed(sight, { factor: 3, at }, FILM, BOX)
  const [before, after] = [filmAt(at, sight, BOX), filmAt(at, next, BOX)]
  near(after.x, before.x, { within: 1e-6, because: 'nothing was in the way' })
  near(after.y, before.y, { within: 1e-6, because: 'nothing was in the way' })
})

test('a dense screen is painted with no more pixels than a frame has time for', () => {
  const view = viewOf(wholeFilm(FILM, BOX), BOX, 4)
  expect(view.widthPx * view.heightPx).toBeLessThan(2_110_000)
  expect(view.widthPx / view.heightPx).toBeCloseTo(820 / 570, 2)
  expect(viewOf(wholeFilm(FILM, BOX), BOX, 1)).toMatchObject({ widthPx: 820, heightPx: 570 })
})

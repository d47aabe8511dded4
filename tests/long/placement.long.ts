import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { type Placement, placeFilms } from '../../src/core/placement/place.ts'
import type { FilmToPlace, InsideFrame } from '../../src/core/placement/problem.ts'
import { near } from '../../src/core/units/near.testing.ts'

type Solved = Readonly<{
  frame: InsideFrame
  films: readonly Omit<FilmToPlace, 'name'>[]
  /** The largest margin to the frame that there is, films touching. */
  marginMm: number
}>

const SOLVED = JSON.parse(
  await readFile(new URL('placementOracle.json', import.meta.url), 'utf8'),
) as readonly Solved[]

/** Wanted is more than any of them has: so the answer is by how much the margin misses it. */
const WANTED_MM = 2000

test.each(SOLVED)(
  'oracle milp-placement: $films.length films have no larger margin than a general-purpose optimiser proved',
  ({ frame, films, marginMm }) => {
    const { worst, proved }: Placement = placeFilms({
      frame,
      films: films.map((film, at) => ({ ...film, name: `film ${at}` })),
      clearance: { frameMm: WANTED_MM, betweenMm: 0 },
      keepOut: [],
    })
    const found = WANTED_MM - worst.shortMm
    expect(found).toBeLessThanOrEqual(marginMm + 1e-3)
    near(found, marginMm, { within: 1e-3, because: 'both are said to be the best' })
    expect(proved).toBe(true)
  },
)

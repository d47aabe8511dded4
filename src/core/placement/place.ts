import { onSheet } from './boxes.ts'
import { checkPlaced, type Rule } from './check.ts'
import { countedOf } from './counted.ts'
import type { Goal } from './plan.ts'
import {
  expectProblem,
  type InsideFrame,
  type PlacedFilm,
  type PlacementProblem,
} from './problem.ts'
import { inRows } from './rows.ts'
import { searched } from './search.ts'
import { smallerFrame, wishedBest } from './wishes.ts'

/** Where films lie best, or by how much they miss. */
export type Placement = Readonly<{
  verdict: 'fits' | 'does not fit'
  films: readonly PlacedFilm[]
  /** The rule that is missed by most, or kept by least: then 0. */
  worst: Readonly<{ rule: Rule; shortMm: number }>
  /** Of the given proportion, the least in which all rules are kept. */
  smallestFrame: InsideFrame
  /**
   * That the verdict, what is missed and the smallest frame are the best there are; false where
   * there were too many arrangements to try all, or marks leave so much of their sheets clear that
   * the sheets come first to the frame.
   */
  proved: boolean
}>

/** Above this number of films arrangements are only tried, not searched through. */
const MOST_SEARCHED = 8
/** Rows are left for a plan that is as good: its films lie in the middle of their room. */
const HARDLY_MM = 2e-3
/** The smallest frame is given so much larger than its bound, so that rounding leaves it one. */
const ROUNDED_UP = 1e-9

/**
 * Lays films inside a frame so that the clearance that is worst off is as good as can be, and each
 * film in the middle of what room is left; or, where they do not fit, so that the rule that is
 * missed by most is missed by least.
 *
 * @throws RangeError as `expectProblem`
 * @source placement-rules, disjunctive-placement
 */
export function placeFilms(problem: PlacementProblem): Placement {
  expectProblem(problem)
  const counted = problem.films.map((film) => countedOf(film, problem))
  const order = counted
    .map(({ film, within }, at) => ({ film, within, at }))
    .sort(
      (a, b) => b.film.widthMm * b.film.heightMm - a.film.widthMm * a.film.heightMm || a.at - b.at,
    )
  const sorted = { ...problem, films: order.map(({ film }) => film) }
  const relief = bestOf(sorted, 'relief')
  const scale = bestOf(sorted, 'scale')
  const sheetsOf = (found: readonly PlacedFilm[]): readonly PlacedFilm[] => {
    const films: PlacedFilm[] = []
    for (const [index, { at, within }] of order.entries()) {
      const [placed, sheet] = [found[index], problem.films[at]]
      if (placed === undefined || sheet === undefined) continue
      const { xMm, yMm } = onSheet(sheet, within, placed.turned)
      films[at] = { ...placed, xMm: placed.xMm - xMm, yMm: placed.yMm - yMm }
    }
    return films
  }
  const first = sheetsOf(relief.films)
  const films = isWished(problem) ? wishedBest(problem, first) : first
  const { verdict, worst } = checkPlaced(problem, films)
  const fits = verdict === 'fits'
  const bySearch = fits ? Math.min(1, scale.value) : scale.value
  const byOutline = isByRectangles(problem)
    ? bySearch
    : smallerFrame(problem, { share: bySearch, laid: sheetsOf(scale.films) })
  const share = byOutline * (1 + ROUNDED_UP)
  return {
    verdict,
    films,
    worst: { rule: worst.rule, shortMm: fits ? 0 : worst.shortMm },
    smallestFrame: {
      insideWidthMm: problem.frame.insideWidthMm * share,
      insideHeightMm: problem.frame.insideHeightMm * share,
    },
    proved:
      relief.proved &&
      scale.proved &&
      isByRectangles(problem) &&
      counted.every(({ isExact }) => isExact),
  }
}

/** Light or outlines are known, which the search by rectangles leaves out. */
function isWished({ films, light }: PlacementProblem): boolean {
  return light !== undefined || films.some(({ outline }) => outline !== undefined)
}

/** Rectangles say all that the rules ask: alone in a clean frame an outline asks no more. */
function isByRectangles({ films, keepOut }: PlacementProblem): boolean {
  const isAlone = films.length === 1 && keepOut.length === 0
  return isAlone || films.every(({ outline }) => outline === undefined)
}

/**
 * The same where films are turned only if they must be: as they are where all rules can be kept so.
 *
 * @throws RangeError as `expectProblem`
 */
export function placeUpright(problem: PlacementProblem): Placement {
  const films = problem.films.map((film) => ({ ...film, turn: 'fixed' as const }))
  const upright = placeFilms({ ...problem, films })
  const mayTurn = problem.films.some(({ turn }) => turn === 'quarter')
  return upright.verdict === 'fits' || !mayTurn ? upright : placeFilms(problem)
}

/**
 * The same on a glass: a larger frame would be laid where nothing on the glass is in its way, so the
 * smallest that would do counts the rules of the frame alone.
 *
 * @throws RangeError as `expectProblem`
 */
export function placeOnGlass(problem: PlacementProblem): Placement {
  const placed = placeUpright(problem)
  if (placed.verdict === 'fits' || problem.keepOut.length === 0) return placed
  const { frame, films, clearance } = problem
  const { smallestFrame } = placeUpright({ frame, films, clearance, keepOut: [] })
  return { ...placed, smallestFrame }
}

type Laid = Readonly<{ films: readonly PlacedFilm[]; value: number; proved: boolean }>

function bestOf(problem: PlacementProblem, goal: Goal): Laid {
  const bounds = boundsOf(problem, goal)
  const rows = inRows(problem, { goal, ...bounds })
  const high = rows?.value ?? bounds.high
  if (problem.films.length > MOST_SEARCHED) {
    return { films: rows?.films ?? [], value: high, proved: false }
  }
  const { insideWidthMm, insideHeightMm } = problem.frame
  const hardly = goal === 'scale' ? HARDLY_MM / Math.max(insideWidthMm, insideHeightMm) : HARDLY_MM
  const { films, value, proved } = searched(problem, {
    goal,
    known: high + hardly,
    low: bounds.low,
  })
  if (films === null) return { films: rows?.films ?? [], value: high, proved }
  const named = films.map((lying, at) => ({ name: problem.films[at]?.name ?? '', ...lying }))
  return { films: named, value, proved }
}

/** No value below `low` can be; at `high` all films have room in one row. */
function boundsOf(problem: PlacementProblem, goal: Goal): Readonly<{ low: number; high: number }> {
  const { frame, films, clearance, keepOut } = problem
  const { insideWidthMm, insideHeightMm } = frame
  const longest = films.reduce((sum, { widthMm, heightMm }) => sum + Math.max(widthMm, heightMm), 0)
  const beyond = keepOut.reduce(
    (most, box) => Math.max(most, box.xMm + box.widthMm, box.yMm + box.heightMm),
    0,
  )
  const row = longest + beyond + 2 * clearance.frameMm + films.length * clearance.betweenMm
  const isScale = goal === 'scale'
  const high = isScale ? (1.001 * row) / Math.min(insideWidthMm, insideHeightMm) : row + 1
  let [low, enough] = [isScale ? 0 : -Math.max(insideWidthMm, insideHeightMm), high]
  for (let halving = 0; halving < HALVINGS; halving++) {
    const value = (low + enough) / 2
    if (mayHold(problem, { goal, value })) enough = value
    else low = value
  }
  return { low, high }
}

const HALVINGS = 50

/**
 * Whether the frame is large enough for each film by itself, and for the area of all, each with
 * half of the gap around it: round at its corners.
 */
function mayHold(
  { frame, films, clearance }: PlacementProblem,
  { goal, value }: Readonly<{ goal: Goal; value: number }>,
): boolean {
  const scale = goal === 'scale' ? value : 1
  const relief = goal === 'relief' ? value : 0
  const between = Math.max(0, clearance.betweenMm - relief)
  const across = frame.insideWidthMm * scale - 2 * (clearance.frameMm - relief)
  const down = frame.insideHeightMm * scale - 2 * (clearance.frameMm - relief)
  const fits = (width: number, height: number): boolean => width <= across && height <= down
  const each = films.every(
    ({ widthMm, heightMm, turn }) =>
      fits(widthMm, heightMm) || (turn === 'quarter' && fits(heightMm, widthMm)),
  )
  if (!each) return false
  const area = films.reduce(
    (sum, { widthMm, heightMm }) =>
      sum + widthMm * heightMm + between * (widthMm + heightMm) + (Math.PI / 4) * between ** 2,
    0,
  )
  return area <= (across + between) * (down + between)
}

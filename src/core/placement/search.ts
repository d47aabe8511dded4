import { growing } from './growing.ts'
import { type Goal, leaned, leastFor, type OffBox, type Pair, type Plan } from './plan.ts'
import type { PlacementProblem } from './problem.ts'
import { axisSides, type Side, SLANTED, STRAIGHT } from './sides.ts'

/** The best plan that was found, and whether it was shown that none is better. */
export type Found = Readonly<{ plan: Plan | null; value: number; proved: boolean }>

/** Times that places are worked out in one search; of a whole plan anew, each counts for more. */
const MOST_STEPS = 400_000
const STEPS_A_WHOLE_PLAN = 8
/** Where all rules are kept already, a better place is a wish: worth so many. */
const MOST_STEPS_OF_A_WISH = 60_000
/** What is no better than this share of a millimetre, or of the frame, is as good. */
const AS_GOOD: Readonly<Record<Goal, number>> = { relief: 1e-6, scale: 1e-9 }

/**
 * Branch and bound: film by film, the largest first, in either turn, and for every pair which side
 * one lies of the other; a branch in which even the films so far cannot do better than what was
 * found is left. Straight sides first, then corners too, which only a shorter way round can use.
 *
 * @param problem films in the order of the search
 * @param known a value that can be reached otherwise: only better ones are looked for
 * @source disjunctive-placement
 */
export function searched(
  problem: PlacementProblem,
  { goal, known, low }: Readonly<{ goal: Goal; known: number; low: number }>,
): Found {
  const straight = searchedBy(problem, {
    goal,
    low,
    best: { plan: null, value: known },
    sides: STRAIGHT,
  })
  if (problem.films.length < 2 || problem.clearance.betweenMm === 0) return straight
  return searchedBy(problem, { goal, low, best: straight, sides: [...STRAIGHT, ...SLANTED] })
}

type Best = Readonly<{ plan: Plan | null; value: number }>

function searchedBy(
  problem: PlacementProblem,
  {
    goal,
    low,
    best: first,
    sides,
  }: Readonly<{ goal: Goal; low: number; best: Best; sides: readonly Side[] }>,
): Found {
  const { films, keepOut } = problem
  let best: Best = first
  let steps = 0
  const turned: boolean[] = []
  const pairs: Pair[] = []
  const offBoxes: OffBox[] = []
  const now = (): Plan => ({ turned: [...turned], pairs: [...pairs], offBoxes: [...offBoxes] })
  const isKept = (): boolean => goal === 'relief' && best.value <= 0
  const mostSteps = (): number => (isKept() ? MOST_STEPS_OF_A_WISH : MOST_STEPS)
  const grown = growing(problem, goal)
  const mayBeBetter = (): boolean => {
    steps += 1
    const value = best.value - AS_GOOD[goal]
    return value > low && grown.mayReach(value)
  }

  const settle = (): void => {
    const bounds = { goal, low, high: best.value - AS_GOOD[goal] }
    const plan = now()
    if (plan.pairs.every(({ side }) => !side.includes(' '))) {
      best = { plan, value: leastFor(problem, plan, bounds) }
      return
    }
    const found = leaned(problem, plan, bounds)
    steps += STEPS_A_WHOLE_PLAN * found.steps
    if (found.plan !== null) best = found
  }

  /** Keeps film `film` off everything from `against` on: the films before it, then the boxes. */
  const apart = (film: number, against: number): void => {
    if (steps > mostSteps()) return
    if (against < film) {
      for (const side of sides) {
        if (isMirrored(problem, { turned, one: against, other: film, side })) continue
        pairs.push({ one: against, other: film, side, slantDeg: null })
        grown.pair(against, film, side)
        if (mayBeBetter()) apart(film, against + 1)
        grown.back()
        pairs.pop()
      }
      return
    }
    const box = against - film
    if (box < keepOut.length) {
      for (const side of STRAIGHT) {
        offBoxes.push({ film, box, side })
        grown.offBox(film, box, side)
        if (mayBeBetter()) apart(film, against + 1)
        grown.back()
        offBoxes.pop()
      }
      return
    }
    if (film + 1 < films.length) next(film + 1)
    else settle()
  }

  const next = (film: number): void => {
    const { turn, widthMm, heightMm } = films[film] ?? { turn: 'fixed', widthMm: 0, heightMm: 0 }
    for (const isTurned of turn === 'quarter' && widthMm !== heightMm ? [false, true] : [false]) {
      turned.push(isTurned)
      grown.film(isTurned)
      if (mayBeBetter()) apart(film, 0)
      grown.back()
      turned.pop()
    }
  }

  next(0)
  return { ...best, proved: isKept() || steps <= MOST_STEPS }
}

/** Of two films that are the same the first is never the one to the right. */
function isMirrored(
  { films }: PlacementProblem,
  {
    turned,
    one,
    other,
    side,
  }: Readonly<{ turned: readonly boolean[]; one: number; other: number; side: Side }>,
): boolean {
  const [a, b] = [films[one], films[other]]
  if (a === undefined || b === undefined) return false
  const isSame =
    a.widthMm === b.widthMm && a.heightMm === b.heightMm && turned[one] === turned[other]
  return isSame && axisSides(side, null).x?.first === 'that'
}

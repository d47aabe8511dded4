import { sheetOf } from './boxes.ts'
import { type Goal, leaned, type OffBox, type Pair, type Plan } from './plan.ts'
import type { Box, PlacedFilm, PlacementProblem } from './problem.ts'
import type { Side } from './sides.ts'

/**
 * The plan that an arrangement follows, and the least value of the goal that the plan allows.
 *
 * @param value that the arrangement reaches
 * @returns null where no plan says the arrangement: a film across the corner of a keep-out
 */
export function planOf(
  problem: PlacementProblem,
  lying: readonly Omit<PlacedFilm, 'name'>[],
  { goal, value, low }: Readonly<{ goal: Goal; value: number; low: number }>,
): Readonly<{ plan: Plan; value: number }> | null {
  const { films, keepOut } = problem
  const boxes = films.map((film, at) => {
    const place = lying[at]
    if (place === undefined) throw new RangeError(`lying: film ${at} lies nowhere`)
    return sheetOf(film, place)
  })
  const pairs: Pair[] = []
  const offBoxes: OffBox[] = []
  for (const [other, b] of boxes.entries()) {
    for (const [one, a] of boxes.slice(0, other).entries()) {
      pairs.push({ one, other, ...sideOf(a, b) })
    }
    for (const [box, kept] of keepOut.entries()) {
      offBoxes.push({ film: other, box, side: straightSide(b, kept) })
    }
  }
  const plan: Plan = { turned: lying.map(({ turned }) => turned), pairs, offBoxes }
  const best = leaned(problem, plan, { goal, low, high: value })
  return best.plan === null ? null : { plan: best.plan, value: best.value }
}

function gaps(a: Box, b: Box): Readonly<Record<'left' | 'right' | 'above' | 'below', number>> {
  return {
    left: b.xMm - a.xMm - a.widthMm,
    right: a.xMm - b.xMm - b.widthMm,
    above: b.yMm - a.yMm - a.heightMm,
    below: a.yMm - b.yMm - b.heightMm,
  }
}

function straightSide(a: Box, b: Box): 'left' | 'right' | 'above' | 'below' {
  const { left, right, above, below } = gaps(a, b)
  const most = Math.max(left, right, above, below)
  if (most === left) return 'left'
  if (most === right) return 'right'
  return most === above ? 'above' : 'below'
}

const DEG = 180 / Math.PI
/** A slant that hardly leans is straight. */
const HARDLY_DEG = 1e-4

function sideOf(a: Box, b: Box): Readonly<{ side: Side; slantDeg: number | null }> {
  const { left, right, above, below } = gaps(a, b)
  const [across, down] = [Math.max(left, right), Math.max(above, below)]
  const leanDeg = DEG * Math.atan2(Math.min(across, down), Math.max(across, down))
  if (across <= 0 || down <= 0 || leanDeg < HARDLY_DEG) {
    return { side: straightSide(a, b), slantDeg: null }
  }
  const corner = `${left > right ? 'left' : 'right'} ${above > below ? 'above' : 'below'}` as const
  return { side: `${corner}, ${across >= down ? 'wide' : 'high'}`, slantDeg: leanDeg }
}

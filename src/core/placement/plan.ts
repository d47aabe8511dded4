import { type AxisRule, type Spans, spansOn } from './axis.ts'
import type { PlacementProblem } from './problem.ts'
import { axisSides, type Side } from './sides.ts'

/** Two films and how they are kept apart. */
export type Pair = Readonly<{ one: number; other: number; side: Side; slantDeg: number | null }>
/** A film and how it is kept off a box. */
export type OffBox = Readonly<{ film: number; box: number; side: Side }>

/** Which films are turned, and how all are kept apart. Films by their place in the search. */
export type Plan = Readonly<{
  turned: readonly boolean[]
  pairs: readonly Pair[]
  offBoxes: readonly OffBox[]
}>

/**
 * What is made as small as can be: by how much every clearance falls short of what is asked, or how
 * large the frame is in parts of what it is.
 */
export type Goal = 'relief' | 'scale'

type PlanSpans = Readonly<{ x: Spans; y: Spans }>

/** Earliest and latest places under a plan at a value of the goal; null where it cannot be. */
export function planSpans(
  { frame, films, clearance, keepOut }: PlacementProblem,
  { turned, pairs, offBoxes }: Plan,
  { goal, value }: Readonly<{ goal: Goal; value: number }>,
): PlanSpans | null {
  const scale = goal === 'scale' ? value : 1
  const relief = goal === 'relief' ? value : 0
  const [xRules, yRules]: [AxisRule[], AxisRule[]] = [[], []]
  for (const { one, other, side, slantDeg } of pairs) {
    const { x, y } = axisSides(side, slantDeg)
    for (const [rules, axis] of [
      [xRules, x],
      [yRules, y],
    ] as const) {
      if (axis === null) continue
      const [from, to] = axis.first === 'this' ? [one, other] : [other, one]
      rules.push({ kind: 'before', from, to, gapShare: axis.gapShare })
    }
  }
  for (const { film, box, side } of offBoxes) {
    const kept = keepOut[box]
    if (kept === undefined) throw new RangeError(`plan: there is no box ${box}`)
    const kind = side === 'left' || side === 'above' ? 'before box' : 'after box'
    if (side === 'left' || side === 'right') {
      xRules.push({ kind, film, start: kept.xMm, length: kept.widthMm })
    } else yRules.push({ kind, film, start: kept.yMm, length: kept.heightMm })
  }
  const count = turned.length
  const sizes = (along: 'x' | 'y'): number[] =>
    Array.from({ length: count }, (_, at) => {
      const film = films[at]
      const isWidth = (along === 'x') !== (turned[at] ?? false)
      return (isWidth ? film?.widthMm : film?.heightMm) ?? 0
    })
  const x = spansOn(
    { lengthMm: frame.insideWidthMm * scale, sizesMm: sizes('x'), ...clearance },
    xRules,
    relief,
  )
  if (x === null) return null
  const y = spansOn(
    { lengthMm: frame.insideHeightMm * scale, sizesMm: sizes('y'), ...clearance },
    yRules,
    relief,
  )
  return y === null ? null : { x, y }
}

/** Of the way from a bound to the value. */
const MOST_HALVINGS = 60

/** The least value of the goal that a plan allows, to a rounding; `high` must do. */
function leastFor(
  problem: PlacementProblem,
  plan: Plan,
  { goal, low, high }: Readonly<{ goal: Goal; low: number; high: number }>,
): number {
  let [less, enough] = [low, high]
  for (
    let halving = 0;
    halving < MOST_HALVINGS && enough - less > 1e-10 * (1 + Math.abs(enough));
    halving++
  ) {
    const value = (less + enough) / 2
    if (planSpans(problem, plan, { goal, value }) === null) less = value
    else enough = value
  }
  return enough
}

/** A step is halved where none is better, from and to. */
const STEP_DEG = { first: 8, least: 1e-6 } as const
/** Better leans that are taken at most: near the end they gain next to nothing. */
const MOST_BETTER = 60

/** A plan with slants, and what it reaches; no plan where it is no better than `high`. */
type Leaned = Readonly<{ plan: Plan | null; value: number }>

/**
 * The least value of the goal that a plan allows, its slants leaning as serves it best: from how
 * they lean on, as long as a step either way is better.
 *
 * @param plan each slant with its lean
 */
export function leaned(
  problem: PlacementProblem,
  plan: Plan,
  { goal, low, high }: Readonly<{ goal: Goal; low: number; high: number }>,
): Leaned {
  const slanted = plan.pairs.flatMap(({ slantDeg }, at) => (slantDeg === null ? [] : [at]))
  const leaning = (leans: readonly number[]): Plan => ({
    ...plan,
    pairs: plan.pairs.map((pair, at) => {
      const index = slanted.indexOf(at)
      return index < 0 ? pair : { ...pair, slantDeg: leans[index] ?? 0 }
    }),
  })
  const roomy = high + ROOMY[goal]
  if (planSpans(problem, plan, { goal, value: roomy }) === null) return { plan: null, value: high }
  let leans: readonly number[] = slanted.map((at) => plan.pairs[at]?.slantDeg ?? 0)
  let value = leastFor(problem, plan, { goal, low, high: roomy })
  for (let step: number = STEP_DEG.first, taken = 0; step > STEP_DEG.least; ) {
    const better = [...slanted.keys()]
      .flatMap((at) => [step, -step].map((by) => moved(leans, at, by)))
      .find((tried) => {
        if (tried === null) return false
        const less = value - 1e-9
        if (planSpans(problem, leaning(tried), { goal, value: less }) === null) return false
        value = leastFor(problem, leaning(tried), { goal, low, high: less })
        return true
      })
    if (better === undefined || better === null || taken >= MOST_BETTER) step /= 4
    else {
      leans = better
      taken += 1
    }
  }
  return { plan: value < high + 1e-9 ? leaning(leans) : null, value }
}

/** Rounding of a lean may cost so much of the value. */
const ROOMY: Readonly<Record<Goal, number>> = { relief: 1e-4, scale: 1e-7 }

function moved(leans: readonly number[], at: number, byDeg: number): readonly number[] | null {
  const lean = (leans[at] ?? 0) + byDeg
  return lean < 0 || lean > 45 ? null : leans.map((old, index) => (index === at ? lean : old))
}

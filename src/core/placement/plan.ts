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

export type PlanSpans = Readonly<{ x: Spans; y: Spans }>

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

const HALVINGS = 60

/** The least value of the goal that a plan allows, to a rounding; `high` must do. */
export function leastFor(
  problem: PlacementProblem,
  plan: Plan,
  { goal, low, high }: Readonly<{ goal: Goal; low: number; high: number }>,
): number {
  let [less, enough] = [low, high]
  for (
    let halving = 0;
    halving < HALVINGS && enough - less > 1e-10 * (1 + Math.abs(enough));
    halving++
  ) {
    const value = (less + enough) / 2
    if (planSpans(problem, plan, { goal, value }) === null) less = value
    else enough = value
  }
  return enough
}

const FIRST_LEAN_DEG = 22.5
const LEAST_STEP_DEG = 1e-7

/** A plan with slants, each leaning as serves the goal best; no plan where none does at `high`. */
export function leaned(
  problem: PlacementProblem,
  plan: Plan,
  bounds: Readonly<{ goal: Goal; low: number; high: number }>,
): Readonly<{ plan: Plan | null; value: number; steps: number }> {
  const slanted = plan.pairs.flatMap(({ side }, at) => (side.includes(' ') ? [at] : []))
  const leaning = (leans: readonly number[]): Plan => ({
    ...plan,
    pairs: plan.pairs.map((pair, at) => {
      const index = slanted.indexOf(at)
      return index < 0 ? pair : { ...pair, slantDeg: leans[index] ?? FIRST_LEAN_DEG }
    }),
  })
  const roomy = { ...bounds, high: bounds.high + 10 * (Math.abs(bounds.high) + 1000) }
  let steps = 0
  const valueOf = (leans: readonly number[]): number => {
    steps += HALVINGS
    const tried = leaning(leans)
    if (planSpans(problem, tried, { goal: bounds.goal, value: roomy.high }) === null) {
      return Number.POSITIVE_INFINITY
    }
    return leastFor(problem, tried, roomy)
  }
  let leans: readonly number[] = slanted.map(() => FIRST_LEAN_DEG)
  let value = valueOf(leans)
  for (let step = FIRST_LEAN_DEG; step > LEAST_STEP_DEG; ) {
    let better = false
    for (const at of slanted.keys()) {
      for (const way of [step, -step]) {
        const lean = (leans[at] ?? 0) + way
        if (lean < 0 || lean > 45) continue
        const tried = leans.map((old, index) => (index === at ? lean : old))
        const found = valueOf(tried)
        if (found < value - 1e-12) {
          ;[leans, value, better] = [tried, found, true]
        }
      }
    }
    if (!better) step /= 2
  }
  return { plan: value < bounds.high ? leaning(leans) : null, value, steps }
}

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

/** Of the way from a bound to the value. */
const HALVINGS = { rough: 24, fine: 60 } as const

/** The least value of the goal that a plan allows, to a rounding; `high` must do. */
export function leastFor(
  problem: PlacementProblem,
  plan: Plan,
  { goal, low, high }: Readonly<{ goal: Goal; low: number; high: number }>,
  halvings: number = HALVINGS.fine,
): number {
  let [less, enough] = [low, high]
  for (
    let halving = 0;
    halving < halvings && enough - less > 1e-10 * (1 + Math.abs(enough));
    halving++
  ) {
    const value = (less + enough) / 2
    if (planSpans(problem, plan, { goal, value }) === null) less = value
    else enough = value
  }
  return enough
}

const FIRST_LEAN_DEG = 22.5
/** Where the first leaves no room, one of the others may. */
const FIRST_LEANS_DEG = [FIRST_LEAN_DEG, 0, 45]
/** Better leans that are taken at most, each way: near the end they gain next to nothing. */
const MOST_BETTER = 300
const LEAST_STEP_DEG = { rough: 0.05, fine: 1e-7 } as const

/** A plan with slants, and what it reaches; no plan where it is no better than `high`. */
export type Leaned = Readonly<{
  plan: Plan | null
  value: number
  /** Times that places were worked out. */
  steps: number
}>

/** A plan with slants, each leaning as serves the goal best: roughly, and to the end where it pays. */
export function leaned(
  problem: PlacementProblem,
  plan: Plan,
  bounds: Readonly<{ goal: Goal; low: number; high: number }>,
): Leaned {
  const slanted = plan.pairs.flatMap(({ side }, at) => (side.includes(' ') ? [at] : []))
  const leaning = (leans: readonly number[]): Plan => ({
    ...plan,
    pairs: plan.pairs.map((pair, at) => {
      const index = slanted.indexOf(at)
      return index < 0 ? pair : { ...pair, slantDeg: leans[index] ?? FIRST_LEAN_DEG }
    }),
  })
  const { goal, low, high } = bounds
  const roomy = high + 0.2 * Math.abs(high) + (goal === 'relief' ? 100 : 0)
  let steps = 0
  const valueOf = (leans: readonly number[], how: keyof typeof HALVINGS): number => {
    const tried = leaning(leans)
    steps += 1
    if (planSpans(problem, tried, { goal, value: roomy }) === null) return Number.POSITIVE_INFINITY
    steps += HALVINGS[how]
    return leastFor(problem, tried, { goal, low, high: roomy }, HALVINGS[how])
  }
  let leans: readonly number[] = []
  let value = Number.POSITIVE_INFINITY
  for (const first of FIRST_LEANS_DEG) {
    leans = slanted.map(() => first)
    value = valueOf(leans, 'rough')
    if (value < Number.POSITIVE_INFINITY) break
  }
  // With a keep-out in the way there may be no lean at all that has room.
  if (value === Number.POSITIVE_INFINITY) return { plan: null, value, steps }
  for (const how of ['rough', 'fine'] as const) {
    const step = how === 'rough' ? FIRST_LEAN_DEG : 2 * LEAST_STEP_DEG.rough
    const hardly = how === 'rough' ? 1e-4 * (1 + Math.abs(value)) : 1e-12
    if (how === 'fine') {
      // A rough value far from what is known already cannot be mended by a twentieth of a degree.
      if (value > high + 0.01 * (1 + Math.abs(high))) break
      value = valueOf(leans, how)
    }
    for (let lean = step, taken = 0; lean > LEAST_STEP_DEG[how] && taken < MOST_BETTER; ) {
      const better = [...slanted.keys()]
        .flatMap((at) => [lean, -lean].map((by) => moved(leans, at, by)))
        .find((tried) => {
          if (tried === null) return false
          const found = valueOf(tried, how)
          if (found >= value - hardly) return false
          value = found
          return true
        })
      if (better === undefined || better === null) lean /= 2
      else {
        leans = better
        taken += 1
      }
    }
  }
  return { plan: value < high ? leaning(leans) : null, value, steps }
}

function moved(leans: readonly number[], at: number, byDeg: number): readonly number[] | null {
  const lean = (leans[at] ?? 0) + byDeg
  return lean < 0 || lean > 45 ? null : leans.map((old, index) => (index === at ? lean : old))
}

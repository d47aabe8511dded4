import { type Narrowing, narrowing } from './narrowing.ts'
import { type Goal, planSpans } from './plan.ts'
import { planOf } from './planOf.ts'
import type { PlacedFilm, PlacementProblem } from './problem.ts'
import { ALL_WAYS, branchesOf, countOf, isOne, STRAIGHT, type Ways } from './ways.ts'
import { copied, EITHER, openWindows, type Windows } from './windows.ts'

type Lying = Omit<PlacedFilm, 'name'>

/** The best arrangement that was found, and whether it was shown that none is better. */
export type Found = Readonly<{
  /** Null: none is better than what was known. */
  films: readonly Lying[] | null
  value: number
  proved: boolean
}>

/** Times that all windows are drawn closer, of straight ways and of all: some 8 us each. */
const MOST_STEPS = { few: 120_000, many: 25_000 } as const
/** So many films are few: nearly always all is decided, mostly in a tenth of a second. */
const FEW_FILMS = 6
/** Where all rules are kept already, a better place is a wish: worth so many. */
const MOST_STEPS_OF_A_WISH = 12_000
/** What is better by no more than this is as good: across corners, by what a ruler hardly shows. */
const AS_GOOD_MM = { straight: 1e-3, across: 0.05 } as const

type Best = Readonly<{ films: readonly Lying[] | null; value: number }>
type Asked = Readonly<{ goal: Goal; low: number; asGood: number }>

/**
 * Branch and bound: films as early as their windows leave them are looked at, and where two are too
 * close there, or one is on a keep-out, each way that they can lie to each other is tried. A
 * branch whose windows are empty at a value a little better than what was found is left. First
 * with straight ways alone, then with corners too, which only a shorter way round can use.
 *
 * @param problem films in the order of the search, the largest first
 * @param known a value that can be reached otherwise: only better ones are looked for
 * @param low no value is below it
 * @returns `proved`: none is better by more than 0.05 mm, of a frame's longer side or of what is missed
 * @source disjunctive-placement
 */
export function searched(
  problem: PlacementProblem,
  { goal, known, low }: Readonly<{ goal: Goal; known: number; low: number }>,
): Found {
  const { insideWidthMm, insideHeightMm } = problem.frame
  const perMm = goal === 'scale' ? 1 / Math.max(insideWidthMm, insideHeightMm) : 1
  const straight = searchedBy(problem, {
    goal,
    low,
    asGood: AS_GOOD_MM.straight * perMm,
    best: { films: null, value: known },
    ways: STRAIGHT,
  })
  // Across a corner lies who has a gap to keep: to a keep-out only where more than the rules is asked.
  if (problem.films.length + problem.keepOut.length < 2) return straight
  return searchedBy(problem, {
    goal,
    low,
    asGood: AS_GOOD_MM.across * perMm,
    best: straight,
    ways: ALL_WAYS,
  })
}

function searchedBy(
  problem: PlacementProblem,
  { ways: allowed, best: first, ...asked }: Asked & Readonly<{ best: Best; ways: Ways }>,
): Found {
  const { goal, low } = asked
  const test = narrowing(problem, goal)
  const films = problem.films.length
  let best = first
  let steps = 0
  const isKept = (): boolean => goal === 'relief' && best.value <= 0
  const most = films > FEW_FILMS ? MOST_STEPS.many : MOST_STEPS.few
  const isSpent = (): boolean => steps > (isKept() ? MOST_STEPS_OF_A_WISH : most)

  /** What is to be told next in a branch; null where there is nothing, and no better in it. */
  const next = (windows: Windows, isLeaning: boolean): Open | null => {
    for (let hasTried = isLeaning; ; ) {
      steps += 1
      const value = lessThan(best.value, asked)
      if (isSpent() || value < low) return null
      test.at(value)
      if (!test.narrowed(windows)) return null
      const film = windows.turned.indexOf(EITHER)
      const open = openPair(test, windows, { films, before: film < 0 ? films : film })
      if (open !== null && open.kind === 'ways') return open
      if (film >= 0) return { kind: 'turn', film }
      if (open !== null && hasTried) return open
      // All is told but how corners lean: mostly the best lean of them all is found at once.
      const better = settled(problem, lyingIn(windows, films), { ...asked, best })
      if (better !== null) best = better
      else if (open === null) {
        best = { films: lyingIn(windows, films), value }
      } else hasTried = true
    }
  }

  const visit = (windows: Windows, isLeaning: boolean): void => {
    const open = next(windows, isLeaning)
    if (open === null) return
    for (const branch of branches(windows, open)) visit(branch, open.kind === 'lean')
  }

  visit(openWindows(problem, { pairs: test.pairs.length, ways: allowed }), false)
  return { ...best, proved: isKept() || !isSpent() }
}

/** What is looked for next; whether all rules can just be kept is told to a rounding. */
function lessThan(value: number, { goal, asGood }: Pick<Asked, 'goal' | 'asGood'>): number {
  const less = value - asGood
  return goal === 'relief' && value > KEPT_MM && less < 0 ? 0 : less
}
const KEPT_MM = 1e-7

/** What a branch still leaves open. */
type Open =
  | Readonly<{ kind: 'turn'; film: number }>
  | Readonly<{ kind: 'ways'; pair: number }>
  /** One corner, told apart by the gap along x. */
  | Readonly<{ kind: 'lean'; pair: number; splitMm: number }>

/** Of pairs before a film that are too close the one with fewest ways; corners, once only they are left. */
function openPair(
  test: Narrowing,
  windows: Windows,
  { films, before }: Readonly<{ films: number; before: number }>,
): Open | null {
  let open: Open | null = null
  let fewest = Number.POSITIVE_INFINITY
  for (const [pair, { one, other }] of test.pairs.entries()) {
    const ways = windows.ways[pair] ?? 0
    const isTold = isOne(ways)
    if (isTold && (ways & STRAIGHT) !== 0) continue
    const last = other < films ? other : one
    if (last >= before) continue
    const close = test.tooClose(windows, pair)
    if (close === null) continue
    const rank = isTold ? 1e7 - close.missedMm : 100 * last + countOf(ways) - close.missedMm / 1e5
    if (rank >= fewest) continue
    fewest = rank
    open = isTold ? { kind: 'lean', pair, splitMm: close.splitMm } : { kind: 'ways', pair }
  }
  return open
}

function branches(windows: Windows, open: Open): readonly Windows[] {
  switch (open.kind) {
    case 'turn':
      return [0, 1].map((turn) => {
        const branch = copied(windows)
        branch.turned[open.film] = turn
        return branch
      })
    case 'ways':
      return branchesOf(windows.ways[open.pair] ?? 0).map((ways) => {
        const branch = copied(windows)
        branch.ways[open.pair] = ways
        return branch
      })
    case 'lean':
      return (['leastAcross', 'mostAcross'] as const).map((bound) => {
        const branch = copied(windows)
        branch[bound][open.pair] = open.splitMm
        return branch
      })
  }
}

/** The best of the plan that films follow as they lie, each in the middle of its room; null where it is no better. */
function settled(
  problem: PlacementProblem,
  lying: readonly Lying[],
  { goal, low, asGood, best }: Asked & Readonly<{ best: Best }>,
): Best | null {
  const told = planOf(problem, lying, { goal, low, value: lessThan(best.value, { goal, asGood }) })
  if (told === null) return null
  const spans = planSpans(problem, told.plan, { goal, value: told.value })
  if (spans === null) return null
  const films = lying.map(({ turned }, film) => ({
    xMm: middle(spans.x, film),
    yMm: middle(spans.y, film),
    turned,
  }))
  return { films, value: told.value }
}

function lyingIn({ left, top, turned }: Windows, films: number): readonly Lying[] {
  return Array.from({ length: films }, (_, film) => ({
    xMm: left[film] ?? 0,
    yMm: top[film] ?? 0,
    turned: turned[film] === 1,
  }))
}

/** Halfway between as early and as late as can be: that keeps every rule too. */
function middle(
  { earliest, latest }: Readonly<{ earliest: Float64Array; latest: Float64Array }>,
  film: number,
): number {
  return ((earliest[film] ?? 0) + (latest[film] ?? 0)) / 2
}

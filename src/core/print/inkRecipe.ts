import { ciede2000 } from '../colour/ciede2000.ts'
import type { Lab } from '../colour/space.ts'
import { mixedLab, type Swallowing, swallowingOf } from './kubelkaMunk.ts'

/** An ink that stands on the shelf. */
export type StockInk = Readonly<{
  id: string
  lab: Lab
  /** What is left of it. */
  grams: number
}>

export type InkRecipe = Readonly<{
  /** The heaviest first. */
  parts: readonly Readonly<{ id: string; grams: number }>[]
  /** The colour it should have. */
  lab: Lab
  /** CIEDE2000 from the colour wanted. */
  deltaE: number
}>

/** An ink more must bring the mixture so much nearer: half of what can just be seen. Judged. */
const WORTH_AN_INK = 0.5
/** Mixtures of two, three and four that one ink more is tried with. */
const KEPT = [6, 4, 3]
/** What the ink that is tried takes of each of the others to begin with. */
const BEGIN_SHARE = 0.15
/** Less than this of an ink cannot be weighed out and stirred in. Judged. */
const LEAST_G = 1

/** An ink as the search sees it: how much of the mixture it may be. */
type Candidate = Readonly<{ id: string; swallowing: Swallowing; mostShare: number }>
type Trial = Readonly<{ of: readonly Candidate[]; shares: readonly number[]; deltaE: number }>

/**
 * The mixture of at most five inks of the shop that comes nearest to a colour, by weight; one ink
 * more only where that brings it half a step nearer.
 *
 * @param target CIELAB on the same paper as the stock's inks
 * @param grams to be mixed, above 0
 * @returns null when the stock together does not hold so much
 * @source kubelka-munk1931, duncan1940, sharma2005
 * @limits see `mixedLab`; searched step by step, an ink more to the best of those before: not proved best
 */
export function inkRecipe(
  target: Lab,
  { stock, grams }: Readonly<{ stock: readonly StockInk[]; grams: number }>,
): InkRecipe | null {
  if (!(grams > 0)) throw new RangeError(`grams: expected above 0, got ${grams}`)
  const candidates = stock
    .filter((ink) => ink.grams >= LEAST_G)
    .map(({ id, lab, grams: left }) => ({
      id,
      swallowing: swallowingOf(lab),
      mostShare: Math.min(1, left / grams),
    }))
  const least = LEAST_G / grams
  // so small a mixture that an ink's part cannot be weighed is none
  const equal = (of: readonly Candidate[]): readonly Trial[] =>
    1 / of.length < least ? [] : [nearest(target, { of, least, from: of.map(() => 1 / of.length) })]
  const ones = candidates.flatMap((one) => equal([one]))
  const pairs = candidates.flatMap((one, at) =>
    candidates.slice(at + 1).flatMap((two) => equal([one, two])),
  )
  const mixtures: (readonly Trial[])[] = [ones, pairs]
  for (const kept of KEPT) {
    const before = mixtures.at(-1)?.toSorted(nearestFirst).slice(0, kept) ?? []
    mixtures.push(withOneMore(before, { candidates, target, least }))
  }
  const best = mixtures
    .flatMap((trials) => trials.filter(isEnough).toSorted(nearestFirst)[0] ?? [])
    .reduce<Trial | null>(
      (held, trial) => (held === null || trial.deltaE < held.deltaE - WORTH_AN_INK ? trial : held),
      null,
    )
  if (best === null) return null
  const lab = labOf(best)
  return {
    parts: best.of
      .map(({ id }, at) => ({ id, grams: (best.shares[at] ?? 0) * grams }))
      .filter((part) => part.grams > 0)
      .toSorted((a, b) => b.grams - a.grams),
    lab,
    deltaE: ciede2000(target, lab),
  }
}

/** Each mixture with each ink that is not in it, from where it stood and a little of the new one. */
function withOneMore(
  before: readonly Trial[],
  {
    candidates,
    target,
    least,
  }: Readonly<{ candidates: readonly Candidate[]; target: Lab; least: number }>,
): readonly Trial[] {
  const seen = new Set<string>()
  return before.flatMap(({ of, shares }) =>
    candidates.flatMap((added) => {
      const inks = [...of, added]
      const names = inks
        .map(({ id }) => id)
        .toSorted()
        .join(' ')
      if (of.includes(added) || seen.has(names)) return []
      seen.add(names)
      const from = [...shares.map((share) => share * (1 - BEGIN_SHARE)), BEGIN_SHARE]
      if (from.some((share) => share < least)) return []
      return [nearest(target, { of: inks, least, from })]
    }),
  )
}

function nearestFirst(a: Trial, b: Trial): number {
  return a.deltaE - b.deltaE
}

/** The shelf holds what the mixture takes. */
function isEnough({ of, shares }: Trial): boolean {
  return of.every(({ mostShare }, at) => (shares[at] ?? 0) <= mostShare + 1e-9)
}

/** Weight goes from ink to ink as long as that brings the mixture nearer, in ever smaller steps. */
function nearest(
  target: Lab,
  {
    of,
    least,
    from,
  }: Readonly<{ of: readonly Candidate[]; least: number; from: readonly number[] }>,
): Trial {
  const at = (shares: readonly number[]): number =>
    ciede2000(target, labOf({ of, shares })) + 1000 * beyond(of, shares)
  let shares = from
  let deltaE = at(shares)
  for (let step = 0.25; step > Math.min(0.002, least / 2); step /= 2) {
    for (let moved = true; moved; ) {
      moved = false
      for (const [giving, taking] of waysBetween(of.length)) {
        const next = shares.map((share, ink) =>
          ink === giving ? share - step : ink === taking ? share + step : share,
        )
        if ((next[giving] ?? 0) < least) continue
        const there = at(next)
        if (there < deltaE - 1e-9) {
          shares = next
          deltaE = there
          moved = true
        }
      }
    }
  }
  return { of, shares, deltaE }
}

/** By how much of the mixture the shelf falls short. */
function beyond(of: readonly Candidate[], shares: readonly number[]): number {
  return of.reduce((sum, { mostShare }, at) => sum + Math.max(0, (shares[at] ?? 0) - mostShare), 0)
}

function waysBetween(inks: number): readonly (readonly [number, number])[] {
  const all = Array.from({ length: inks }, (_, ink) => ink)
  return all.flatMap((from) => all.filter((to) => to !== from).map((to) => [from, to] as const))
}

function labOf({ of, shares }: Pick<Trial, 'of' | 'shares'>): Lab {
  return mixedLab(of.map(({ swallowing }, at) => ({ swallowing, share: shares[at] ?? 0 })))
}

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
/** Pairs that a third ink is tried with. */
const PAIRS_KEPT = 6
/** Less than this of an ink cannot be weighed out and stirred in. Judged. */
const LEAST_G = 1

/** An ink as the search sees it: how much of the mixture it may be. */
type Candidate = Readonly<{ id: string; swallowing: Swallowing; mostShare: number }>
type Trial = Readonly<{ of: readonly Candidate[]; shares: readonly number[]; deltaE: number }>

/**
 * The mixture of at most three inks of the shop that comes nearest to a colour, by weight.
 *
 * @param target CIELAB on the same paper as the stock's inks
 * @param grams to be mixed, above 0
 * @returns null when the stock together does not hold so much
 * @source kubelka-munk1931, duncan1940, sharma2005
 * @limits see `mixedLab`; searched step by step from equal parts, not proved best
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
  const tried = (of: readonly Candidate[]): Trial => nearest(target, { of, least })
  const ones = candidates.map((one) => tried([one]))
  const pairs = candidates.flatMap((one, at) =>
    candidates.slice(at + 1).map((two) => tried([one, two])),
  )
  const kept = pairs.toSorted(nearestFirst).slice(0, PAIRS_KEPT)
  const threes = kept.flatMap(({ of }) =>
    candidates.filter((third) => !of.includes(third)).map((third) => tried([...of, third])),
  )
  const best = [ones, pairs, threes]
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
  { of, least }: Readonly<{ of: readonly Candidate[]; least: number }>,
): Trial {
  const at = (shares: readonly number[]): number =>
    ciede2000(target, labOf({ of, shares })) + 1000 * beyond(of, shares)
  let shares: readonly number[] = of.map(() => 1 / of.length)
  let deltaE = at(shares)
  for (let step = 0.25; step > Math.min(0.002, least / 2); step /= 2) {
    for (let moved = true; moved; ) {
      moved = false
      for (const [from, to] of waysBetween(of.length)) {
        const next = shares.map((share, ink) =>
          ink === from ? share - step : ink === to ? share + step : share,
        )
        if ((next[from] ?? 0) < least) continue
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

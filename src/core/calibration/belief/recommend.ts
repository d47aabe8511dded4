import { type Lu, lu, type Share, share } from '../../units/quantity.ts'
import { type Chances, chanceGood, chancesAt, worthOf } from './chances.ts'
import type { Outlook } from './question.ts'

/** The dose for one exposure as the belief has it. */
export type Recommendation = Readonly<{
  kind: 'recommended dose'
  doseLu: Lu
  /** From here to highLu the chance of a good screen is at least 0.8 of the best there is. */
  lowLu: Lu
  highLu: Lu
  /** Of the recommended dose. */
  chances: Chances
  /** The best chance of a good screen that any dose has. */
  bestChanceGood: Share
  /** Of ten screens like this, so many come out good. */
  screensInTen: number
}>

/** Share of the best chance down to which a dose still counts as one that should work. */
const SHOULD_WORK = 0.8
/** Steps of the first look at all doses, log10. */
const STEP = 0.06
/** What the search ends at, log10: 0.1 % of the dose. */
const FINE = 5e-4

/**
 * The dose of most worth: the chance of a good screen first, durability where that chance is flat.
 *
 * @returns doses to 0.1 %, chances as `chancesAt` has them
 * @source dose-rule
 */
export function recommendedDose(outlook: Outlook): Recommendation {
  const { low, high } = spanOf(outlook)
  const worth = (x: number): number => worthOf(outlook, x)
  const good = (x: number): number => chanceGood(outlook, x)
  const doses = Array.from(
    { length: Math.ceil((high - low) / STEP) + 1 },
    (_, at) => low + STEP * at,
  )
  const goods = doses.map(good)
  const worths = doses.map((x, at) => worthOf(outlook, x, goods[at]))
  const dose = highest(worth, { doses, values: worths })
  const best = highest(good, { doses, values: goods })
  const most = good(best)
  const crossing = (outside: number): number =>
    crossed(good, { inside: best, outside, least: SHOULD_WORK * most })
  const chances = chancesAt(outlook, lu(10 ** dose))
  return {
    kind: 'recommended dose',
    doseLu: lu(10 ** dose),
    lowLu: lu(10 ** crossing(low)),
    highLu: lu(10 ** crossing(high)),
    chances,
    bestChanceGood: share(most),
    screensInTen: Math.round(10 * chances.good),
  }
}

/** All doses worth a look: from where hardly a ground holds to where hardly a mark opens. */
function spanOf({ parts }: Outlook): Readonly<{ low: number; high: number }> {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const { gaussian } of parts) {
    gaussian.mean.forEach((mean, at) => {
      const sd = Math.sqrt(gaussian.cov[at * (gaussian.mean.length + 1)] ?? 0) + 0.05
      low = Math.min(low, mean - 4 * sd)
      high = Math.max(high, mean + 4 * sd)
    })
  }
  return { low, high }
}

/** Where a function that rises and falls once is highest: the best dose of all, then golden cuts. */
function highest(
  of: (x: number) => number,
  { doses, values }: Readonly<{ doses: readonly number[]; values: readonly number[] }>,
): number {
  const at = values.indexOf(Math.max(...values))
  const golden = (Math.sqrt(5) - 1) / 2
  let low = doses[Math.max(0, at - 1)] ?? 0
  let high = doses[Math.min(doses.length - 1, at + 1)] ?? 0
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)]
  let [atLeft, atRight] = [of(left), of(right)]
  while (high - low > FINE) {
    if (atLeft >= atRight) {
      ;[high, right, atRight] = [right, left, atLeft]
      left = high - golden * (high - low)
      atLeft = of(left)
    } else {
      ;[low, left, atLeft] = [left, right, atRight]
      right = low + golden * (high - low)
      atRight = of(right)
    }
  }
  return (low + high) / 2
}

/** Where a function falls through a level between a place above it and one below, by halving. */
function crossed(
  of: (x: number) => number,
  ends: Readonly<{ inside: number; outside: number; least: number }>,
): number {
  let { inside, outside } = ends
  if (of(outside) >= ends.least) return outside
  while (Math.abs(outside - inside) > FINE) {
    const middle = (inside + outside) / 2
    if (of(middle) >= ends.least) inside = middle
    else outside = middle
  }
  return inside
}

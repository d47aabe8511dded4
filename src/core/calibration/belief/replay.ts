import { type Evidence, expectEvidence } from './evidence.ts'
import { type DayTaken, takenInDay } from './jump.ts'
import { type Belief, type ShopFacts, startBelief } from './state.ts'

/** Evidence as a shop keeps it: what is struck out stays, and teaches nothing. */
export type Kept = Evidence & Readonly<{ struckOut?: boolean | undefined }>

/** The belief that the evidence makes, and what each day did to it. */
export type Replay = Readonly<{ belief: Belief; days: readonly DayTaken[] }>

/**
 * The belief rebuilt from all evidence, day by day from the oldest on; what has no date comes first.
 *
 * A reading that is struck out leaves the belief as if it had never been made. One more day on top
 * of a belief kept from an evening before (`from`) gives the same as a replay of everything.
 *
 * @param evidence in any order
 * @param from a belief whose day is before all of the evidence; the shop's start where left out
 * @param until the belief as it was in the evening of that day: later evidence is left aside
 * @throws RangeError where a number of the evidence cannot be
 * @source moment-matching, jump-hypothesis
 */
export function replay(
  evidence: readonly Kept[],
  {
    shop,
    from = startBelief(shop),
    until = Number.POSITIVE_INFINITY,
  }: Readonly<{ shop: ShopFacts; from?: Belief; until?: number }>,
): Replay {
  for (const each of evidence) expectEvidence(each)
  const byDay = new Map<number | null, Evidence[]>()
  for (const each of evidence) {
    const day = each.day === undefined ? null : Math.floor(each.day)
    if (each.struckOut === true || (day ?? until) > until) continue
    const sameDay = byDay.get(day)
    if (sameDay === undefined) byDay.set(day, [each])
    else sameDay.push(each)
  }
  const oldestFirst = [...byDay].sort(
    ([a], [b]) => (a ?? Number.NEGATIVE_INFINITY) - (b ?? Number.NEGATIVE_INFINITY),
  )
  let belief = from
  const days = oldestFirst.map(([day, readings]) => {
    const taken = takenInDay(belief, { day, readings })
    belief = taken.belief
    return taken
  })
  return { belief, days }
}

import { setTimeout as pause, setImmediate as turn } from 'node:timers/promises'
import { type DayTaken, takenInDay } from '../../core/calibration/belief/jump.ts'
import type { Kept } from '../../core/calibration/belief/replay.ts'
import { type Belief, type ShopFacts, startBelief } from '../../core/calibration/belief/state.ts'
import { type Chain, evidenceChain, type Link } from './evidenceChain.ts'

/** What a day did to the belief, without the belief itself. */
export type DayNote = Omit<DayTaken, 'belief'>
type Evening = Readonly<{ day: number; belief: Belief }>

/** What the shop believes, and how it came to that. */
export type Believed = Readonly<{
  belief: Belief
  /** Oldest first. */
  days: readonly DayNote[]
  /** Evidence of long ago has changed, and what follows from it is still being reckoned. */
  isBehind: boolean
  /** The evenings that are at hand: every one of the last months, one a month before. */
  evenings: readonly Evening[]
  /** The belief in the evening of a day. */
  onEvening: (day: number) => Promise<Belief>
}>

export type BeliefKeeper = Readonly<{
  /** What all the evidence makes; what was believed before, where that takes too long. */
  take: (evidence: readonly Kept[], shop: ShopFacts) => Promise<Believed>
}>

/** The evenings of so many days are all kept; of those before, one in so many days. */
const EVERY_DAY = 190
const ONE_IN_DAYS = 30
/** Others are answered after so long. */
const CHUNK_MS = 12

/**
 * Keeps the belief of the evenings worth keeping, so that a reading of today costs one day, and one
 * of long ago only the days since. A replay goes in small parts beside the answers; where it takes
 * long, they rest on what was believed before until it is done.
 *
 * @param patienceMs so long a replay is waited for when there is something to answer with
 * @param onCaughtUp a replay that nobody waited for is done
 */
export function beliefKeeper({
  patienceMs = 1000,
  onCaughtUp,
}: Readonly<{ patienceMs?: number; onCaughtUp: () => void }>): BeliefKeeper {
  const evenings = new Map<string, Belief>()
  const notes = new Map<string, DayNote>()
  let latest: Readonly<{ key: string; believed: Believed }> | null = null
  /** A replay towards anything else is given up. */
  let wanted = ''
  let running: Readonly<{ key: string; work: Promise<Believed | null> }> | null = null

  const reckoned = async (chain: Chain, shop: ShopFacts): Promise<Believed | null> => {
    const { links, key } = chain
    const worthKeeping = keptOf(links)
    const known = links.findLastIndex((link) => evenings.has(link.key))
    const start = evenings.get(links[known]?.key ?? '') ?? startBelief(shop)
    let last: Link | undefined
    const belief = await goneOn(start, links.slice(known + 1), (taken, link) => {
      const { belief: evening, ...note } = taken
      notes.set(link.key, note)
      // the last of a run that was broken off is where the next one begins
      if (last !== undefined && !worthKeeping.has(last.key)) evenings.delete(last.key)
      last = link
      evenings.set(link.key, evening)
      return wanted === key
    })
    if (belief === null) return null
    const keys = new Set(links.map((link) => link.key))
    for (const old of evenings.keys()) if (!worthKeeping.has(old)) evenings.delete(old)
    for (const old of notes.keys()) if (!keys.has(old)) notes.delete(old)
    const believed = believedOf(chain, { shop, belief })
    latest = { key, believed }
    return believed
  }

  const believedOf = (
    { links }: Chain,
    { shop, belief }: Readonly<{ shop: ShopFacts; belief: Belief }>,
  ): Believed => ({
    belief,
    days: links.flatMap(({ key }) => notes.get(key) ?? []),
    isBehind: false,
    evenings: links.flatMap(({ key, day }) => {
      const evening = evenings.get(key)
      return evening === undefined || day === null ? [] : [{ day, belief: evening }]
    }),
    onEvening: async (asked) => {
      const before = links.filter(({ day }) => day === null || day <= asked)
      const known = before.findLastIndex(({ key }) => evenings.has(key))
      const start = evenings.get(before[known]?.key ?? '') ?? startBelief(shop)
      return (await goneOn(start, before.slice(known + 1), () => true)) ?? start
    },
  })

  const begun = (chain: Chain, shop: ShopFacts): Promise<Believed | null> => {
    const { key } = chain
    if (running?.key === key) return running.work
    wanted = key
    const work = reckoned(chain, shop)
    running = { key, work }
    const ended = (): void => {
      if (running?.work === work) running = null
    }
    work.then(ended, ended)
    return work
  }

  return {
    take: async (evidence, shop) => {
      const chain = evidenceChain(evidence, shop)
      if (latest?.key === chain.key) return latest.believed
      const work = begun(chain, shop)
      const before = latest
      if (before === null) {
        let done = await work
        // Something newer came meanwhile: its answer is the better one.
        while (done === null && running !== null) done = await running.work
        return done ?? believedOf(chain, { shop, belief: startBelief(shop) })
      }
      const done = await Promise.race([work, pause(patienceMs, null, { ref: false })])
      if (done !== null) return done
      const late = (believed: Believed | null): void => {
        if (believed !== null) onCaughtUp()
      }
      work.then(late, late.bind(null, null))
      return { ...before.believed, isBehind: true }
    },
  }
}

async function goneOn(
  start: Belief,
  links: readonly Link[],
  onDay: (taken: DayTaken, link: Link) => boolean,
): Promise<Belief | null> {
  let belief = start
  let since = performance.now()
  for (const link of links) {
    const taken = takenInDay(belief, link)
    belief = taken.belief
    if (!onDay(taken, link)) return null
    if (performance.now() - since < CHUNK_MS) continue
    await turn()
    since = performance.now()
  }
  return belief
}

/** Keys of the days whose evenings are kept. */
function keptOf(links: readonly Link[]): ReadonlySet<string> {
  const newest = links.at(-1)?.day ?? 0
  const kept = new Set<string>()
  let last = Number.NEGATIVE_INFINITY
  for (const { day, key } of links) {
    if (day === null || (day < newest - EVERY_DAY && day < last + ONE_IN_DAYS)) continue
    kept.add(key)
    last = day
  }
  return kept
}

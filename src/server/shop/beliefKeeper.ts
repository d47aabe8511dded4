import { setTimeout as pause, setImmediate as turn } from 'node:timers/promises'
import {
  type DayMemory,
  type DayTaken,
  noDay,
  takenInDay,
} from '../../core/calibration/belief/jump.ts'
import type { Kept } from '../../core/calibration/belief/replay.ts'
import { type Belief, type ShopFacts, startBelief } from '../../core/calibration/belief/state.ts'
import type { EveningShelf } from './eveningShelf.ts'
import { type Chain, evidenceChain, type Link } from './evidenceChain.ts'
import { keptEvenings, shelvedEvenings } from './keptEvenings.ts'
import { wayOfReckoning } from './wayOfReckoning.ts'

/** What a day did to the belief, without the belief itself. */
export type DayNote = Omit<DayTaken, 'belief'>
type Evening = Readonly<{ day: number; belief: Belief }>

/** What the shop believes, and how it came to that. */
export type Believed = Readonly<{
  belief: Belief
  /** Oldest first; for some seconds after a new start only those since a shelved evening. */
  days: readonly DayNote[]
  /** Days before the shelved evening are still being gone through after a new start. */
  isRetracing: boolean
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
  close: () => Promise<void>
}>

export type KeeperOptions = Readonly<{
  /** So long a replay is waited for when there is something to answer with. */
  patienceMs?: number
  /** A replay that nobody waited for is done. */
  onCaughtUp: () => void
  shelf?: EveningShelf
  onTrouble?: (cause: unknown) => void
}>

/** Others are answered after so long. */
const CHUNK_MS = 12
/** Evenings are shelved when nothing has changed for so long. */
const SHELVED_AFTER_MS = 5000
const NONE: ReadonlySet<string> = new Set()

/**
 * Keeps the belief of the evenings worth keeping, so that a reading of today costs one day, and one
 * of long ago only the days since. A replay goes in small parts beside the answers; where it takes
 * long, they rest on what was believed before until it is done.
 *
 * After a new start the newest evening on the shelf is where it goes on from; beside the answers all
 * is reckoned from the beginning once more, and stands in place of what came from the shelf.
 */
export function beliefKeeper({
  patienceMs = 1000,
  onCaughtUp,
  shelf,
  onTrouble = () => undefined,
}: KeeperOptions): BeliefKeeper {
  /** Reckoned with the first evidence, for it takes longer than the rest of a start. */
  let way: string | null = shelf === undefined ? '' : null
  const evenings = new Map<string, Belief>()
  const notes = new Map<string, DayNote>()
  /** Of the newest day, which grows by a reading now and then. */
  const today = noDay()
  let latest: Readonly<{ chain: Chain; believed: Believed }> | null = null
  /** A replay towards anything else is given up. */
  let wanted = ''
  let running: Readonly<{ key: string; work: Promise<Believed | null> }> | null = null
  /** On the shelf; none once all was reckoned here. */
  let shelved: ReadonlySet<string> | null = shelf === undefined ? NONE : null
  let shelving: NodeJS.Timeout | null = null

  /** The last of some days whose evening is known, and that evening; the start where none is. */
  const knownOf = async (links: readonly Link[], shop: ShopFacts): Promise<Start> => {
    shelved ??= (await shelf?.keys()) ?? NONE
    const there = shelved
    for (let at = links.length - 1; at >= 0; at--) {
      const { key = '' } = links[at] ?? {}
      const own = evenings.get(key)
      if (own !== undefined) return { at, belief: own }
      const read = there.has(key) ? ((await shelf?.read(key)) ?? null) : null
      if (read !== null) return { at, belief: { ...read, shop } }
    }
    return { at: -1, belief: startBelief(shop) }
  }

  /** On from a known evening to the last day; null where something else is wanted meanwhile. */
  const wentOn = async (
    chain: Chain,
    { at, belief: start }: Start,
    shop: ShopFacts,
  ): Promise<Believed | null> => {
    const { links, key } = chain
    if (wanted !== key) return null
    const worthKeeping = keptEvenings(links)
    const first = links[at]
    if (first !== undefined) evenings.set(first.key, start)
    let last: Link | undefined
    const belief = await goneOn(
      start,
      links.slice(at + 1),
      ({ belief: evening, ...note }, link) => {
        notes.set(link.key, note)
        // the last of a run that was broken off is where the next one begins
        if (last !== undefined && !worthKeeping.has(last.key)) evenings.delete(last.key)
        last = link
        evenings.set(link.key, evening)
        return wanted === key
      },
      today,
    )
    if (belief === null) return null
    const keys = new Set(links.map((link) => link.key))
    for (const old of evenings.keys()) if (!worthKeeping.has(old)) evenings.delete(old)
    for (const old of notes.keys()) if (!keys.has(old)) notes.delete(old)
    const believed = believedOf(chain, { shop, belief })
    latest = { chain, believed }
    return believed
  }

  const reckoned = async (chain: Chain, shop: ShopFacts): Promise<Believed | null> => {
    const believed = await wentOn(chain, await knownOf(chain.links, shop), shop)
    if (believed !== null) retraced(chain, shop).catch(onTrouble)
    return believed
  }

  /** Days that came from the shelf are reckoned here as well. */
  const retraced = async (chain: Chain, shop: ShopFacts): Promise<void> => {
    const { links } = chain
    const missing = links.findIndex(({ key }) => !notes.has(key))
    if (missing >= 0) {
      await turn()
      const at = links.slice(0, missing).findLastIndex(({ key }) => evenings.has(key))
      const belief = evenings.get(links[at]?.key ?? '') ?? startBelief(shop)
      const whole = await wentOn(chain, { at, belief }, shop)
      if (whole === null) return
      onCaughtUp()
    }
    shelved = NONE
    shelveLater()
  }

  const believedOf = (
    { links }: Chain,
    { shop, belief }: Readonly<{ shop: ShopFacts; belief: Belief }>,
  ): Believed => ({
    belief,
    days: links.flatMap(({ key }) => notes.get(key) ?? []),
    isRetracing: links.some(({ key }) => !notes.has(key)),
    isBehind: false,
    evenings: links.flatMap(({ key, day }) => {
      const evening = evenings.get(key)
      return evening === undefined || day === null ? [] : [{ day, belief: evening }]
    }),
    onEvening: async (asked) => {
      const before = links.filter(({ day }) => day === null || day <= asked)
      const start = await knownOf(before, shop)
      return (await goneOn(start.belief, before.slice(start.at + 1), () => true)) ?? start.belief
    },
  })

  const shelve = async (): Promise<void> => {
    if (shelving !== null) clearTimeout(shelving)
    shelving = null
    const links = shelvedEvenings(latest?.chain.links ?? [])
    await shelf?.keep(
      links.flatMap(({ key, day }) => {
        const belief = evenings.get(key)
        return belief === undefined ? [] : [{ key, day, belief }]
      }),
    )
  }
  const shelveLater = (): void => {
    if (shelf === undefined) return
    if (shelving !== null) clearTimeout(shelving)
    shelving = setTimeout(() => void shelve().catch(onTrouble), SHELVED_AFTER_MS)
    shelving.unref()
  }

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
      if (evidence.length > 0) way ??= wayOfReckoning()
      const chain = evidenceChain(evidence, { shop, way: way ?? '', before: latest?.chain })
      if (latest?.chain.key === chain.key) return latest.believed
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
    close: async () => {
      wanted = ''
      if (shelving !== null) await shelve()
    },
  }
}

/** An evening and the day it is of, by its place among all; −1 before the first. */
type Start = Readonly<{ at: number; belief: Belief }>

async function goneOn(
  start: Belief,
  links: readonly Link[],
  onDay: (taken: DayTaken, link: Link) => boolean,
  newest?: DayMemory,
): Promise<Belief | null> {
  let belief = start
  let since = performance.now()
  for (const link of links) {
    const isNewest = newest !== undefined && link === links.at(-1)
    const taken = takenInDay(belief, { ...link, ...(isNewest ? { memory: newest } : {}) })
    belief = taken.belief
    if (!onDay(taken, link)) return null
    if (performance.now() - since < CHUNK_MS) continue
    await turn()
    since = performance.now()
  }
  return belief
}

import type { Density } from '../../units/quantity.ts'
import type { Evidence } from './evidence.ts'
import { extended, type Gaussian, loosened, marginal } from './gaussian.ts'
import { PRIORS, type Prior, unitPrior, WALK } from './priors.ts'

/** What a number of the state is about. */
export type EntryKind =
  | 'hold'
  | 'skin'
  | 'sound'
  | 'unit'
  | 'batch'
  | 'fabric'
  | 'recipe'
  | 'coat'
  | 'medium'
  | 'screen'
  | 'film'
  | 'read film'

/** How often a kind of evidence has spoken about an entry, and on which day last. */
export type Heard = Readonly<{ times: number; lastDay: number | null }>

/** One number of the state: a normal variable by its kind and the shop's name for the thing. */
export type Entry = Readonly<{
  kind: EntryKind
  /** Empty: the usual one, or one that nobody named. */
  name: string
  prior: Prior
  heard: Readonly<Record<Evidence['kind'], Heard>>
}>

/** What the shop is, apart from what it has learned. */
export type ShopFacts = Readonly<{
  /** Density of the usual film base; other bases shift every dose by the difference. */
  usualBaseDensity: Density
  /** Units whose counter counts plain seconds. */
  secondsUnits: readonly string[]
  /** Sd of log10 of the scale of those counters of which nobody knows what they count. */
  unitScaleSd?: ReadonlyMap<string, number> | undefined
}>

/** What a shop believes about its doses, all of it: rebuilt at any time from its readings. */
export type Belief = Readonly<{
  shop: ShopFacts
  entries: readonly Entry[]
  /** One number per entry, in their order; log10 of doses and densities. */
  gaussian: Gaussian
  /** Of the newest dated evidence; null before there is any. */
  day: number | null
  /** Hours of each unit's lamp when it was last heard of. */
  lampHours: ReadonlyMap<string, number>
}>

/** What names an entry. */
export type NamedEntry = Pick<Entry, 'kind' | 'name' | 'prior'>

/**
 * A screen is coated anew, a film thrown away, a bucket used up: then their names stand for
 * something else.
 *
 * @source belief-priors
 */
const LIFE_DAYS: Readonly<Partial<Record<EntryKind, number>>> = {
  screen: 14,
  film: 42,
  'read film': 42,
  batch: 400,
}
/** Drawn anew for each exposure unless somebody names them. */
const ONE_OFFS: readonly EntryKind[] = ['screen', 'film', 'read film']
/** So many of each are told apart at a time; of more, the one heard of longest ago is forgotten. */
const MOST_APART = 96

const SILENT: Heard = { times: 0, lastDay: null }
/** Of an entry that nobody has spoken about. */
export const UNHEARD: Entry['heard'] = { wedge: SILENT, strip: SILENT, outcome: SILENT }

/** The numbers that every exposure touches, in the places where each state keeps them. */
export const SHARED: Readonly<Record<'hold' | 'skin' | 'sound', number>> = {
  hold: 0,
  skin: 1,
  sound: 2,
}

/**
 * What is believed before anybody has told us anything.
 *
 * @source belief-priors
 */
export function startBelief(shop: ShopFacts): Belief {
  const empty: Belief = {
    shop,
    entries: [],
    gaussian: { mean: new Float64Array(0), cov: new Float64Array(0) },
    day: null,
    lampHours: new Map(),
  }
  const kinds = ['hold', 'skin', 'sound'] as const
  return withEntries(
    empty,
    kinds.map((kind) => ({ kind, name: '', prior: PRIORS[kind] })),
  ).belief
}

/**
 * The belief with all the entries named, those it lacks at their priors, and where each stands.
 * An unnamed screen or film is always a new one.
 */
export function withEntries(
  belief: Belief,
  names: readonly NamedEntry[],
): Readonly<{ belief: Belief; places: readonly number[] }> {
  const entries = [...belief.entries]
  const places = names.map(({ kind, name, prior }) => {
    const known = isOneOff(kind, name) ? -1 : entries.findIndex(sameAs({ kind, name }))
    return known >= 0 ? known : entries.push({ kind, name, prior, heard: UNHEARD }) - 1
  })
  const added = entries.slice(belief.entries.length).map(({ prior }) => prior)
  if (added.length === 0) return { belief, places }
  return { belief: { ...belief, entries, gaussian: extended(belief.gaussian, added) }, places }
}

/** Where an entry stands; −1 where the belief has none. */
export function placeOf({ entries }: Belief, which: Pick<Entry, 'kind' | 'name'>): number {
  return entries.findIndex(sameAs(which))
}

/** An entry lives only for the one exposure when nobody named it. */
export function isOneOff(kind: EntryKind, name: string): boolean {
  return name === '' && ONE_OFFS.includes(kind)
}

/**
 * The belief without the named screens and films that are too many to be told apart: what it costs
 * to learn must not grow with a heap of names.
 */
export function crowdThinned(belief: Belief): Belief {
  if (belief.entries.length <= MOST_APART) return belief
  const crowded = new Set<Entry>()
  for (const kind of ONE_OFFS) {
    const named = belief.entries.filter((entry) => entry.kind === kind && entry.name !== '')
    if (named.length <= MOST_APART) continue
    // Of those heard of on the same day, or on none, the one met first goes first.
    const oldest = named.toSorted((a, b) => lastHeard(a.heard) - lastHeard(b.heard) || 0)
    for (const entry of oldest.slice(0, named.length - MOST_APART)) crowded.add(entry)
  }
  return crowded.size === 0 ? belief : without(belief, (entry) => crowded.has(entry))
}

/** The belief without some of its entries. */
export function without(belief: Belief, gone: (entry: Entry) => boolean): Belief {
  if (!belief.entries.some(gone)) return belief
  const places = belief.entries.flatMap((entry, at) => (gone(entry) ? [] : [at]))
  return {
    ...belief,
    entries: belief.entries.filter((entry) => !gone(entry)),
    gaussian: marginal(belief.gaussian, places),
  }
}

/**
 * The belief on a later day: the hold dose has wandered, names of long ago are free again.
 *
 * @param day not before belief.day; a first dated day comes without a walk
 * @source belief-priors
 */
export function onDay(belief: Belief, day: number): Belief {
  const days = belief.day === null ? 0 : day - belief.day
  if (days < 0) throw new RangeError(`day: expected ${belief.day} or later, got ${day}`)
  const fresh = without(belief, ({ kind, heard }) => {
    const life = LIFE_DAYS[kind]
    return life !== undefined && lastHeard(heard) < day - life
  })
  const walked = [{ at: SHARED.hold, variance: Math.min(WALK.most, WALK.perDay * days) }]
  return { ...fresh, gaussian: loosened(fresh.gaussian, walked), day }
}

/**
 * The belief after a unit's lamp has burned on. What the hours do, they do to that unit alone; they
 * never run backwards, a lower count is a new lamp's.
 *
 * @source belief-priors
 */
export function atLampHours(
  belief: Belief,
  { unit, hours }: Readonly<{ unit: string; hours: number }>,
): Belief {
  const before = belief.lampHours.get(unit)
  const lampHours = new Map(belief.lampHours).set(unit, hours)
  if (before === undefined || before === hours) return { ...belief, lampHours }
  const named = withEntries(belief, [
    { kind: 'unit', name: unit, prior: unitPrior(unit, belief.shop.unitScaleSd) },
  ])
  const seconds = belief.shop.secondsUnits.includes(unit)
  const perHour = seconds ? WALK.perLampHourInSeconds : WALK.perLampHour
  const variance = Math.min(WALK.most, perHour * Math.max(0, hours - before))
  const [at = 0] = named.places
  const gaussian = loosened(named.belief.gaussian, [{ at, variance }])
  return { ...named.belief, gaussian, lampHours }
}

/** The newest day on which anything was heard; −∞ where nothing dated was. */
export function lastHeard({ wedge, strip, outcome }: Entry['heard']): number {
  const days = [wedge, strip, outcome].map(({ lastDay }) => lastDay ?? Number.NEGATIVE_INFINITY)
  return Math.max(...days)
}

function sameAs(which: Pick<Entry, 'kind' | 'name'>): (entry: Entry) => boolean {
  return ({ kind, name }) => kind === which.kind && name === which.name
}

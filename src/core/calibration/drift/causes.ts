import { jumpChance } from '../belief/jump.ts'
import { JUMP, PRIORS } from '../belief/priors.ts'
import { type Belief, placeOf } from '../belief/state.ts'
import { type Reference, THING_KINDS, type ThingKind, thingOf, type Witness } from './witnesses.ts'

export type DriftKind = 'lamp' | 'bucket' | 'drying' | 'fabric' | 'reading mistake' | 'unknown'

/** Something that may have happened: which readings it would have moved, and how. */
export type Cause = Readonly<{
  kind: DriftKind
  /** Of the unit, bucket or fabric; empty where it is about none, or the usual one. */
  name: string
  /** From this day on, or on it. */
  day: number
  /** The chance that it happened, before any reading was seen. */
  chance: number
  /** Which readings it moved: all alike by one shift of this sd, log10 … */
  touches: readonly boolean[]
  sd: number
  /** … or each by its own. */
  each: boolean
}>

/**
 * How likely a cause is beforehand, and how far it would move the hold dose (log10, sd).
 *
 * @source drift-causes
 */
const CAUSES = {
  /** A thing that the reference did not know differs, by somewhat more than such things usually do. */
  start: { chance: 9 / 10, oddSd: 0.08 },
  /** Of one that it knew: a bucket goes off, a roll of fabric is used up. */
  batch: { chancePerDay: 1 / 1000 },
  fabric: { chancePerDay: 1 / 1000 },
  all: { chancePerDay: 1 / 600 },
  mistake: { chance: 1 / 50, sd: 0.5 },
  dampDay: { chance: 1 / 100, sd: 0.15 },
  unevenDrying: { chancePerDay: 1 / 1000, sd: 0.15 },
} as const

const KINDS = { unit: 'lamp', batch: 'bucket', fabric: 'fabric' } as const

/**
 * All that may have happened to the readings since the reference: a lamp, a bucket or a fabric that
 * changed on a day on which it was used, or that was new; all of them at once; screens that had not
 * dried; one reading that is wrong.
 *
 * A lamp changes as likely as a jump of the belief does, one half where its hours fell.
 *
 * @source drift-causes, jump-hypothesis
 */
export function causesOf(witnesses: readonly Witness[], reference: Reference): readonly Cause[] {
  return [
    ...THING_KINDS.flatMap((kind) => thingCauses(witnesses, { kind, reference })),
    ...allCauses(witnesses, reference),
    ...dryingCauses(witnesses, reference),
    ...mistakeCauses(witnesses),
  ]
}

function thingCauses(
  witnesses: readonly Witness[],
  { kind, reference }: Readonly<{ kind: ThingKind; reference: Reference }>,
): readonly Cause[] {
  return namesOf(witnesses, kind).flatMap((name) => {
    const entries = kind === 'fabric' ? [name, `${name} (dyed)`.trimStart()] : [name]
    const isKnown = entries.some((entry) => placeOf(reference.belief, { kind, name: entry }) >= 0)
    const changes = kind === 'unit' ? lampChances(witnesses, { name, reference }) : null
    let before = reference.day
    return daysOf(witnesses, { kind, name }).map((day, at) => {
      const touches = witnesses.map(
        (each) => each.day >= day && thingOf(each.reading, kind) === name,
      )
      const change = { kind: KINDS[kind], name, day, touches, sd: JUMP.sd, each: false }
      if (at === 0 && !isKnown) {
        const { chance, oddSd } = CAUSES.start
        return { ...change, chance, sd: Math.hypot(PRIORS[kind].sd, oddSd) }
      }
      const perDay = kind === 'unit' ? 0 : CAUSES[kind].chancePerDay
      const chance = changes?.get(day) ?? sudden(perDay, day - before)
      before = day
      return { ...change, chance }
    })
  })
}

/** The chance that a lamp changed, for each day on which it was read. */
function lampChances(
  witnesses: readonly Witness[],
  { name, reference: { belief, day: from } }: Readonly<{ name: string; reference: Reference }>,
): ReadonlyMap<number, number> {
  let before: Belief = { ...belief, day: from }
  const chances = new Map<number, number>()
  for (const day of daysOf(witnesses, { kind: 'unit', name })) {
    const own = witnesses.filter(({ reading, day: on }) => {
      return on === day && thingOf(reading, 'unit') === name
    })
    const newest = (numbers: readonly number[]): ReadonlyMap<string, number> =>
      new Map(numbers.length === 0 ? [] : [[name, Math.max(...numbers)]])
    const lampHours = newest(own.flatMap(({ reading }) => reading.lampHours ?? []))
    const since = before.day ?? from
    const lampsFitted = newest(
      own.flatMap(({ reading: { lampFitted = since } }) => (lampFitted > since ? lampFitted : [])),
    )
    chances.set(day, jumpChance(before, { day, lampHours, lampsFitted }))
    before = { ...before, day, lampHours: new Map([...before.lampHours, ...lampHours]) }
  }
  return chances
}

/** Where only one lamp is in use, all at once is that lamp. */
function allCauses(witnesses: readonly Witness[], { day: from }: Reference): readonly Cause[] {
  if (namesOf(witnesses, 'unit').length < 2) return []
  let before = from
  return daysOf(witnesses).map((day) => {
    const chance = sudden(CAUSES.all.chancePerDay, day - before)
    before = day
    const touches = witnesses.map((each) => each.day >= day)
    return { kind: 'unknown', name: '', day, chance, touches, sd: JUMP.sd, each: false }
  })
}

/** Damp screens want more light or less, each day's alike; or they scatter from some day on. */
function dryingCauses(witnesses: readonly Witness[], { day: from }: Reference): readonly Cause[] {
  let before = from
  return daysOf(witnesses).flatMap((day) => {
    const damp: Cause = {
      kind: 'drying',
      name: '',
      day,
      chance: CAUSES.dampDay.chance,
      touches: witnesses.map((each) => each.day === day),
      sd: CAUSES.dampDay.sd,
      each: false,
    }
    const uneven: Cause = {
      ...damp,
      chance: sudden(CAUSES.unevenDrying.chancePerDay, day - before),
      touches: witnesses.map((each) => each.day >= day),
      sd: CAUSES.unevenDrying.sd,
      each: true,
    }
    before = day
    return [damp, uneven]
  })
}

function mistakeCauses(witnesses: readonly Witness[]): readonly Cause[] {
  return witnesses.map(({ day }, at) => ({
    kind: 'reading mistake',
    name: '',
    day,
    chance: CAUSES.mistake.chance,
    touches: witnesses.map((_, other) => other === at),
    sd: CAUSES.mistake.sd,
    each: false,
  }))
}

function sudden(chancePerDay: number, days: number): number {
  return 1 - (1 - chancePerDay) ** days
}

function namesOf(witnesses: readonly Witness[], kind: ThingKind): readonly string[] {
  return [...new Set(witnesses.map(({ reading }) => thingOf(reading, kind)))]
}

/** Days on which something was read, or something made with one thing. */
function daysOf(
  witnesses: readonly Witness[],
  thing?: Readonly<{ kind: ThingKind; name: string }>,
): readonly number[] {
  const own = witnesses.filter(
    ({ reading }) => thing === undefined || thingOf(reading, thing.kind) === thing.name,
  )
  return [...new Set(own.map(({ day }) => day))]
}

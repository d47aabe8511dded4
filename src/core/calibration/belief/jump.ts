import { type Evidence, orderOf } from './evidence.ts'
import { collapsed, loosened } from './gaussian.ts'
import { JUMP } from './priors.ts'
import { atLampHours, type Belief, lastHeard, onDay, placeOf, SHARED } from './state.ts'
import { type Learned, taughtBy } from './update.ts'

/** A belief after all that was read on one day. */
export type DayTaken = Readonly<{
  belief: Belief
  day: number | null
  /** The chance that the hold dose jumped since the day before that was heard of. */
  jumpChance: number
  /** By how much it would have, log10 of dose; above 0: more light is wanted. */
  jump: number
  /** Each reading, in the order it was taken in, and its chance before it was made. */
  readings: readonly Readonly<{ evidence: Evidence; chance: number }>[]
}>

/**
 * How far a day was taken in, written over each time: when a reading comes to the same day, those that
 * stand before it in the day's order are not reckoned again. The beliefs are the same to the last bit.
 */
export type DayMemory = { from: Belief | null; morning: string; steady: Step[]; jumped: Step[] }
type Step = Readonly<{ evidence: Evidence; learned: Learned }>

/** Nothing is remembered of any day yet. */
export function noDay(): DayMemory {
  return { from: null, morning: '', steady: [], jumped: [] }
}

/** A day of more readings than these is not remembered further: each keeps a belief. */
const MOST_STEPS = 32
/** Below this a branch is not worth carrying on. */
const NEGLIGIBLE = 1e-7
/** Hours that a lamp must have burned before fewer hours are taken for a new lamp's. */
const NEW_LAMP_HOURS = 20

/**
 * One day's readings taken in.
 *
 * Two beliefs go through the day: the one that has wandered since the last day heard of, and one
 * whose hold dose has jumped besides. In the evening they are weighed by how well each foresaw the
 * readings and made one again, by moments. The order in which the readings are handed over does
 * not matter: they are put in one of their own.
 *
 * @param day not before belief.day; null for readings without a date, which know of no jump; memory
 * of this day, where it may grow
 * @throws RangeError where a day or a number of the readings cannot be
 * @source jump-hypothesis, moment-matching
 */
export function takenInDay(
  belief: Belief,
  {
    day,
    readings,
    memory = noDay(),
  }: Readonly<{ day: number | null; readings: readonly Evidence[]; memory?: DayMemory }>,
): DayTaken {
  const ordered = readings
    .map((evidence) => ({ evidence, order: orderOf(evidence) }))
    .sort((a, b) => (a.order < b.order ? -1 : a.order > b.order ? 1 : 0))
    .map(({ evidence }) => evidence)
  const [hours, lampsFitted] = [hoursOf(ordered), fittedOf(ordered)]
  const prior = jumpChance(belief, { day, lampHours: hours, lampsFitted })
  const here = withoutOldLamps(belief, { day, lampsFitted })
  let morning = day === null ? here : onDay(here, day)
  for (const [unit, burned] of hours) morning = atLampHours(morning, { unit, hours: burned })
  const name = JSON.stringify([day, ...hours, ...lampsFitted])
  if (memory.from !== belief || memory.morning !== name)
    Object.assign(memory, { ...noDay(), from: belief, morning: name })
  const steady = branch(morning, { prior: 1 - prior, ordered, steps: memory.steady })
  const jumped =
    prior > 0 ? branch(withJump(morning), { prior, ordered, steps: memory.jumped }) : null
  const logOdds = jumped === null ? Number.NEGATIVE_INFINITY : jumped.log - steady.log
  const share = 1 / (1 + Math.exp(-logOdds))
  const jump = shiftOf(morning, (jumped ?? steady).belief)
  const parts = [{ share: 1 - share, side: steady }]
  if (jumped !== null) parts.push({ share, side: jumped })
  const kept = parts.filter((part) => part.share > NEGLIGIBLE)
  const gaussian = collapsed(
    kept.map((part) => ({ share: part.share, gaussian: part.side.belief.gaussian })),
  )
  return {
    belief: { ...steady.belief, gaussian },
    day,
    jumpChance: share,
    jump,
    readings: ordered.map((evidence, at) => ({
      evidence,
      chance: Math.exp(steady.chances[at] ?? 0),
    })),
  }
}

/** Whether a lamp's hours fell so far that it is another lamp. @source jump-hypothesis */
export function isNewLamp({ before, now }: Readonly<{ before: number; now: number }>): boolean {
  return before > NEW_LAMP_HOURS && now < before / 2
}

/**
 * The chance, before the day's readings, that the hold dose jumped since the last day heard of:
 * 1/300 a day, one half where a lamp is new: it was fitted since its unit was last heard of, or its
 * hours fell.
 *
 * @source jump-hypothesis
 */
export function jumpChance(
  belief: Belief,
  {
    day,
    lampHours,
    lampsFitted,
  }: Readonly<{
    day: number | null
    lampHours: ReadonlyMap<string, number>
    /** By unit: the day on which its lamp took the place of another. */
    lampsFitted?: ReadonlyMap<string, number> | undefined
  }>,
): number {
  if (day === null || belief.day === null) return 0
  for (const lamp of lampsFitted ?? [])
    if (isUnread(belief, lamp, day)) return JUMP.chanceWithNewLamp
  const days = Math.max(0, day - belief.day)
  const sudden = 1 - (1 - JUMP.chancePerDay) ** days
  const hasNewLamp = [...lampHours].some(([unit, now]) =>
    isNewLamp({ before: belief.lampHours.get(unit) ?? 0, now }),
  )
  return hasNewLamp ? Math.max(sudden, JUMP.chanceWithNewLamp) : sudden
}

/** Whether a unit was heard of under the lamp before, and not since another was fitted. */
function isUnread(
  belief: Belief,
  [unit, fitted]: readonly [unit: string, fitted: number],
  day: number,
): boolean {
  const { heard } = belief.entries[placeOf(belief, { kind: 'unit', name: unit })] ?? {}
  const last = heard === undefined ? Number.NEGATIVE_INFINITY : lastHeard(heard)
  return Number.isFinite(last) && last < fitted && fitted <= day
}

/**
 * The hours that a lamp had burned leave with it: the first reading under the next one, if it tells
 * no hours, would leave them standing, and the lamp would be taken for unread ever after.
 */
function withoutOldLamps(
  belief: Belief,
  { day, lampsFitted }: Readonly<{ day: number | null; lampsFitted: ReadonlyMap<string, number> }>,
): Belief {
  if (day === null) return belief
  const gone = [...lampsFitted].filter((lamp) => isUnread(belief, lamp, day))
  if (gone.length === 0) return belief
  const lampHours = new Map(belief.lampHours)
  for (const [unit] of gone) lampHours.delete(unit)
  return { ...belief, lampHours }
}

/** The belief whose hold dose has jumped, nobody knows by how much. */
export function withJump(belief: Belief): Belief {
  const gaussian = loosened(belief.gaussian, [{ at: SHARED.hold, variance: JUMP.sd ** 2 }])
  return { ...belief, gaussian }
}

function branch(
  morning: Belief,
  {
    prior,
    ordered,
    steps,
  }: Readonly<{ prior: number; ordered: readonly Evidence[]; steps: Step[] }>,
): { belief: Belief; log: number; chances: readonly number[] } {
  let belief = morning
  let log = Math.log(prior)
  const chances: number[] = []
  const same = ordered.findIndex((evidence, at) => steps[at]?.evidence !== evidence)
  if (same >= 0) steps.length = Math.min(same, steps.length)
  for (const [at, evidence] of ordered.entries()) {
    const learned = steps[at]?.learned ?? taughtBy(belief, evidence)
    if (at === steps.length && at < MOST_STEPS) steps.push({ evidence, learned })
    belief = learned.belief
    log += learned.logChance
    chances.push(learned.logChance)
  }
  return { belief, log, chances }
}

function shiftOf(morning: Belief, evening: Belief): number {
  const at = SHARED.hold
  return (evening.gaussian.mean[at] ?? 0) - (morning.gaussian.mean[at] ?? 0)
}

/** The newest day on which each unit's lamp took the place of another. */
function fittedOf(readings: readonly Evidence[]): ReadonlyMap<string, number> {
  const fitted = new Map<string, number>()
  for (const { unit = '', lampFitted } of readings) {
    if (lampFitted === undefined) continue
    fitted.set(unit, Math.max(fitted.get(unit) ?? lampFitted, lampFitted))
  }
  return fitted
}

/** The most hours that each unit's lamp had on that day. */
function hoursOf(readings: readonly Evidence[]): ReadonlyMap<string, number> {
  const hours = new Map<string, number>()
  for (const { unit = '', lampHours } of readings) {
    if (lampHours === undefined) continue
    hours.set(unit, Math.max(hours.get(unit) ?? 0, lampHours))
  }
  return hours
}

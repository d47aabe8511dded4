import { type Circumstances, type Evidence, orderOf } from '../belief/evidence.ts'
import type { Kept } from '../belief/replay.ts'
import type { Belief } from '../belief/state.ts'
import type { Charted } from './ewma.ts'
import { holdResidual } from './residual.ts'

/** What drift is charted against: a belief that no longer learns, and its last day. */
export type Reference = Readonly<{ belief: Belief; day: number }>

/** One reading made after the reference, and by how much it wants another dose. */
export type Witness = Charted & Readonly<{ reading: Evidence; day: number }>

/** The things of a shop that may change by themselves. */
export type ThingKind = 'unit' | 'batch' | 'fabric'
export const THING_KINDS: readonly ThingKind[] = ['unit', 'batch', 'fabric']

/** The shop's name for the thing that a reading was made with; empty for the usual one. */
export function thingOf({ unit, emulsion, fabric }: Circumstances, kind: ThingKind): string {
  return { unit, batch: emulsion, fabric }[kind] ?? ''
}

/** Things by the name that a reading has for them, in the order of their first one. */
export function byThing<T>(
  all: readonly T[],
  nameOf: (each: T) => string,
): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>()
  for (const each of all) {
    const group = groups.get(nameOf(each))
    if (group === undefined) groups.set(nameOf(each), [each])
    else group.push(each)
  }
  return groups
}

/** What single readings want against single beliefs: neither changes, so neither does this. */
export type WitnessMemory = WeakMap<Belief, WeakMap<Kept, Remembered>>
type Remembered = Readonly<{ order: string; residual: Charted | null }>

/**
 * Readings after the reference that tell of the ground, oldest first.
 *
 * @param memory of readings that were looked at before; what is new is put there
 */
export function witnessesOf(
  evidence: readonly Kept[],
  { belief, day: from }: Reference,
  {
    until = Number.POSITIVE_INFINITY,
    memory = new WeakMap(),
  }: Readonly<{ until?: number | undefined; memory?: WitnessMemory | undefined }> = {},
): readonly Witness[] {
  const known = memory.get(belief) ?? new WeakMap<Kept, Remembered>()
  memory.set(belief, known)
  const remembered = (reading: Kept): Remembered => {
    const there = known.get(reading)
    if (there !== undefined) return there
    const fresh = { order: orderOf(reading), residual: holdResidual(belief, reading) }
    known.set(reading, fresh)
    return fresh
  }
  return evidence
    .flatMap((reading) => {
      const day = Math.floor(reading.day ?? Number.NEGATIVE_INFINITY)
      if (reading.struckOut === true || day <= from || day > until) return []
      return [{ reading, day, ...remembered(reading) }]
    })
    .sort((a, b) => a.day - b.day || (a.order < b.order ? -1 : 1))
    .flatMap(({ reading, day, residual }) =>
      residual === null ? [] : [{ ...residual, reading, day }],
    )
}

import type { Kept } from '../../core/calibration/belief/replay.ts'
import type { Belief } from '../../core/calibration/belief/state.ts'
import type { GroundSaid } from '../../core/calibration/drift/witness.ts'
import type { WitnessMemory } from '../../core/calibration/drift/witnesses.ts'
import type { Database } from '../../store/database/database.ts'
import { beliefShop } from '../../workflow/lightFirstDose.ts'
import type { LightBase } from '../../workflow/lightRecords.ts'
import type { BeliefKeeper, Believed } from './beliefKeeper.ts'
import type { Taught } from './evidence.ts'
import type { ReadingsKept } from './readingsKept.ts'
import type { ShopThings, ThingsKept } from './shopThings.ts'

/** Everything that a dose rests on, read once and kept until something of it changes. */
export type ShopRecords = ShopThings &
  Readonly<{
    /** All readings, oldest first, those that were struck out too. */
    taught: readonly Taught[]
    believed: Believed
    belief: Belief
    /** What readings say of the ground by themselves, as far as anybody has asked. */
    saidOfGround: WeakMap<Kept, GroundSaid | null>
    /** What they want against what drift is charted against, likewise. */
    saidOfDrift: WitnessMemory
  }>

/** What is kept from one reading of the records to the next. */
export type RecordsMemory = Readonly<{
  things: ThingsKept
  readings: ReadingsKept
  keeper: BeliefKeeper
}> &
  Pick<ShopRecords, 'saidOfGround' | 'saidOfDrift'>

/**
 * @param today as `dayOf` counts: what is dated later waits for its day
 * @throws Failure 'not found' while there is no shop
 */
export async function shopRecords(
  database: Database,
  { things: thingsKept, readings, keeper, saidOfGround, saidOfDrift }: RecordsMemory,
  { today }: Readonly<{ today: number }>,
): Promise<ShopRecords> {
  const { fabricsById, coatings, ...things } = await thingsKept.now(database)
  const { light, glass } = things
  const taught = await readings.now(database, {
    media: things.media,
    bases: things.bases,
    fabrics: fabricsById,
    coatings,
    lightAt: (unitId, place) => glass.shareAt(unitId, place) ?? 1,
    lightKey: glass.key,
  })
  const evidence: Kept[] = []
  for (const { evidence: own } of taught)
    if (own !== null && (own.day ?? today) <= today) evidence.push(own)
  const believed = await keeper.take(evidence, beliefShop(light))
  return { ...things, taught, believed, belief: believed.belief, saidOfGround, saidOfDrift }
}

/** A film's own base, or what is usual where nobody said. */
export function baseNamed({ bases, usualBase }: ShopRecords, id: string | null): LightBase {
  return bases.find((base) => base.id === id) ?? usualBase
}

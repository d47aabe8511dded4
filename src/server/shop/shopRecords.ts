import type { Kept } from '../../core/calibration/belief/replay.ts'
import type { Belief } from '../../core/calibration/belief/state.ts'
import type { GroundSaid } from '../../core/calibration/drift/witness.ts'
import type { WitnessMemory } from '../../core/calibration/drift/witnesses.ts'
import { type Base, bases } from '../../store/bases.ts'
import { allCoatings, type Coating } from '../../store/coatings.ts'
import type { Database } from '../../store/database/database.ts'
import { type Batch, batches, type Emulsion, emulsions } from '../../store/emulsions.ts'
import { newestSurveys } from '../../store/evenness.ts'
import { type Fabric, fabrics } from '../../store/fabrics.ts'
import { type Medium, media } from '../../store/media.ts'
import { type CalibrationReference, newestReference } from '../../store/references.ts'
import { type Screen, screens } from '../../store/screens.ts'
import { type Shop, theShop } from '../../store/shop.ts'
import { type Lamp, lamps, units } from '../../store/units.ts'
import { beliefShop } from '../../workflow/lightFirstDose.ts'
import type { LightBase, LightScreen, LightShop, LightUnit } from '../../workflow/lightRecords.ts'
import type { BeliefKeeper, Believed } from './beliefKeeper.ts'
import type { Taught } from './evidence.ts'
import { type GlassLight, glassLight } from './glassLight.ts'
import { lightBase, lightScreen, lightUnit } from './lightThings.ts'
import type { ReadingsKept } from './readingsKept.ts'

/** A screen as the light question takes it, and what people know it by. */
export type ShopScreen = Readonly<{ light: LightScreen; record: Screen; fabric: Fabric }>

/** Everything that a dose rests on, read once and kept until something of it changes. */
export type ShopRecords = Readonly<{
  shop: Shop
  units: readonly LightUnit[]
  /** All lamps there ever were, oldest first. */
  lamps: readonly Lamp[]
  bases: readonly LightBase[]
  screens: readonly ShopScreen[]
  media: readonly Medium[]
  fabrics: readonly Fabric[]
  emulsions: readonly Emulsion[]
  /** All buckets there ever were, newest first. */
  batches: readonly Batch[]
  usualBase: LightBase
  light: LightShop
  glass: GlassLight
  /** All readings, oldest first, those that were struck out too. */
  taught: readonly Taught[]
  reference: CalibrationReference | null
  believed: Believed
  belief: Belief
  /** What readings say of the ground by themselves, as far as anybody has asked. */
  saidOfGround: WeakMap<Kept, GroundSaid | null>
  /** What they want against what drift is charted against, likewise. */
  saidOfDrift: WitnessMemory
}>

/** What is kept from one reading of the records to the next. */
export type RecordsMemory = Readonly<{ readings: ReadingsKept; keeper: BeliefKeeper }> &
  Pick<ShopRecords, 'saidOfGround' | 'saidOfDrift'>

/** @throws Failure 'not found' while there is no shop */
export async function shopRecords(
  database: Database,
  { readings, keeper, saidOfGround, saidOfDrift }: RecordsMemory,
): Promise<ShopRecords> {
  const shop = await theShop(database)
  const [allUnits, allBases, allMedia, allFabrics] = [
    (await units(database)).map(lightUnit),
    (await bases(database)).map((base: Base) => lightBase(base)),
    await media(database),
    await fabrics(database),
  ]
  const usualBase = allBases.find(({ id }) => id === shop.usualBaseId) ?? allBases[0]
  if (usualBase === undefined) throw new RangeError('bases: expected at least 1, got 0')
  const seconds = allUnits.filter(({ countsIn }) => countsIn === 'seconds').map(({ id }) => id)
  const light: LightShop = { usualBase, secondsUnits: seconds }
  const fabricsById = new Map(allFabrics.map((fabric) => [fabric.id, fabric]))
  const [allEmulsions, allBatches] = [await emulsions(database), await batches(database)]
  const coatings = byScreen(await allCoatings(database))
  const emulsionOf = emulsionsByBatch(allEmulsions, allBatches)
  const allScreens = (await screens(database)).flatMap((record) => {
    const fabric = fabricsById.get(record.fabricId)
    if (fabric === undefined) return []
    const coating = coatings.get(record.id)?.find(({ removedAt }) => removedAt === null)
    return [{ record, fabric, light: lightScreen(record, { fabric, coating, emulsionOf }) }]
  })
  const glass = glassLight(await newestSurveys(database))
  const taught = await readings.now(database, {
    media: allMedia,
    bases: allBases,
    fabrics: fabricsById,
    coatings,
    lightAt: (unitId, place) => glass.shareAt(unitId, place) ?? 1,
    lightKey: glass.key,
  })
  const evidence = taught.flatMap((each) => each.evidence ?? [])
  const believed = await keeper.take(evidence, beliefShop(light))
  return {
    shop,
    units: usualFirst(allUnits, shop.usualUnitId),
    lamps: await lamps(database),
    bases: usualFirst(allBases, shop.usualBaseId),
    screens: allScreens,
    media: usualFirst(allMedia, shop.usualMediumId),
    fabrics: usualFirst(allFabrics, shop.usualFabricId),
    emulsions: usualFirst(allEmulsions, shop.usualEmulsionId),
    batches: allBatches,
    usualBase,
    light,
    glass,
    taught,
    reference: await newestReference(database),
    believed,
    belief: believed.belief,
    saidOfGround,
    saidOfDrift,
  }
}

/** A film's own base, or what is usual where nobody said. */
export function baseNamed({ bases, usualBase }: ShopRecords, id: string | null): LightBase {
  return bases.find((base) => base.id === id) ?? usualBase
}

function emulsionsByBatch(
  all: readonly Emulsion[],
  buckets: readonly Batch[],
): (batchId: string | null) => Emulsion | undefined {
  const byId = new Map(all.map((each) => [each.id, each]))
  const byBatch = new Map(buckets.map(({ id, emulsionId }) => [id, byId.get(emulsionId)]))
  return (batchId) => byBatch.get(batchId ?? '')
}

function byScreen(coatings: readonly Coating[]): ReadonlyMap<string, readonly Coating[]> {
  const screens = new Map<string, Coating[]>()
  for (const coating of coatings) {
    const same = screens.get(coating.screenId)
    if (same === undefined) screens.set(coating.screenId, [coating])
    else same.push(coating)
  }
  return screens
}

function usualFirst<Record extends { id: string }>(
  records: readonly Record[],
  usualId: string | null,
): readonly Record[] {
  return records.toSorted((a, b) => Number(b.id === usualId) - Number(a.id === usualId))
}

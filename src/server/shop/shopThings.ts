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
import type { LightBase, LightScreen, LightShop, LightUnit } from '../../workflow/lightRecords.ts'
import { type GlassLight, glassLight } from './glassLight.ts'
import { lightBase, lightScreen, lightUnit } from './lightThings.ts'

/** A screen as the light question takes it, and what people know it by. */
export type ShopScreen = Readonly<{ light: LightScreen; record: Screen; fabric: Fabric }>

/** What the shop has, readings apart. */
export type ShopThings = Readonly<{
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
  reference: CalibrationReference | null
}>

type Things = ShopThings &
  Readonly<{
    fabricsById: ReadonlyMap<string, Fabric>
    /** Every coating that each screen ever had, oldest first. */
    coatings: ReadonlyMap<string, readonly Coating[]>
  }>

/** The shop's things in memory: a reading changes none of them. */
export type ThingsKept = Readonly<{
  /** @throws Failure 'not found' while there is no shop */
  now: (database: Database) => Promise<Things>
  forget: () => void
}>

export function thingsKept(): ThingsKept {
  let kept: Promise<Things> | null = null
  return {
    now: (database) => {
      if (kept !== null) return kept
      const fresh = thingsIn(database)
      kept = fresh
      fresh.catch(() => {
        if (kept === fresh) kept = null
      })
      return fresh
    },
    forget: () => {
      kept = null
    },
  }
}

async function thingsIn(database: Database): Promise<Things> {
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
    glass: glassLight(await newestSurveys(database)),
    reference: await newestReference(database),
    fabricsById,
    coatings,
  }
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

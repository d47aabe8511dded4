import { type Kept, replay } from '../../core/calibration/belief/replay.ts'
import type { Belief } from '../../core/calibration/belief/state.ts'
import { mm } from '../../core/units/quantity.ts'
import { type Base, bases } from '../../store/bases.ts'
import { type Coating, coatings } from '../../store/coatings.ts'
import type { Database } from '../../store/database/database.ts'
import { type Emulsion, emulsions, openBatches } from '../../store/emulsions.ts'
import { type Fabric, fabrics } from '../../store/fabrics.ts'
import { type Medium, media } from '../../store/media.ts'
import { readings } from '../../store/readings.ts'
import { type Screen, screens } from '../../store/screens.ts'
import { type Shop, theShop } from '../../store/shop.ts'
import { type LitUnit, units } from '../../store/units.ts'
import { beliefShop } from '../../workflow/lightFirstDose.ts'
import type {
  Coats,
  LightBase,
  LightFabric,
  LightScreen,
  LightShop,
  LightUnit,
} from '../../workflow/lightRecords.ts'
import { DEFAULT_POINT } from '../../workflow/setup.ts'
import { keptEvidence } from './evidence.ts'

/** A screen as the light question takes it, and what people know it by. */
export type ShopScreen = Readonly<{ light: LightScreen; record: Screen; fabric: Fabric }>

/** Everything that a dose rests on, read once and kept until something of it changes. */
export type ShopRecords = Readonly<{
  shop: Shop
  units: readonly LightUnit[]
  bases: readonly LightBase[]
  screens: readonly ShopScreen[]
  media: readonly Medium[]
  usualBase: LightBase
  light: LightShop
  belief: Belief
}>

/** @throws Failure 'not found' while there is no shop */
export async function shopRecords(database: Database): Promise<ShopRecords> {
  const shop = await theShop(database)
  const [allUnits, allBases, allMedia] = [
    (await units(database)).map(lightUnit),
    (await bases(database)).map(lightBase),
    await media(database),
  ]
  const usualBase = allBases.find(({ id }) => id === shop.usualBaseId) ?? allBases[0]
  if (usualBase === undefined) throw new RangeError('bases: expected at least 1, got 0')
  const seconds = allUnits.filter(({ countsIn }) => countsIn === 'seconds').map(({ id }) => id)
  const light: LightShop = { usualBase, secondsUnits: seconds }
  const fabricsById = new Map((await fabrics(database)).map((fabric) => [fabric.id, fabric]))
  const emulsionOf = await emulsionsByBatch(database)
  const coatingOf = new Map((await coatings(database)).map((each) => [each.screenId, each]))
  const allScreens = (await screens(database)).flatMap((record) => {
    const fabric = fabricsById.get(record.fabricId)
    if (fabric === undefined) return []
    const coating = coatingOf.get(record.id)
    return [{ record, fabric, light: lightScreen(record, { fabric, coating, emulsionOf }) }]
  })
  const evidence: readonly Kept[] = keptEvidence(await readings(database, { withStruck: true }), {
    media: allMedia,
    bases: allBases,
    fabrics: fabricsById,
  })
  const { belief } = replay(evidence, { shop: beliefShop(light) })
  return {
    shop,
    units: usualFirst(allUnits, shop.usualUnitId),
    bases: usualFirst(allBases, shop.usualBaseId),
    screens: allScreens,
    media: usualFirst(allMedia, shop.usualMediumId),
    usualBase,
    light,
    belief,
  }
}

/** A film's own base, or what is usual where nobody said. */
export function baseNamed({ bases, usualBase }: ShopRecords, id: string | null): LightBase {
  return bases.find((base) => base.id === id) ?? usualBase
}

/** How people call a fabric: white goes without saying. */
export function fabricName({
  name,
  colour,
  dyed,
}: Pick<Fabric, 'name' | 'colour' | 'dyed'>): string {
  return dyed ? `${name} ${colour}` : name
}

async function emulsionsByBatch(
  database: Database,
): Promise<(batchId: string | null) => Emulsion | undefined> {
  const byId = new Map((await emulsions(database)).map((each) => [each.id, each]))
  const byBatch = new Map(
    (await openBatches(database)).map(({ id, emulsionId }) => [id, byId.get(emulsionId)]),
  )
  return (batchId) => byBatch.get(batchId ?? '')
}

function lightUnit({ unit, lamp }: LitUnit): LightUnit {
  const { id, name, counts, luPerCount } = unit
  const isBank = lamp?.kind === 'bank'
  const { distanceMm = DEFAULT_POINT.distanceMm, sourceRadiusMm } = lamp ?? {}
  return {
    id,
    name,
    lamp: isBank
      ? { kind: 'bank', distanceMm: mm(distanceMm) }
      : {
          kind: 'point',
          distanceMm,
          sourceRadiusMm: sourceRadiusMm ?? DEFAULT_POINT.sourceRadiusMm,
        },
    countsIn: counts,
    // Nobody's lamp gives just one light unit in a second: 1 stands where none was told.
    countsPerLu: counts === 'seconds' && luPerCount === 1 ? null : 1 / luPerCount,
    lampHours: lamp?.litHours ?? null,
  }
}

function lightBase({ id, name, baseDensity, thicknessUm }: Base): LightBase {
  return { id, name, baseDensity, thicknessUm }
}

export function lightFabric(fabric: Fabric): LightFabric {
  const { id, threadsPerCm, threadUm, dyed } = fabric
  return { id, name: fabricName(fabric), threadsPerCm, threadUm, colour: dyed ? 'dyed' : 'white' }
}

const COATS: readonly string[] = [
  'once on each side',
  'twice on the print side',
  'more',
] satisfies readonly Coats[]

function lightScreen(
  { id, tag }: Screen,
  of: Readonly<{
    fabric: Fabric
    coating: Coating | undefined
    emulsionOf: (batchId: string | null) => Emulsion | undefined
  }>,
): LightScreen {
  const { coating } = of
  const emulsion = of.emulsionOf(coating?.batchId ?? null)
  const batch = coating?.batchId ?? null
  return {
    id,
    name: `screen ${tag}`,
    fabric: lightFabric(of.fabric),
    coating:
      coating === undefined
        ? null
        : {
            id: coating.id,
            coats: COATS.includes(coating.recipe) ? (coating.recipe as Coats) : null,
            overMeshUm: coating.eomUm,
            emulsion:
              emulsion === undefined || batch === null
                ? null
                : { id: batch, model: emulsion.model },
          },
  }
}

function usualFirst<Record extends { id: string }>(
  records: readonly Record[],
  usualId: string | null,
): readonly Record[] {
  return records.toSorted((a, b) => Number(b.id === usualId) - Number(a.id === usualId))
}

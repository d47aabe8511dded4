import type { Choice } from '../../api/shop.ts'
import type { TestsQuestion } from '../../api/tests.ts'
import { Failure } from '../../core/failure.ts'
import type { Batch } from '../../store/emulsions.ts'
import type { Fabric } from '../../store/fabrics.ts'
import type { LightEmulsion, LightExposure, LightScreen } from '../../workflow/lightRecords.ts'
import { dayText } from './days.ts'
import { unitAsked } from './exposureAsked.ts'
import { coatsOf, fabricName, lightFabric } from './lightThings.ts'
import type { ShopRecords } from './shopRecords.ts'

/** What doses are believed for: a fabric, coated from a bucket, under a unit. */
export type SetUp = Readonly<{
  fabric: Fabric
  batch: Batch | null
  /** The usual base; any screen of this kind, none in particular. */
  exposure: Omit<LightExposure, 'subject'>
}>

type Asked = Pick<TestsQuestion, 'fabric' | 'batch' | 'unit'>

/**
 * A set-up by the ids or names in use; what is not named is usual: the first fabric, the newest
 * bucket that is not used up of the usual emulsion, the first unit.
 *
 * @throws Failure 'not found' with the field, for what the shop does not have
 */
export function setUpAsked(records: ShopRecords, asked: Asked): SetUp {
  const fabric = fabricAsked(records, asked.fabric)
  const batch = batchAsked(records, asked.batch)
  const unit = unitAsked(records, asked.unit)
  const screen: LightScreen = {
    id: '',
    name: 'the next screen',
    fabric: lightFabric(fabric),
    coating: {
      id: '',
      coats: coatsOf(records.shop.usualRecipe),
      overMeshUm: null,
      emulsion: bucketOf(records, batch),
    },
  }
  return { fabric, batch, exposure: { base: records.usualBase, screen, unit } }
}

/** The usual fabric where none is named. @throws Failure 'not found' */
export function fabricAsked({ fabrics }: ShopRecords, asked: string | undefined): Fabric {
  const plain = asked?.trim().toLowerCase()
  const found =
    plain === undefined
      ? fabrics[0]
      : fabrics.find((fabric) => fabric.id === plain || fabricName(fabric).toLowerCase() === plain)
  if (found === undefined) throw notHere('fabric', 'fabric')
  return found
}

/** The newest open bucket of the usual emulsion where none is named; null while there is none. */
export function batchAsked(records: ShopRecords, asked: string | undefined): Batch | null {
  const { batches, shop } = records
  if (asked === undefined) {
    const open = batches.filter(({ usedUpAt }) => usedUpAt === null)
    return open.find(({ emulsionId }) => emulsionId === shop.usualEmulsionId) ?? open[0] ?? null
  }
  const plain = asked.trim().toLowerCase()
  const found =
    batches.find((batch) => batch.id === plain || bucketName(records, batch) === plain) ??
    batches.find(({ name }) => name.toLowerCase() === plain)
  if (found === undefined) throw notHere('bucket', 'batch')
  return found
}

/** A bucket as the models take it. */
export function bucketOf({ emulsions }: ShopRecords, batch: Batch | null): LightEmulsion | null {
  const model = emulsions.find(({ id }) => id === batch?.emulsionId)?.model
  return batch === null || model === undefined ? null : { id: batch.id, model }
}

/** The buckets that led to this one, oldest first: of its emulsion, each until the next came. */
export function bucketsOf({ batches }: ShopRecords, batch: Batch | null): readonly Batch[] {
  return batches
    .filter(({ emulsionId, mixedAt }) => {
      return emulsionId === batch?.emulsionId && mixedAt <= batch.mixedAt
    })
    .toReversed()
}

/** The same exposure with a coat from another bucket. */
export function coatedFrom(
  exposure: SetUp['exposure'],
  emulsion: LightEmulsion | null,
): SetUp['exposure'] {
  const { screen } = exposure
  if (screen === null || screen.coating === null) return exposure
  return { ...exposure, screen: { ...screen, coating: { ...screen.coating, emulsion } } }
}

/** A bucket as it is told from all others: its emulsion, where there are several, and its name. */
export function bucketName({ emulsions }: ShopRecords, { emulsionId, name }: Batch): string {
  const emulsion = emulsions.find(({ id }) => id === emulsionId)?.name
  return emulsion === undefined || emulsions.length === 1 ? name : `${emulsion}, ${name}`
}

/** What the blanks of the page can be filled with. */
export function setUpChoices(
  records: ShopRecords,
): Readonly<Record<'fabrics' | 'batches' | 'units' | 'media', readonly Choice[]>> {
  const { fabrics, batches, units, media } = records
  const plain = { about: null, not: null }
  return {
    fabrics: fabrics.map((fabric) => ({ id: fabric.id, name: fabricName(fabric), ...plain })),
    batches: batches.map((batch) => ({
      id: batch.id,
      name: bucketName(records, batch),
      about: `mixed on ${dayText(batch.mixedAt)}`,
      not: batch.usedUpAt === null ? null : 'used up',
    })),
    units: units.map(({ id, name }) => ({ id, name, ...plain })),
    media: media.map(({ id, name }) => ({ id, name, ...plain })),
  }
}

function notHere(what: string, field: string): Failure {
  const message = `There is no such ${what} in this shop: choose one that is there.`
  return new Failure('not found', message, { field })
}

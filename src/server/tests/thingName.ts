import type { ThingKind } from '../../core/calibration/drift/witnesses.ts'
import { fabricName } from '../shop/lightThings.ts'
import { bucketName } from '../shop/setUpAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'

/** What the shop calls one of its things. */
export function thingName(records: ShopRecords, kind: ThingKind, id: string): string {
  const { units, batches, fabrics } = records
  switch (kind) {
    case 'unit':
      return units.find((unit) => unit.id === id)?.name ?? 'the lamp'
    case 'batch': {
      const batch = batches.find((each) => each.id === id)
      return batch === undefined ? 'the bucket' : bucketName(records, batch)
    }
    case 'fabric': {
      const fabric = fabrics.find((each) => each.id === id)
      return fabric === undefined ? 'the fabric' : fabricName(fabric)
    }
  }
}

/** Whether a test can still be made with a thing: a bucket that is used up coats no screen. */
export function thingIsThere({ batches }: ShopRecords, kind: ThingKind, name: string): boolean {
  return kind !== 'batch' || batches.find(({ id }) => id === name)?.usedUpAt === null
}

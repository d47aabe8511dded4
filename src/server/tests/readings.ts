import type { z } from 'zod'
import type {
  ReadingLine,
  ReadingTaken,
  readingsQuestion,
  NewReading as ToldReading,
} from '../../api/tests.ts'
import { addReading, type Reading, strikeReading } from '../../store/readings.ts'
import { movedWords } from '../../workflow/testsMoved.ts'
import type { Told } from '../http/route.ts'
import { dayOf } from '../shop/days.ts'
import { mediumAsked, unitAsked } from '../shop/exposureAsked.ts'
import { batchAsked, fabricAsked, setUpAsked } from '../shop/setUpAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'
import type { ShopService } from '../shop/shopService.ts'
import { lineOf, readingLines } from './readingLines.ts'
import { readingTold } from './readingTold.ts'

type Question = z.infer<typeof readingsQuestion>

const USUAL_LIMIT = 200

/**
 * Readings, newest first. With a medium those that its dose rests on: strips and screens in it,
 * wherever they were made, and all wedges under the unit. Without one those of the things named.
 *
 * @throws Failure 'not found' with the field, for what the shop does not have
 */
export function readingsAsked(
  records: ShopRecords,
  { medium, fabric, batch, unit, limit = USUAL_LIMIT }: Question,
): readonly Told<ReadingLine>[] {
  const mediumId = medium === undefined ? null : mediumAsked(records, medium).id
  const wanted = {
    unitId: unit === undefined && medium === undefined ? null : unitAsked(records, unit).id,
    fabricId: fabric === undefined ? null : fabricAsked(records, fabric).id,
    batchId: batch === undefined ? null : (batchAsked(records, batch)?.id ?? null),
  }
  const isOf = (reading: Reading, key: keyof typeof wanted): boolean =>
    wanted[key] === null || reading[key] === wanted[key]
  const counts = (reading: Reading): boolean => {
    if (mediumId === null) {
      return isOf(reading, 'unitId') && isOf(reading, 'fabricId') && isOf(reading, 'batchId')
    }
    return reading.kind === 'wedge' ? isOf(reading, 'unitId') : reading.mediumId === mediumId
  }
  const asked = records.taught.filter(({ whole }) => counts(whole.reading))
  return readingLines(records, asked.slice(-limit).reverse())
}

/** Takes down what somebody tells. @throws Failure in a sentence with its field */
export async function takenDown(
  service: ShopService,
  told: ToldReading,
  by: Readonly<{ personId: string | null }>,
): Promise<Told<ReadingTaken>> {
  const before = await service.records()
  const reading = await readingTold(service, told, by)
  const taken = await addReading(service.store.database, reading, { at: service.now() })
  service.changed('readings')
  return movedBy(service, { reading: taken.reading, before })
}

/** Strikes a reading out. @throws Failure 'not found', or 'conflict' when it is struck out already */
export async function struckOut(
  service: ShopService,
  id: string,
  { reason, byId }: Readonly<{ reason: string; byId: string | null }>,
): Promise<Told<ReadingTaken>> {
  const before = await service.records()
  const at = service.now()
  const reading = await strikeReading(service.store.database, id, { reason, byId }, { at })
  service.changed('readings')
  return movedBy(service, { reading, before })
}

async function movedBy(
  service: ShopService,
  { reading, before }: Readonly<{ reading: Reading; before: ShopRecords }>,
): Promise<Told<ReadingTaken>> {
  const records = await service.records()
  const line = lineOf(records, reading.id)
  const { exposure } = setUpAsked(records, {
    fabric: reading.fabricId ?? undefined,
    batch: reading.batchId ?? undefined,
    unit: reading.unitId,
  })
  const named = records.media.find(({ id }) => id === reading.mediumId) ?? records.media[0]
  const moved = records.believed.isBehind
    ? [BEHIND]
    : movedWords({ before: before.belief, after: records.belief }, exposure, {
        media: named === undefined ? [] : [named.name],
        day: dayOf(service.now()),
      })
  return { kind: 'reading taken', reading: line, moved }
}

const BEHIND =
  'This is of long ago: what follows from it is being reckoned, look again in a minute.'

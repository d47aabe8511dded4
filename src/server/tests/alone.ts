import type { z } from 'zod'
import type { readingsQuestion } from '../../api/tests.ts'
import { aloneWords } from '../../workflow/testsAlone.ts'
import { dayOf } from '../shop/days.ts'
import { mediumAsked } from '../shop/exposureAsked.ts'
import { setUpAsked } from '../shop/setUpAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'
import { isOfSetUp } from './isOfSetUp.ts'

/**
 * What a medium's own strips and screens on a set-up say by themselves, since its lamp was fitted;
 * null without a medium, and where they cannot tell.
 *
 * @throws Failure 'not found' with the field, for what the shop does not have
 */
export function aloneAsked(
  records: ShopRecords,
  { medium, fabric, batch, unit }: z.infer<typeof readingsQuestion>,
  now: Date,
): string | null {
  if (medium === undefined) return null
  const { id, name } = mediumAsked(records, medium)
  const setUp = setUpAsked(records, { fabric, batch, unit })
  const fittedAt = records.lamps.findLast(
    ({ unitId }) => unitId === setUp.exposure.unit.id,
  )?.fittedAt
  const evidence = records.taught.flatMap(({ whole: { reading }, evidence: taught }) =>
    taught !== null &&
    reading.mediumId === id &&
    isOfSetUp(reading, setUp) &&
    (fittedAt === undefined || reading.takenAt >= fittedAt)
      ? [taught]
      : [],
  )
  const { belief } = records
  return aloneWords(evidence, setUp.exposure, { medium: name, belief, day: dayOf(now) })
}

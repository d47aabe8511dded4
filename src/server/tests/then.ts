import type { TestsQuestion } from '../../api/tests.ts'
import type { Belief } from '../../core/calibration/belief/state.ts'
import { dayOf, toldDay } from '../shop/days.ts'
import { batchAsked, type SetUp, setUpAsked } from '../shop/setUpAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'
import type { ShopService } from '../shop/shopService.ts'

/** What the answer speaks of: a set-up on a day, and the belief as it stood then. */
export type Then = Readonly<{
  records: ShopRecords
  setUp: SetUp
  belief: Belief
  day: number
  isNow: boolean
}>

/**
 * The set-up and the day of a question, and what was believed then.
 *
 * @throws Failure 'not found' or 'wrong input' with the field
 */
export async function askedThen(service: ShopService, question: TestsQuestion): Promise<Then> {
  const records = await service.records()
  const today = dayOf(service.now())
  const day = dayOf(toldDay(question.on, service.now()))
  const isNow = day === today
  const belief = isNow ? records.belief : await records.believed.onEvening(day)
  const batch = question.batch ?? (isNow ? undefined : bucketThen(records, day))
  const setUp = setUpAsked(records, { ...question, batch })
  return { records, belief, day, isNow, setUp: isNow ? setUp : withLampThen(setUp, belief) }
}

/** The bucket of the usual emulsion that was the newest then. */
function bucketThen(records: ShopRecords, day: number): string | undefined {
  const usual = batchAsked(records, undefined)?.emulsionId
  const then = records.batches.filter(({ mixedAt }) => dayOf(mixedAt) <= day)
  return then.find(({ emulsionId }) => emulsionId === usual)?.id
}

/** The lamp had the hours that were known then. */
export function withLampThen({ exposure, ...setUp }: SetUp, belief: Belief): SetUp {
  const lampHours = belief.lampHours.get(exposure.unit.id) ?? null
  return {
    ...setUp,
    exposure: { ...exposure, unit: { ...exposure.unit, lampHours, lampFitted: undefined } },
  }
}

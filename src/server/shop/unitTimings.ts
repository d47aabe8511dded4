import { lampTimings } from '../../store/lampTimings.ts'
import { unitOf } from '../../store/units.ts'
import {
  type LampTime,
  type LampTiming,
  lampTime,
  newestTold,
  timedDays,
} from '../../workflow/lampTime.ts'
import type { LightUnit } from '../../workflow/lightRecords.ts'
import { dayText } from './days.ts'
import type { ShopService } from './shopService.ts'

/** What was timed of the lamp that is in a unit now. */
export async function unitTimings(
  { store: { database } }: ShopService,
  unitId: string,
): Promise<readonly LampTiming[]> {
  const { lamp } = await unitOf(database, unitId)
  const runs = await lampTimings(database, { unitId })
  return runs
    .filter(({ lampId }) => lampId === (lamp?.id ?? null))
    .map(({ takenAt, started, lampHours, pairs }) => ({
      on: dayText(takenAt),
      from: started,
      lampHours,
      pairs,
    }))
}

/** How long a dose takes under a unit; null until somebody has timed its lamp from cold. */
export async function timeUnder(
  service: ShopService,
  unit: Pick<LightUnit, 'id' | 'countsIn'>,
  { count }: Readonly<{ count: number }>,
): Promise<LampTime | null> {
  const told = await service.kept(`warm-up ${unit.id}`, async () =>
    newestTold(timedDays(await unitTimings(service, unit.id))),
  )
  return told === null ? null : lampTime(told.fit.warmUp, { count, countsIn: unit.countsIn })
}

import type { WarmUp } from '../../core/light/warmUp.ts'
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

/** How a unit's lamp warms up; null until somebody has timed it from cold. */
export async function warmUpUnder(service: ShopService, unitId: string): Promise<WarmUp | null> {
  return service.kept(`warm-up ${unitId}`, async () => {
    const told = newestTold(timedDays(await unitTimings(service, unitId)))
    return told === null ? null : told.fit.warmUp
  })
}

/** How long a dose takes under a unit; null until somebody has timed its lamp from cold. */
export async function timeUnder(
  service: ShopService,
  unit: Pick<LightUnit, 'id' | 'countsIn'>,
  { count }: Readonly<{ count: number }>,
): Promise<LampTime | null> {
  const warmUp = await warmUpUnder(service, unit.id)
  return warmUp === null ? null : lampTime(warmUp, { count, countsIn: unit.countsIn })
}

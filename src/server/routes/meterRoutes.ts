import { byMeter, meterQuestion } from '../../api/lamp.ts'
import { PATHS } from '../../api/paths.ts'
import { Failure } from '../../core/failure.ts'
import { unitOf } from '../../store/units.ts'
import { meterAnswer } from '../../workflow/lampMeter.ts'
import type { LightUnit } from '../../workflow/lightRecords.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import { unitAsked } from '../shop/exposureAsked.ts'
import { warmUpUnder } from '../shop/unitTimings.ts'

/** Seconds under a light that is read by hand: the sun, tubes, a panel without a counter. */
export function meterRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'post',
      path: PATHS.meter,
      summary:
        'how long a dose in seconds takes by a hand light meter, from its readings since the start; nothing is kept',
      body: meterQuestion,
      answer: byMeter,
      run: async ({ body: { unit: asked, count, readings } }) => {
        const service = door.shop()
        const { id, name } = await secondsUnit(door, asked)
        const { unit } = await unitOf(service.store.database, id)
        if (unit.meterReading === null) throw new Failure('conflict', NO_REFERENCE)
        const inOrder = readings.toSorted((a, b) => a.clockSec - b.clockSec)
        const twice = inOrder.find(({ clockSec }, at) => clockSec === inOrder[at - 1]?.clockSec)
        if (twice !== undefined) {
          const message = `Two readings stand at ${twice.clockSec} s: give one for each time.`
          throw new Failure('wrong input', message, { field: 'readings' })
        }
        const warmUp = await warmUpUnder(service, id)
        const of = { kind: 'by meter', unit: { id, name } } as const
        return {
          ...of,
          ...meterAnswer({ count, readings: inOrder, reference: unit.meterReading, warmUp }),
        }
      },
    }),
  ]
}

/** @throws Failure 'not found'; 'conflict' for a unit whose counter sees the light itself */
export async function secondsUnit(door: ShopDoor, asked: string | undefined): Promise<LightUnit> {
  const unit = unitAsked(await door.shop().records(), asked)
  if (unit.countsIn === 'seconds') return unit
  const message = `The counter of ${unit.name} sees the light itself: a hand meter is for a lamp that counts seconds.`
  throw new Failure('conflict', message, { field: 'unit' })
}

const NO_REFERENCE =
  'Nobody has said yet in which light the seconds of this lamp are counted: tell it once, under The lamp.'

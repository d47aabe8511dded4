import type { Tests, TestsQuestion } from '../../api/tests.ts'
import { isoOfDay } from '../../workflow/calendarDay.ts'
import { mediaBelieved } from '../../workflow/testsMedia.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import { fabricName } from '../shop/lightThings.ts'
import { bucketName, setUpChoices } from '../shop/setUpAsked.ts'
import type { ShopService } from '../shop/shopService.ts'
import { changesOf } from './changes.ts'
import { groundOf } from './ground.ts'
import { nextTest } from './nextTest.ts'
import { askedThen } from './then.ts'

/** What we believe of a set-up, from what, how sure, and what changed; kept until anything does. */
export function testsOf(service: ShopService, question: TestsQuestion): Promise<Told<Tests>> {
  return service.kept(`tests ${JSON.stringify(question)}`, async () => {
    const then = await askedThen(service, question)
    const { records, setUp, belief, day, isNow } = then
    const { fabric, batch, exposure } = setUp
    const { reference, believed, light: shop } = records
    const { media, scale } = mediaBelieved(exposure, {
      belief,
      shop,
      day,
      media: records.media.map(({ id, name }) => ({ id, name })),
    })
    const { alarms, changed } = await changesOf(service, then)
    return {
      kind: 'tests',
      asked: {
        fabric: { id: fabric.id, name: fabricName(fabric) },
        batch: batch === null ? null : { id: batch.id, name: bucketName(records, batch) },
        unit: { id: exposure.unit.id, name: exposure.unit.name },
      },
      choices: setUpChoices(records),
      countsIn: exposure.unit.countsIn,
      on: isoOfDay(day),
      now: isNow,
      scale,
      media,
      ground: groundOf(then),
      changed,
      alarms,
      reference: reference === null ? null : { acceptedOn: dayText(reference.acceptedAt) },
      next: nextTest(then),
      warnings: believed.isBehind ? [BEHIND] : believed.isRetracing ? [RETRACING] : [],
    }
  })
}

const BEHIND =
  'Something of long ago was told or struck out, and what follows from it is still being reckoned: look again in a minute.'

const RETRACING =
  'The shop was opened just now, and the days before are still being gone through: what drifted is said in a moment.'

import { PATHS } from '../../api/paths.ts'
import {
  accepted,
  newReading,
  readingList,
  readingsQuestion,
  readingTaken,
  strike,
  tests,
  testsQuestion,
} from '../../api/tests.ts'
import { acceptReference } from '../../store/references.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import { readingsAsked, struckOut, takenDown } from '../tests/readings.ts'
import { testsOf } from '../tests/testsAnswer.ts'

/** What we believe, from what, how sure; and what the room tells. */
export function testsRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.tests,
      summary:
        'what is believed of the doses of all media on a set-up, how it moved, and what changed; today or as it stood on a day',
      query: testsQuestion,
      answer: tests,
      run: ({ query }) => testsOf(door.shop(), query),
    }),
    route({
      method: 'get',
      path: PATHS.readings,
      summary: 'the shop’s readings, newest first: all, or those that a medium’s dose rests on',
      query: readingsQuestion,
      answer: readingList,
      run: async ({ query }) => ({
        kind: 'readings' as const,
        readings: readingsAsked(await door.shop().records(), query),
      }),
    }),
    route({
      method: 'post',
      path: PATHS.readings,
      summary: 'takes down a wedge, a strip or how a screen came out, and says what it moved',
      body: newReading,
      answer: readingTaken,
      status: 201,
      run: ({ body }) => takenDown(door.shop(), body),
    }),
    route({
      method: 'post',
      path: `${PATHS.readings}/{reading}/strike`,
      summary: 'strikes a reading out, with the reason: it is kept, and believed no more',
      body: strike,
      answer: readingTaken,
      run: ({ body, place }) => struckOut(door.shop(), place('reading'), body),
    }),
    route({
      method: 'post',
      path: PATHS.reference,
      summary: 'accepts what is believed now as what drift is charted against',
      answer: accepted,
      status: 201,
      run: async () => {
        const service = door.shop()
        await service.records()
        const { acceptedAt } = await acceptReference(
          service.store.database,
          { byId: null },
          { at: service.now() },
        )
        service.changed()
        return { kind: 'accepted' as const, acceptedOn: dayText(acceptedAt) }
      },
    }),
  ]
}

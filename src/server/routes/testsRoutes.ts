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
import type { PeopleKeeper } from '../people/peopleKeeper.ts'
import { dayText } from '../shop/days.ts'
import { aloneAsked } from '../tests/alone.ts'
import { readingsAsked, struckOut, takenDown } from '../tests/readings.ts'
import { testsOf } from '../tests/testsAnswer.ts'

/** What we believe, from what, how sure; and what the room tells. */
export function testsRoutes(door: ShopDoor, keeper: PeopleKeeper): readonly Route[] {
  const meIn = async (request: Request): Promise<string | null> =>
    (await keeper.whoIs(door.shop(), request)).person?.id ?? null
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
      run: async ({ query }) => {
        const records = await door.shop().records()
        const alone = aloneAsked(records, query, door.shop().now())
        return { kind: 'readings' as const, readings: readingsAsked(records, query), alone }
      },
    }),
    route({
      method: 'post',
      path: PATHS.readings,
      summary: 'takes down a wedge, a strip or how a screen came out, and says what it moved',
      body: newReading,
      answer: readingTaken,
      status: 201,
      run: async ({ body, request }) =>
        takenDown(door.shop(), body, { personId: await meIn(request) }),
    }),
    route({
      method: 'post',
      path: `${PATHS.readings}/{reading}/strike`,
      summary: 'strikes a reading out, with the reason: it is kept, and believed no more',
      body: strike,
      answer: readingTaken,
      run: async ({ body, place, request }) =>
        struckOut(door.shop(), place('reading'), { ...body, byId: await meIn(request) }),
    }),
    route({
      method: 'post',
      path: PATHS.reference,
      summary: 'accepts what is believed now as what drift is charted against',
      answer: accepted,
      status: 201,
      run: async ({ request }) => {
        const service = door.shop()
        await service.records()
        const { acceptedAt } = await acceptReference(
          service.store.database,
          { byId: await meIn(request) },
          { at: service.now() },
        )
        service.changed()
        return { kind: 'accepted' as const, acceptedOn: dayText(acceptedAt) }
      },
    }),
  ]
}

import { clockNews, clocks } from '../../api/clocks.ts'
import { PATHS } from '../../api/paths.ts'
import { clocksHeard, clocksTold } from '../clocks/clocksTold.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import type { PeopleKeeper } from '../people/peopleKeeper.ts'

/** Clocks that follow whoever started them, wherever that person looks. */
export function clockRoutes(door: ShopDoor, keeper: PeopleKeeper): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.clocks,
      summary: 'clocks that run in the room, which of them follow who asks, the next to ring first',
      answer: clocks,
      run: async ({ request }) => {
        const who = await keeper.whoIs(door.shop(), request)
        return clocksTold(door.shop(), { who })
      },
    }),
    route({
      method: 'post',
      path: PATHS.clocks,
      summary:
        'remover is on a screen, or off it; told late or twice it is taken down once, at its own moment',
      body: clockNews,
      answer: clocks,
      run: async ({ body, request }) => {
        const who = await keeper.whoIs(door.shop(), request)
        await clocksHeard(door.shop(), body, { who })
        return clocksTold(door.shop(), { who })
      },
    }),
  ]
}

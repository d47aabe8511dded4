import { PATHS } from '../../api/paths.ts'
import { newIncident, newThing, things } from '../../api/things.ts'
import { addIncident } from '../../store/incidents.ts'
import { addThing, changeThing, retireThing } from '../../store/things.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import { toldDay } from '../shop/days.ts'
import { thingsTold } from '../things/thingsAnswer.ts'

const THING = `${PATHS.things}/{thing}`

/** What stands in the room, and what went wrong there. */
export function thingsRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.things,
      summary: 'what stands in the room as sentences with their facts, and the incident log',
      answer: things,
      run: () => thingsTold(door.shop()),
    }),
    route({
      method: 'post',
      path: PATHS.things,
      summary:
        'something more in the room: a station, a supply, a leftover ink, a term, a hazard text, a handover note',
      body: newThing,
      answer: things,
      status: 201,
      run: async ({ body }) => {
        const service = door.shop()
        await addThing(service.store.database, body, { at: service.now() })
        return thingsTold(service)
      },
    }),
    route({
      method: 'post',
      path: THING,
      summary: 'a thing of the room is otherwise now',
      body: newThing,
      answer: things,
      run: async ({ body: { name, facts }, place }) => {
        const service = door.shop()
        const at = service.now()
        await changeThing(service.store.database, place('thing'), { name, facts, at })
        return thingsTold(service)
      },
    }),
    route({
      method: 'delete',
      path: THING,
      summary: 'a thing of the room is gone or used up',
      answer: things,
      run: async ({ place }) => {
        const service = door.shop()
        await retireThing(service.store.database, place('thing'), { at: service.now() })
        return thingsTold(service)
      },
    }),
    route({
      method: 'post',
      path: PATHS.incidents,
      summary: 'an accident, or nearly one; it stays as it was told',
      body: newIncident,
      answer: things,
      status: 201,
      run: async ({ body: { on, ...incident } }) => {
        const service = door.shop()
        const at = service.now()
        const told = { ...incident, happenedAt: toldDay(on, at) }
        await addIncident(service.store.database, told, { at })
        return thingsTold(service)
      },
    }),
  ]
}

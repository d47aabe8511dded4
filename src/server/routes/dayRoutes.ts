import { day, type NewDay, newDay, newDayEvent } from '../../api/day.ts'
import { PATHS } from '../../api/paths.ts'
import { Failure } from '../../core/failure.ts'
import { addDayEvent, addDayPlan, endDayPlan } from '../../store/dayPlans.ts'
import { dayTold } from '../day/dayAnswer.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'

const PLAN = `${PATHS.day}/{plan}`
const LONGEST_MS = 24 * 3600_000

/** Class time: who is on which machine when. */
export function dayRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.day,
      summary: 'who is where, who is next, when all are done; screens that are due, what waits',
      answer: day,
      run: () => dayTold(door.shop()),
    }),
    route({
      method: 'post',
      path: PATHS.day,
      summary: 'plans a class: people with their screens on the machines of the room',
      body: newDay,
      answer: day,
      status: 201,
      run: async ({ body }) => {
        expectPlan(body)
        const service = door.shop()
        const { title, beginsAt, closesAt } = body
        const span = { beginsAt: new Date(beginsAt), closesAt: new Date(closesAt) }
        const plan = { title, ...span, asked: body }
        await addDayPlan(service.store.database, plan, { at: service.now() })
        return dayTold(service)
      },
    }),
    route({
      method: 'post',
      path: `${PLAN}/events`,
      summary:
        'a screen failed, somebody is late, a station was done earlier or later: the rest is laid anew; told twice it is one',
      body: newDayEvent,
      answer: day,
      run: async ({ body, place }) => {
        const service = door.shop()
        const { key, kind, person, screen } = body
        const at = service.now()
        const event = {
          planId: place('plan'),
          sentKey: key,
          kind,
          person,
          screen,
          happenedAt: at,
          minutes: body.kind === 'late' ? body.minutes : null,
          station: body.kind === 'done' ? body.station : null,
        }
        await addDayEvent(service.store.database, event, { at })
        return dayTold(service)
      },
    }),
    route({
      method: 'post',
      path: `${PLAN}/end`,
      summary: 'the class is over: the plan is kept and not shown',
      answer: day,
      run: async ({ place }) => {
        const service = door.shop()
        await endDayPlan(service.store.database, place('plan'), { at: service.now() })
        return dayTold(service)
      },
    }),
  ]
}

function expectPlan({ beginsAt, closesAt, people, stations }: NewDay): void {
  const span = Date.parse(closesAt) - Date.parse(beginsAt)
  if (!(span > 0 && span <= LONGEST_MS)) {
    const message = 'The room has to close after the class begins, and on the same day.'
    throw new Failure('wrong input', message, { field: 'closesAt' })
  }
  twice(
    people.map(({ name }) => name),
    'people',
  )
  twice(
    stations.map(({ name }) => name),
    'stations',
  )
}

function twice(names: readonly string[], field: 'people' | 'stations'): void {
  const name = names.find((each, at) => names.indexOf(each) !== at)
  if (name === undefined) return
  const message = `${name} stands here twice: give each a name of its own.`
  throw new Failure('wrong input', message, { field })
}

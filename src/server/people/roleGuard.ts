import type { MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import { leastRole, may, type Role } from '../../api/roles.ts'
import type { ShopDoor } from '../door.ts'
import { DoorRefusal } from '../http/refusals.ts'
import type { PeopleKeeper } from './peopleKeeper.ts'

/** The one place where roles are asked for: each route of the API against its row of the table. */
export function roleGuard(door: ShopDoor, keeper: PeopleKeeper): MiddlewareHandler {
  return async (context, next) => {
    const own = matchedRoutes(context).find(({ method }) => method !== 'ALL')
    const least = own === undefined ? 'nobody' : leastRole(`${own.method} ${own.path}`)
    if (least === 'nobody') return next()
    const { role } = await keeper.whoIs(door.shop(), context.req.raw)
    if (!may(role, least)) throw refusalFor(role, least)
    return next()
  }
}

function refusalFor(role: Role, least: Role): DoorRefusal {
  if (role === 'nobody') {
    return new DoorRefusal(
      'not signed in',
      'Sign in first: with the card, or with name and password.',
    )
  }
  const who = least === 'lead' ? 'a shop lead' : `a ${least}`
  const message = `This takes ${who}, and you are signed in as a ${role}: ask ${who} to do it, or to let you.`
  return new DoorRefusal('not yours', message)
}

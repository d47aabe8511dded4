import type { MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import { leastRole, may, type Role } from '../../api/roles.ts'
import type { ShopDoor } from '../door.ts'
import { DoorRefusal } from '../http/refusals.ts'
import type { BeforeRun } from '../http/route.ts'
import type { PeopleKeeper } from './peopleKeeper.ts'

/**
 * The one place where roles are asked for: each route of the API against its row of the table.
 *
 * Who asks is known once the shop is open. Until then what is sent is read first, so that somebody
 * hears what is wrong with it, and the role is asked for before anything is done.
 */
export function roleGuard(door: ShopDoor, keeper: PeopleKeeper): MiddlewareHandler<BeforeRun> {
  return async (context, next) => {
    const own = matchedRoutes(context).find(({ method, path }) => method !== 'ALL' && path !== '/*')
    const least = own === undefined ? 'nobody' : leastRole(`${own.method} ${own.path}`)
    if (least === 'nobody') return next()
    const expectRole = async (): Promise<void> => {
      const { role } = await keeper.whoIs(door.shop(), context.req.raw)
      if (!may(role, least)) throw refusalFor(role, least)
    }
    const isSending = own?.method !== 'GET'
    if (isSending && door.health().status !== 'ready') context.set('beforeRun', expectRole)
    else await expectRole()
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

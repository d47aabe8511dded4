import { createHash, timingSafeEqual } from 'node:crypto'
import { isIP } from 'node:net'
import { hostname } from 'node:os'
import type { MiddlewareHandler } from 'hono'
import { secureHeaders } from 'hono/secure-headers'
import { DoorRefusal } from './refusals.ts'

const NOTHING = ["'none'"]
const OURS = ["'self'"]

/** What our pages may load and do; everything else is refused by the browser. */
export function headers(): MiddlewareHandler {
  return secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: NOTHING,
      scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
      styleSrc: OURS,
      imgSrc: ["'self'", 'blob:', 'data:'],
      fontSrc: OURS,
      connectSrc: OURS,
      manifestSrc: OURS,
      workerSrc: ["'self'", 'blob:'],
      baseUri: NOTHING,
      formAction: NOTHING,
      frameAncestors: NOTHING,
    },
    strictTransportSecurity: false, // a workshop's own plain http
    referrerPolicy: 'no-referrer',
  })
}

export type GuardOptions = Readonly<{
  /** The word in the shop's lock by which commands are known; null when there is none. */
  token: string | null
  /** Only this computer can reach the door: then it goes by this computer's names only. */
  onlyHere: boolean
  /** Names beside those by which browsers reach it, as a name server has them. */
  names?: readonly string[]
}>

const READING = new Set(['GET', 'HEAD', 'OPTIONS'])
const NAMES_OF_HERE = new Set(['localhost', '127.0.0.1', '[::1]'])
/**
 * Names that no site of the open net can have: without a dot, or under an ending that is kept for
 * rooms and houses.
 *
 * @source local-names
 */
const ROOM_NAME = /^[^.]+$|\.(?:local|localhost|lan|home|home\.arpa|internal|intranet|localdomain)$/

/**
 * Lets in our own pages and whoever knows the token, not the page of another site: browsers name
 * the site a page came from with everything that changes something, and a name of another site that
 * leads here is none of ours: a page under it would be taken for our own.
 */
export function guard({ token, onlyHere, names = [] }: GuardOptions): MiddlewareHandler {
  const known = new Set(names.map((name) => name.toLowerCase()))
  const goesBy = (name: string): boolean =>
    known.has(name) || (onlyHere ? NAMES_OF_HERE.has(name) : isOfRoom(name))
  return async (context, next) => {
    const { req } = context
    const written = req.header('authorization')
    if (written !== undefined) {
      if (token === null || !isSame(written, `Bearer ${token}`)) throw wrongToken()
      return next()
    }
    const host = (req.header('host') ?? new URL(req.url).host).toLowerCase()
    const name = host.replace(/:\d+$/, '').replace(/\.$/, '')
    if (!goesBy(name)) throw unknownName(name)
    if (
      !READING.has(req.method) &&
      !isOurs(req.header('origin'), req.header('sec-fetch-site'), host)
    ) {
      throw foreign()
    }
    return next()
  }
}

/** An address, or a name that leads nowhere outside of the room's own net. */
function isOfRoom(name: string): boolean {
  const address = name.replace(/^\[(.*)\]$/, '$1')
  return isIP(address) !== 0 || ROOM_NAME.test(name) || name === hostname().toLowerCase()
}

function isOurs(origin: string | undefined, site: string | undefined, host: string): boolean {
  if (origin === undefined) return site === undefined || site === 'same-origin' || site === 'none'
  if (!URL.canParse(origin)) return false
  return new URL(origin).host.toLowerCase() === host
}

function isSame(written: string, known: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest()
  return timingSafeEqual(digest(written), digest(known))
}

function foreign(): DoorRefusal {
  return new DoorRefusal(
    'foreign page',
    'This was asked by a page of another site: open Yellowroom itself and do it there.',
  )
}

function unknownName(name: string): DoorRefusal {
  const shown = name.replace(/[^\w.:[\]-]/g, '?').slice(0, 80)
  return new DoorRefusal(
    'foreign page',
    `This Yellowroom does not go by the name ${shown}: ask by its address, or start it with YELLOWROOM_NAMES=${shown}.`,
  )
}

function wrongToken(): DoorRefusal {
  return new DoorRefusal(
    'wrong token',
    'The token is not the one of this Yellowroom, which makes a new one at each start: read it again.',
  )
}

import type { Role } from '../../api/roles.ts'
import { Failure } from '../../core/failure.ts'
import { plainName } from '../../core/units/plainName.ts'
import type { Database } from '../../store/database/database.ts'
import { type Person, people } from '../../store/people.ts'
import {
  beginSession,
  credentials,
  endSessions,
  personWithCode,
  sessionPerson,
} from '../../store/sessions.ts'
import { theShop } from '../../store/shop.ts'
import type { ShopService } from '../shop/shopService.ts'
import { codeHash, codeTyped, isPassword, newToken, passwordHash, tokenHashOf } from './secrets.ts'
import { slowDown } from './slowDown.ts'

/** Who asks: nobody known, or somebody; in an open shop everybody may everything. */
export type Who = Readonly<{ person: Person | null; role: Role; isOpen: boolean }>

export type PeopleKeeper = Readonly<{
  whoIs: (service: ShopService, request: Request) => Promise<Who>
  /** @throws Failure 'wrong input' for what opens nothing, 'conflict' while one has to wait */
  signIn: (
    service: ShopService,
    by: Readonly<{ code: string }> | Readonly<{ name: string; password: string }>,
  ) => Promise<Readonly<{ person: Person; cookie: string }>>
  signOut: (service: ShopService, request: Request) => Promise<string>
  /** Somebody's role, password or being here changed. */
  forget: () => void
}>

/** The cookie's name; a host has one Yellowroom. */
const COOKIE = 'yellowroom'
/** Other servers on the same database may have changed it meanwhile. */
const KEPT_MS = 20_000
/** A card at the bench is good for a lesson or two, a password for a day. Judged. */
const CARD_HOURS = 6
const PASSWORD_HOURS = 12
const HOUR_MS = 3600_000
/** One wrong card must not hold up a class. */
const CARD_WAIT_SEC = 5
const PASSWORD_WAIT_SEC = 300
const MOST_KEPT = 400

type Known<Value> = Readonly<{ value: Promise<Value>; untilMs: number }>

/** Knows who is signed in, for as long as the server runs; what counts stands in the database. */
export function peopleKeeper(): PeopleKeeper {
  let open: Known<boolean> | null = null
  let sessions = new Map<string, Known<Person | null>>()
  const cardTries = slowDown({ longestSec: CARD_WAIT_SEC })
  const passwordTries = slowDown({ longestSec: PASSWORD_WAIT_SEC })
  const forget = (): void => {
    open = null
    sessions = new Map()
  }
  const isOpen = ({ store, now }: ShopService): Promise<boolean> => {
    const nowMs = now().getTime()
    if (open === null || open.untilMs < nowMs) {
      open = { value: isOpenShop(store.database), untilMs: nowMs + KEPT_MS }
      open.value.catch(forget)
    }
    return open.value
  }
  const signedIn = async (
    { store, now }: ShopService,
    request: Request,
  ): Promise<Person | null> => {
    const token = tokenIn(request)
    if (token === null) return null
    const tokenHash = tokenHashOf(token)
    const nowMs = now().getTime()
    const there = sessions.get(tokenHash)
    if (there !== undefined && there.untilMs >= nowMs) return there.value
    if (sessions.size >= MOST_KEPT) sessions = new Map()
    const value = sessionPerson(store.database, { tokenHash }, { at: now() }).then(
      (found) => found?.person ?? null,
    )
    sessions.set(tokenHash, { value, untilMs: nowMs + KEPT_MS })
    value.catch(forget)
    return value
  }
  return {
    forget,
    whoIs: async (service, request) => {
      const [person, opened] = [await signedIn(service, request), await isOpen(service)]
      if (opened) return { person, role: 'lead', isOpen: true }
      // a command of the shop's own computer: the guard has seen its token
      const isCommand = request.headers.get('authorization') !== null
      return { person, role: isCommand ? 'lead' : (person?.role ?? 'nobody'), isOpen: false }
    },
    signIn: async (service, by) => {
      const { database } = service.store
      const isCard = 'code' in by
      const tries = isCard ? cardTries : passwordTries
      const whose = isCard ? 'cards' : plainName(by.name)
      const person = await tries.tried(
        whose,
        () => (isCard ? carrierOf(database, by.code) : nameAndPassword(database, by)),
        { now: service.now },
      )
      if (person === null) throw new Failure('wrong input', isCard ? NO_CARD : NO_PASSWORD)
      const at = service.now()
      const hours = isCard ? CARD_HOURS : PASSWORD_HOURS
      const endsAt = new Date(at.getTime() + hours * HOUR_MS)
      const { token, tokenHash } = newToken()
      await beginSession(database, { personId: person.id, tokenHash, endsAt }, { at })
      return { person, cookie: cookieOf(token, hours * 3600) }
    },
    signOut: async ({ store }, request) => {
      const token = tokenIn(request)
      if (token !== null) await endSessions(store.database, { tokenHash: tokenHashOf(token) })
      forget()
      return cookieOf('', 0)
    },
  }
}

const NO_CARD = 'No card of this shop has that code: read it again, or ask for a new card.'
const NO_PASSWORD = 'That name and password do not belong together: write them again.'

/** Open while no lead who is here has a password. */
export async function isOpenShop(database: Database): Promise<boolean> {
  const known = await credentials(database)
  const withPassword = new Set(
    known.filter(({ passwordHash: hash }) => hash !== null).map(({ personId }) => personId),
  )
  if (withPassword.size === 0) return true
  return !(await people(database)).some(({ id, role }) => role === 'lead' && withPassword.has(id))
}

async function carrierOf(database: Database, code: string): Promise<Person | null> {
  const { id: shopId } = await theShop(database)
  return personWithCode(database, { codeHash: await codeHash(codeTyped(code), { shopId }) })
}

async function nameAndPassword(
  database: Database,
  { name, password }: Readonly<{ name: string; password: string }>,
): Promise<Person | null> {
  const wanted = plainName(name)
  const known = await credentials(database)
  const named = (await people(database)).filter((person) => plainName(person.name) === wanted)
  let tried = false
  for (const person of named) {
    const hash = known.find(({ personId }) => personId === person.id)?.passwordHash ?? null
    if (hash === null) continue
    tried = true
    if (await isPassword(password, hash)) return person
  }
  // a name that nobody has takes as long as one that somebody has
  if (!tried) await passwordHash(password)
  return null
}

function tokenIn(request: Request): string | null {
  const cookie = request.headers.get('cookie') ?? ''
  return new RegExp(`(?:^|;\\s*)${COOKIE}=([A-Za-z0-9_-]{20,80})`).exec(cookie)?.[1] ?? null
}

/** No script reads it, and no other site's page sends it along. */
function cookieOf(token: string, lastsSec: number): string {
  return `${COOKIE}=${token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${lastsSec}`
}

import type { PersonAct } from '../../api/people.ts'
import { may } from '../../api/roles.ts'
import { Failure } from '../../core/failure.ts'
import type { Machine } from '../../core/register/machines.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { changePerson, type Person, people } from '../../store/people.ts'
import { credentials, endSessions, keepCredential } from '../../store/sessions.ts'
import { giveSignOff, withdrawSignOff } from '../../store/signOffs.ts'
import { keptUntilOf } from '../register/actOnScreen.ts'
import { ownMachines } from './ownMachines.ts'
import type { Who } from './peopleKeeper.ts'
import { passwordHash } from './secrets.ts'

type Acting = Readonly<{ act: PersonAct; who: Who; now: Date }>

/**
 * Settles something about somebody.
 *
 * @throws Failure 'conflict' for what only a lead may, or what would leave a closed shop without a
 * lead who can sign in
 */
export async function actOnPerson(
  database: Database,
  person: Person,
  { act, who, now }: Acting,
): Promise<void> {
  const at = { at: now }
  expectKnown(person)
  refuseAbove(who, person.role)
  // scrypt takes its time: not within a transaction
  const hash =
    act.kind === 'password' && act.password !== null ? await passwordHash(act.password) : null
  await inTransaction(database, async (inner) => {
    switch (act.kind) {
      case 'about': {
        const { name, role, className } = act
        if (role !== undefined) refuseAbove(who, role)
        await changePerson(inner, person.id, {
          ...(name === undefined ? {} : { name }),
          ...(role === undefined ? {} : { role }),
          ...(className === undefined ? {} : { className }),
        })
        if (role !== undefined && role !== 'lead') await expectDoor(inner, who)
        return
      }
      case 'password': {
        if (hash !== null && !may(person.role, 'technician')) {
          const message = `${person.name} signs in by a card: passwords are for leads and technicians.`
          throw new Failure('conflict', message)
        }
        await keepCredential(inner, { personId: person.id, passwordHash: hash }, at)
        await endSessions(inner, { personId: person.id })
        return
      }
      case 'sign off': {
        const { machine, unit, expiresOn } = act
        const expiresAt = signOffEnds(expiresOn, now)
        const given = { personId: person.id, machine, expiresAt, givenAt: now }
        const one = await oneOf(inner, { machine, unit })
        await giveSignOff(inner, { ...given, ...one, givenById: who.person?.id ?? null }, at)
        return
      }
      case 'withdraw':
        await withdrawSignOff(inner, { id: act.signOff, personId: person.id }, at)
        return
      case 'leaves':
        await changePerson(inner, person.id, {
          leftAt: person.leftAt ?? now,
          deleteAfter: takenOutAfter(act.deleteAfter, now),
        })
        await endSessions(inner, { personId: person.id })
        await expectDoor(inner, who)
        return
      case 'is back':
        await changePerson(inner, person.id, { leftAt: null, deleteAfter: null })
    }
  })
}

/** @throws Failure 'not found' for what is no such machine of the shop */
async function oneOf(
  inner: Database,
  { machine, unit }: Readonly<{ machine: Machine; unit: string | null }>,
): Promise<Readonly<{ unitId: string | null; thingId: string | null }>> {
  if (unit === null) return { unitId: null, thingId: null }
  const own = (await ownMachines(inner)).find(({ id, of }) => id === unit && of === machine)
  if (own !== undefined) {
    return own.kind === 'unit' ? { unitId: unit, thingId: null } : { unitId: null, thingId: unit }
  }
  const message = 'There is no such machine in this shop: choose one that is there, or all of them.'
  throw new Failure('not found', message, { field: 'unit' })
}

/** @throws Failure 'wrong input' for a day that is over */
export function takenOutAfter(deleteAfter: string | null, now: Date): Date | null {
  const after = keptUntilOf(deleteAfter)
  if (after === null || after > now) return after
  const message =
    'Names are taken out after a day to come: choose one from today on, or leave it open.'
  throw new Failure('wrong input', message, { field: 'deleteAfter' })
}

/** @throws Failure 'wrong input' for a day that is over */
export function signOffEnds(expiresOn: string | null, now: Date): Date | null {
  const expiresAt = keptUntilOf(expiresOn)
  if (expiresAt === null || expiresAt > now) return expiresAt
  const message = 'A sign-off that is over today is none: choose a later day, or leave it open.'
  throw new Failure('wrong input', message, { field: 'expiresOn' })
}

/** @throws Failure 'not found' for somebody whose name was taken out */
export function expectKnown({ forgottenAt }: Pick<Person, 'forgottenAt'>): void {
  if (forgottenAt === null) return
  throw new Failure('not found', 'This person left, and what was known of them was taken out.')
}

/** @throws Failure 'conflict' where a lead or technician is meant and no lead asks */
export function refuseAbove({ role }: Pick<Who, 'role'>, meant: Person['role']): void {
  if (!may(meant, 'technician') || role === 'lead') return
  const message = `Only a shop lead settles who is a ${meant === 'lead' ? 'lead' : 'technician'}: ask one.`
  throw new Failure('conflict', message)
}

/** A closed shop keeps somebody who can open it. */
async function expectDoor(inner: Database, { isOpen }: Who): Promise<void> {
  if (isOpen) return
  const secrets = await credentials(inner)
  const leads = (await people(inner)).filter(({ role }) => role === 'lead')
  const can = leads.some(({ id }) =>
    secrets.some(({ personId, passwordHash: hash }) => personId === id && hash !== null),
  )
  if (can) return
  const message =
    'This is the last lead with a password: give another lead one first, or take this one’s away to open the shop.'
  throw new Failure('conflict', message)
}

import type { Database } from './database/database.ts'
import type { At } from './database/record.ts'
import { sortableId } from './ids.ts'
import type { Person } from './people.ts'

/** By what somebody is known at the door: never the word itself, what scrypt makes of it. */
export type Credential = Readonly<{
  personId: string
  passwordHash: string | null
  /** Of the code on the card; 64 hexadecimal digits. */
  codeHash: string | null
  changedAt: Date
}>

/** Somebody signed in on a device. */
export type Session = Readonly<{
  id: string
  personId: string
  /** SHA-256 of the cookie's token. */
  tokenHash: string
  beganAt: Date
  endsAt: Date
}>

/** Keeps a password, a code, or both; what is not named stays. @throws Failure 'not found', or 'conflict' for a code that somebody has */
export async function keepCredential(
  database: Database,
  {
    personId,
    ...secret
  }: Readonly<{ personId: string }> & Partial<Pick<Credential, 'passwordHash' | 'codeHash'>>,
  { at }: At,
): Promise<void> {
  const row = { ...secret, changedAt: at }
  await database
    .insertInto('credential')
    .values({ passwordHash: null, codeHash: null, personId, ...row })
    .onConflict((conflict) => conflict.column('personId').doUpdateSet(row))
    .execute()
}

/** Of those who are here. */
export async function credentials(database: Database): Promise<readonly Credential[]> {
  return database
    .selectFrom('credential')
    .innerJoin('person', 'person.id', 'credential.personId')
    .where('person.leftAt', 'is', null)
    .selectAll('credential')
    .execute()
}

/** Who carries the card with this code; null: nobody who is here. */
export async function personWithCode(
  database: Database,
  { codeHash }: Readonly<{ codeHash: string }>,
): Promise<Person | null> {
  const row = await database
    .selectFrom('credential')
    .innerJoin('person', 'person.id', 'credential.personId')
    .where('credential.codeHash', '=', codeHash)
    .where('person.leftAt', 'is', null)
    .selectAll('person')
    .executeTakeFirst()
  return row ?? null
}

export async function beginSession(
  database: Database,
  { personId, tokenHash, endsAt }: Pick<Session, 'personId' | 'tokenHash' | 'endsAt'>,
  { at }: At,
): Promise<void> {
  await database.deleteFrom('session').where('endsAt', '<', at).execute()
  await database
    .insertInto('session')
    .values({ id: sortableId(at), personId, tokenHash, beganAt: at, endsAt })
    .execute()
}

/** Who is signed in under a token; null: nobody any more. */
export async function sessionPerson(
  database: Database,
  { tokenHash }: Readonly<{ tokenHash: string }>,
  { at }: At,
): Promise<Readonly<{ person: Person; endsAt: Date }> | null> {
  const row = await database
    .selectFrom('session')
    .innerJoin('person', 'person.id', 'session.personId')
    .where('session.tokenHash', '=', tokenHash)
    .where('session.endsAt', '>', at)
    .where('person.leftAt', 'is', null)
    .selectAll('person')
    .select('session.endsAt as endsAt')
    .executeTakeFirst()
  if (row === undefined) return null
  const { endsAt, ...person } = row
  return { person, endsAt }
}

/** Ends one session by its token, or all of somebody's. */
export async function endSessions(
  database: Database,
  which: Readonly<{ tokenHash: string }> | Readonly<{ personId: string }>,
): Promise<void> {
  const all = database.deleteFrom('session')
  await ('tokenHash' in which
    ? all.where('tokenHash', '=', which.tokenHash)
    : all.where('personId', '=', which.personId)
  ).execute()
}

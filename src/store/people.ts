import { type Database, inTransaction } from './database/database.ts'
import { type At, found, isChange, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Somebody who works in the shop. */
export type Person = Readonly<{
  id: string
  name: string
  role: 'lead' | 'technician' | 'printer' | 'guest'
  className: string | null
  /** Null: as the shop's. */
  units: 'mm' | 'inch' | null
  leftAt: Date | null
  /** After this day what is known of somebody who left is taken out. */
  deleteAfter: Date | null
  createdAt: Date
}>

export async function addPerson(
  database: Database,
  person: New<Person>,
  { at }: At,
): Promise<Person> {
  return database
    .insertInto('person')
    .values({ ...person, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function personOf(database: Database, id: string): Promise<Person> {
  const row = await database
    .selectFrom('person')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  return found(row, 'person')
}

/** Who works here now, in the order they came. */
export async function people(database: Database): Promise<readonly Person[]> {
  return database
    .selectFrom('person')
    .selectAll()
    .where('leftAt', 'is', null)
    .orderBy('id')
    .execute()
}

/** Everybody there ever was, in the order they came. */
export async function allPeople(database: Database): Promise<readonly Person[]> {
  return database.selectFrom('person').selectAll().orderBy('id').execute()
}

/** @throws Failure 'not found' */
export async function changePerson(
  database: Database,
  id: string,
  changes: Partial<Omit<Person, 'id' | 'createdAt'>>,
): Promise<Person> {
  if (!isChange(changes)) return personOf(database, id)
  const row = await database
    .updateTable('person')
    .set(changes)
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'person')
}

/** What stands for the name of somebody whose name was taken out. */
const NAMELESS = 'somebody who left'

/**
 * Takes out what is known of those whose day has come: name, class, cards, sign-offs. What they told
 * of doses and prints stays, as nobody's.
 *
 * @returns how many
 */
export async function forgetPeople(database: Database, { at }: At): Promise<number> {
  return inTransaction(database, async (inner) => {
    const due = await inner
      .selectFrom('person')
      .select('id')
      .where('leftAt', 'is not', null)
      .where('deleteAfter', '<', at)
      .execute()
    const ids = due.map(({ id }) => id)
    if (ids.length === 0) return 0
    await inner.deleteFrom('session').where('personId', 'in', ids).execute()
    await inner.deleteFrom('credential').where('personId', 'in', ids).execute()
    await inner.deleteFrom('signOff').where('personId', 'in', ids).execute()
    await inner
      .updateTable('person')
      .set({ name: NAMELESS, className: null, deleteAfter: null })
      .where('id', 'in', ids)
      .execute()
    return ids.length
  })
}

import { sql } from 'kysely'
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
  /** When it was. */
  forgottenAt: Date | null
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
 * Takes out what is known of those whose day has come: name, class, cards, sign-offs, and the name
 * where it was written beside a signed edition or in a day's plan. What they told of doses and prints
 * stays, as nobody's; so does what was written in free words.
 *
 * @returns how many
 */
export async function forgetPeople(database: Database, { at }: At): Promise<number> {
  return inTransaction(database, async (inner) => {
    const due = await inner
      .selectFrom('person')
      .select(['id', 'name'])
      .where('leftAt', 'is not', null)
      .where('deleteAfter', '<', at)
      .execute()
    const ids = due.map(({ id }) => id)
    if (ids.length === 0) return 0
    await inner.deleteFrom('session').where('personId', 'in', ids).execute()
    await inner.deleteFrom('credential').where('personId', 'in', ids).execute()
    await inner.deleteFrom('signOff').where('personId', 'in', ids).execute()
    for (const { name } of due) await takeOutName(inner, name)
    await inner
      .updateTable('person')
      .set({ name: NAMELESS, className: null, deleteAfter: null, forgottenAt: at })
      .where('id', 'in', ids)
      .execute()
    return ids.length
  })
}

/** Where a name stands as such, and not by whose record it is. */
async function takeOutName(inner: Database, name: string): Promise<void> {
  await inner
    .updateTable('editionTally')
    .set({ byName: NAMELESS })
    .where('byName', '=', name)
    .execute()
  await inner.updateTable('dayEvent').set({ person: NAMELESS }).where('person', '=', name).execute()
  const [word, nameless] = [name, NAMELESS].map((each) => `"name": ${JSON.stringify(each)}`)
  await sql`update day_plan set asked = replace(asked::text, ${word}, ${nameless})::jsonb
    where position(${word} in asked::text) > 0`.execute(inner)
}

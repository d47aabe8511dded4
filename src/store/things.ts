import type { Database } from './database/database.ts'
import { type At, asJson, found, type Json } from './database/record.ts'
import { sortableId } from './ids.ts'

export type ThingKind =
  | 'station'
  | 'machine'
  | 'supply'
  | 'leftover'
  | 'term'
  | 'hazard text'
  | 'handover'

/** Something of the room, with the facts of its kind. */
export type Thing = Readonly<{
  id: string
  kind: ThingKind
  name: string
  facts: Json
  changedAt: Date
  retiredAt: Date | null
  createdAt: Date
}>

/** The things in use, in the order they came. */
export async function things(database: Database): Promise<readonly Thing[]> {
  return database
    .selectFrom('thing')
    .selectAll()
    .where('retiredAt', 'is', null)
    .orderBy('id')
    .execute()
}

/** @throws Failure 'conflict' for a name that another thing of its kind has */
export async function addThing(
  database: Database,
  { kind, name, facts }: Pick<Thing, 'kind' | 'name' | 'facts'>,
  { at }: At,
): Promise<Thing> {
  return database
    .insertInto('thing')
    .values({ kind, name, facts: asJson(facts), id: sortableId(at), changedAt: at, createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found', or 'conflict' for a name that another thing of its kind has */
export async function changeThing(
  database: Database,
  id: string,
  { name, facts, at }: Pick<Thing, 'name' | 'facts'> & At,
): Promise<Thing> {
  const row = await database
    .updateTable('thing')
    .set({ name, facts: asJson(facts), changedAt: at })
    .where('id', '=', id)
    .where('retiredAt', 'is', null)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'thing')
}

/** It is gone or used up: kept, and not shown. @throws Failure 'not found' */
export async function retireThing(database: Database, id: string, { at }: At): Promise<void> {
  const row = await database
    .updateTable('thing')
    .set({ retiredAt: at })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  found(row, 'thing')
}

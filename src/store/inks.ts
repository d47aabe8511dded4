import type { Share } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** An ink and its colour on white paper (CIELAB, D50, 2 degrees). */
export type Ink = Readonly<{
  id: string
  name: string
  labL: number
  labA: number
  labB: number
  opacity: Share
  status: 'measured' | 'estimated'
  createdAt: Date
}>

/** @throws Failure 'conflict' for a name that the shop has */
export async function addInk(database: Database, ink: New<Ink>, { at }: At): Promise<Ink> {
  return database
    .insertInto('ink')
    .values({ ...ink, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function inkOf(database: Database, id: string): Promise<Ink> {
  const row = await database.selectFrom('ink').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'ink')
}

/** All inks, in the order they came. */
export async function inks(database: Database): Promise<readonly Ink[]> {
  return database.selectFrom('ink').selectAll().orderBy('id').execute()
}

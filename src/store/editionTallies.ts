import type { EditionKind } from '../core/ticket/edition.ts'
import type { Database } from './database/database.ts'
import type { At, New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Sheets of an edition that were given out or signed. */
export type EditionTally = Readonly<{
  id: string
  /** Made where it happened: told twice, it is one. */
  sentKey: string
  ticketId: string
  kind: EditionKind
  sheets: number
  /** Who signed. */
  byName: string | null
  /** Who told it. */
  personId: string | null
  happenedAt: Date
  /** Taken back: kept, and not counted. */
  takenBackAt: Date | null
  createdAt: Date
}>

/**
 * Takes down what was given out or signed; what was sent before under the same key is not taken twice.
 *
 * @throws Failure 'not found' for a ticket that the shop does not have
 */
export async function addEditionTally(
  database: Database,
  tally: New<EditionTally, 'takenBackAt'>,
  { at }: At,
): Promise<void> {
  await database
    .insertInto('editionTally')
    .values({ ...tally, id: sortableId(at), createdAt: at })
    .onConflict((conflict) => conflict.column('sentKey').doNothing())
    .execute()
}

/** Whether something was told under this key already. */
export async function isTold(database: Database, sentKey: string): Promise<boolean> {
  const row = await database
    .selectFrom('editionTally')
    .select('id')
    .where('sentKey', '=', sentKey)
    .executeTakeFirst()
  return row !== undefined
}

/** It is kept and not counted. @returns false for an entry that this ticket does not have */
export async function takeBackEditionTally(
  database: Database,
  { id, ticketId }: Readonly<{ id: string; ticketId: string }>,
  { at }: At,
): Promise<boolean> {
  const row = await database
    .updateTable('editionTally')
    .set((row) => ({ takenBackAt: row.fn.coalesce('takenBackAt', row.val(at)) }))
    .where('id', '=', id)
    .where('ticketId', '=', ticketId)
    .returning('id')
    .executeTakeFirst()
  return row !== undefined
}

/** All of a ticket that were not taken back, oldest first. */
export async function editionTalliesOf(
  database: Database,
  ticketId: string,
): Promise<readonly EditionTally[]> {
  return database
    .selectFrom('editionTally')
    .selectAll()
    .where('ticketId', '=', ticketId)
    .where('takenBackAt', 'is', null)
    .orderBy('happenedAt')
    .orderBy('id')
    .execute()
}

import { type Database, inTransaction } from './database/database.ts'
import { type At, asJson, found, type Json } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A row of the shop's own in the table of why screens fail. */
export type DiagnosisRow = Readonly<{
  id: string
  kind: 'cause' | 'sign' | 'link'
  /** Null for a sign. */
  cause: string | null
  /** Null for a cause. */
  sign: string | null
  facts: Json
  /** Seen in this shop; else judged. */
  isSeen: boolean
  changedAt: Date
  createdAt: Date
}>

/** In the order in which they came. */
export async function diagnosisRows(database: Database): Promise<readonly DiagnosisRow[]> {
  return database.selectFrom('diagnosisRow').selectAll().orderBy('id').execute()
}

/** Puts a row over the one of the same cause and sign, or beside the others. */
export async function keepDiagnosisRow(
  database: Database,
  { kind, cause, sign, facts, isSeen }: Omit<DiagnosisRow, 'id' | 'changedAt' | 'createdAt'>,
  { at }: At,
): Promise<DiagnosisRow> {
  return inTransaction(database, async (inner) => {
    const changes = { facts: asJson(facts), isSeen, changedAt: at }
    const changed = await inner
      .updateTable('diagnosisRow')
      .set(changes)
      .where('kind', '=', kind)
      .where('cause', 'is not distinct from', cause)
      .where('sign', 'is not distinct from', sign)
      .returningAll()
      .executeTakeFirst()
    if (changed !== undefined) return changed
    return inner
      .insertInto('diagnosisRow')
      .values({ kind, cause, sign, ...changes, id: sortableId(at), createdAt: at })
      .returningAll()
      .executeTakeFirstOrThrow()
  })
}

/** The row over which it stood counts again. @throws Failure 'not found' */
export async function dropDiagnosisRow(database: Database, id: string): Promise<void> {
  const row = await database
    .deleteFrom('diagnosisRow')
    .where('id', '=', id)
    .returning('id')
    .executeTakeFirst()
  found(row, 'row')
}

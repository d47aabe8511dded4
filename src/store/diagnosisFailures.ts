import type { Database } from './database/database.ts'
import { type At, asJson, found } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A screen that failed, and what it was once somebody found out. */
export type FailureRecord = Readonly<{
  id: string
  happenedAt: Date
  /** The exposure it came of, where it was walked at the bench. */
  runId: string | null
  /** Names of signs that were there, and of those that were not. */
  yes: readonly string[]
  no: readonly string[]
  guessed: string
  cause: string | null
  confirmedAt: Date | null
  createdAt: Date
}>

/** @throws Failure 'not found' for an exposure that the shop does not have */
export async function addFailure(
  database: Database,
  { yes, no, ...failure }: Pick<FailureRecord, 'runId' | 'yes' | 'no' | 'guessed' | 'cause'>,
  { at }: At,
): Promise<FailureRecord> {
  return database
    .insertInto('failure')
    .values({
      ...failure,
      yes: asJson(yes),
      no: asJson(no),
      confirmedAt: failure.cause === null ? null : at,
      id: sortableId(at),
      happenedAt: at,
      createdAt: at,
    })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** What it turned out to be. @throws Failure 'not found' */
export async function confirmFailure(
  database: Database,
  id: string,
  { cause, at }: At & Readonly<{ cause: string }>,
): Promise<FailureRecord> {
  const row = await database
    .updateTable('failure')
    .set({ cause, confirmedAt: at })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'failure')
}

/** The newest first. */
export async function failures(
  database: Database,
  { limit }: Readonly<{ limit: number }>,
): Promise<readonly FailureRecord[]> {
  return database.selectFrom('failure').selectAll().orderBy('id', 'desc').limit(limit).execute()
}

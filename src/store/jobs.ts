import { sql } from 'kysely'
import type { Share } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import { type At, asJson, found, type Json } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Work that takes longer than an answer may. */
export type Job = Readonly<{
  id: string
  kind: string
  /** The same work asked twice is one job while it is not finished; null: never the same. */
  workKey: string | null
  payload: Json
  state: 'queued' | 'running' | 'done' | 'failed' | 'cancelled'
  progressShare: Share
  progressWords: string | null
  /** Times that a worker began it. */
  attempts: number
  mostAttempts: number
  /** Where a next attempt may go on. */
  resumeFrom: Json
  result: Json
  /** Why it failed, as said to people. */
  trouble: string | null
  cancelAsked: boolean
  /** Who works on it, until when nobody else may. */
  worker: string | null
  leaseUntil: Date | null
  startAfter: Date
  startedAt: Date | null
  finishedAt: Date | null
  createdAt: Date
}>

export type NewJob = Readonly<{
  kind: string
  payload: Json
  workKey?: string
  mostAttempts?: number
  startAfter?: Date
}>

const MOST_ATTEMPTS = 3

/** Puts work into the queue, or gives the unfinished job of the same key. */
export async function queueJob(database: Database, job: NewJob, { at }: At): Promise<Job> {
  const { kind, payload, workKey = null, mostAttempts = MOST_ATTEMPTS, startAfter = at } = job
  const row = await database
    .insertInto('job')
    .values({
      id: sortableId(at),
      kind,
      workKey,
      payload: asJson(payload),
      state: 'queued',
      progressShare: 0 as Share,
      attempts: 0,
      mostAttempts,
      cancelAsked: false,
      startAfter,
      createdAt: at,
    })
    .onConflict((conflict) =>
      // touching the row that is there makes it come back
      conflict
        .column('workKey')
        .where('state', 'in', ['queued', 'running'])
        .doUpdateSet({ workKey }),
    )
    .returningAll()
    .executeTakeFirst()
  return found(row, 'job')
}

/** @throws Failure 'not found' */
export async function jobOf(database: Database, id: string): Promise<Job> {
  const row = await database.selectFrom('job').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'job')
}

/** The jobs that are not finished, oldest first. */
export async function openJobs(database: Database): Promise<readonly Job[]> {
  return database
    .selectFrom('job')
    .selectAll()
    .where('state', 'in', ['queued', 'running'])
    .orderBy('id')
    .execute()
}

/** The newest work under a key, finished or not; null where there never was any. */
export async function newestJob(database: Database, workKey: string): Promise<Job | null> {
  const row = await database
    .selectFrom('job')
    .selectAll()
    .where('workKey', '=', workKey)
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  return row ?? null
}

/** Asks a job to stop: at once when it waits, else at its next word. @throws Failure 'not found' */
export async function cancelJob(database: Database, id: string, { at }: At): Promise<Job> {
  const row = await database
    .updateTable('job')
    .set({
      cancelAsked: true,
      state: sql`case when state = 'queued' then 'cancelled' else state end`,
      finishedAt: sql`case when state = 'queued' then ${at} else finished_at end`,
    })
    .where('id', '=', id)
    .where('state', 'in', ['queued', 'running'])
    .returningAll()
    .executeTakeFirst()
  return row ?? jobOf(database, id)
}

/** Forgets jobs that ended before; says how many. */
export async function forgetJobs(
  database: Database,
  { finishedBefore }: Readonly<{ finishedBefore: Date }>,
): Promise<number> {
  const { numDeletedRows } = await database
    .deleteFrom('job')
    .where('finishedAt', '<', finishedBefore)
    .executeTakeFirstOrThrow()
  return Number(numDeletedRows)
}

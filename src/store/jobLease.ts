import { sql } from 'kysely'
import type { Share } from '../core/units/quantity.ts'
import { type Database, inTransaction } from './database/database.ts'
import { type At, asJsonOrNull, type Json } from './database/record.ts'
import type { Job } from './jobs.ts'

/** Who works, and on what kinds of job. */
export type Worker = Readonly<{ name: string; kinds: readonly string[]; leaseSec: number }>

/** What a worker holds: its word counts only while the job is still its own. */
export type Held = Readonly<{ id: string; worker: string }>

/**
 * Takes the oldest job that waits, or one whose worker fell silent; null when there is none. Two
 * workers never get the same. A job that was begun too often is failed instead.
 */
export async function takeJob(
  database: Database,
  { name, kinds, leaseSec }: Worker,
  { at }: At,
): Promise<Job | null> {
  const leaseUntil = new Date(at.getTime() + leaseSec * 1000)
  return inTransaction(database, async (inner) => {
    await failWornOut(inner, { at })
    const next = await inner
      .selectFrom('job')
      .select('id')
      .where('kind', 'in', kinds)
      .where((job) =>
        job.or([
          job.and([job('state', '=', 'queued'), job('startAfter', '<=', at)]),
          job.and([job('state', '=', 'running'), job('leaseUntil', '<', at)]),
        ]),
      )
      .orderBy('startAfter')
      .orderBy('id')
      .limit(1)
      .forUpdate()
      .skipLocked()
      .executeTakeFirst()
    if (next === undefined) return null
    return inner
      .updateTable('job')
      .set({
        state: 'running',
        worker: name,
        leaseUntil,
        attempts: sql`attempts + 1`,
        startedAt: sql`coalesce(started_at, ${at})`,
      })
      .where('id', '=', next.id)
      .returningAll()
      .executeTakeFirstOrThrow()
  })
}

/**
 * A worker's sign of life with how far it is, and from where a next attempt may go on.
 *
 * @returns 'go on'; 'stop' when somebody asked to cancel; 'lost' when the job is another's now
 */
export async function holdJob(
  database: Database,
  { id, worker }: Held,
  progress: Readonly<{
    leaseSec: number
    progressShare: Share
    progressWords?: string | null
    resumeFrom?: Json
  }>,
  { at }: At,
): Promise<'go on' | 'stop' | 'lost'> {
  const { leaseSec, progressShare, progressWords, resumeFrom } = progress
  const words = progressWords === undefined ? {} : { progressWords }
  const resume = resumeFrom === undefined ? {} : { resumeFrom: asJsonOrNull(resumeFrom) }
  const row = await database
    .updateTable('job')
    .set({
      leaseUntil: new Date(at.getTime() + leaseSec * 1000),
      progressShare,
      ...words,
      ...resume,
    })
    .where('id', '=', id)
    .where('worker', '=', worker)
    .where('state', '=', 'running')
    .returning('cancelAsked')
    .executeTakeFirst()
  if (row === undefined) return 'lost'
  return row.cancelAsked ? 'stop' : 'go on'
}

export type JobEnd =
  | Readonly<{ state: 'done'; result: Json }>
  | Readonly<{ state: 'failed'; trouble: string }>
  | Readonly<{ state: 'cancelled' }>

/** How a job ended. @returns false when it is another's now, and nothing was written */
export async function endJob(
  database: Database,
  { id, worker }: Held,
  end: JobEnd,
  { at }: At,
): Promise<boolean> {
  const outcome =
    end.state === 'done'
      ? { result: asJsonOrNull(end.result), progressShare: 1 as Share }
      : end.state === 'failed'
        ? { trouble: end.trouble }
        : {}
  const { numUpdatedRows } = await database
    .updateTable('job')
    .set({ ...outcome, state: end.state, finishedAt: at, leaseUntil: null, worker: null })
    .where('id', '=', id)
    .where('worker', '=', worker)
    .where('state', '=', 'running')
    .executeTakeFirst()
  return numUpdatedRows === 1n
}

/**
 * Gives back the jobs of workers that are gone: all that run, since nobody else can have the shop
 * open. Those that somebody had asked to cancel are cancelled. Says how many wait again.
 */
export async function freeJobs(database: Database, { at }: At): Promise<number> {
  return inTransaction(database, async (inner) => {
    await inner
      .updateTable('job')
      .set({ state: 'cancelled', finishedAt: at, leaseUntil: null, worker: null })
      .where('state', '=', 'running')
      .where('cancelAsked', '=', true)
      .execute()
    const { numUpdatedRows } = await inner
      .updateTable('job')
      .set({ state: 'queued', leaseUntil: null, worker: null })
      .where('state', '=', 'running')
      .executeTakeFirst()
    return Number(numUpdatedRows)
  })
}

/** Begun as often as it may, and its worker silent: what it does ends the worker. */
async function failWornOut(database: Database, { at }: At): Promise<void> {
  await database
    .updateTable('job')
    .set({
      state: 'failed',
      trouble: 'It was begun several times and never came to its end: try it with less.',
      finishedAt: at,
      leaseUntil: null,
      worker: null,
    })
    .where((job) =>
      job.or([
        job.and([job('state', '=', 'running'), job('leaseUntil', '<', at)]),
        job('state', '=', 'queued'),
      ]),
    )
    .whereRef('attempts', '>=', 'mostAttempts')
    .execute()
}

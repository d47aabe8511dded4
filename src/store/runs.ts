import type { ListEntry } from '../core/runSheet/ownList.ts'
import { type Database, inTransaction } from './database/database.ts'
import { type At, asJson, found, type Json, type New } from './database/record.ts'
import { type Exposure, exposureOf, planExposure } from './exposures.ts'
import { sortableId } from './ids.ts'
import { addLayerEvent } from './layerEvents.ts'
import { addReading, type NewReading } from './readings.ts'
import { setLayerScreen } from './tickets.ts'

/** One exposure step by step. */
export type Run = Readonly<{
  id: string
  /** Made on the device: begun twice, it is one. */
  sentKey: string
  exposureId: string
  mediumId: string | null
  baseId: string | null
  /** What was asked, by its names. */
  about: Json
  /** Its steps as they stood when it began. */
  steps: Json
  begunAt: Date
  /** Through, or stopped at a step; null: it goes on. */
  endedAt: Date | null
  /** What was read at its end. */
  wedgeReadingId: string | null
  outcomeReadingId: string | null
  createdAt: Date
}>

/** What happened at a step. */
export type RunEventRecord = Readonly<{
  id: string
  /** Made on the device: told twice, it is one. */
  sentKey: string
  runId: string
  kind: 'done' | 'clock' | 'not right' | 'back'
  step: string
  cause: string | null
  value: number | null
  second: number | null
  /** By our clock, reckoned back from the device's. */
  happenedAt: Date
  createdAt: Date
}>

/** A shop's own list of steps for a unit. */
export type StepList = Readonly<{ unitId: string; entries: Json; changedAt: Date }>

type Left = 'exposureId' | 'begunAt' | 'endedAt' | 'wedgeReadingId' | 'outcomeReadingId'
type NewExposure = Parameters<typeof planExposure>[1]

/**
 * Plans an exposure and begins its run; begun again under the same key it is the one there is.
 *
 * @throws Failure 'not found' for a screen, unit, film … that the shop does not have
 */
export async function beginRun(
  database: Database,
  { run, planned }: Readonly<{ run: New<Run, Left>; planned: NewExposure }>,
  { at }: At,
): Promise<Run> {
  return inTransaction(database, async (inner) => {
    const there = await runWithKey(inner, run.sentKey)
    if (there !== null) return there
    const { exposure } = await planExposure(inner, planned, { at })
    return inner
      .insertInto('run')
      .values({
        ...run,
        about: asJson(run.about ?? {}),
        steps: asJson(run.steps ?? []),
        exposureId: exposure.id,
        id: sortableId(at),
        begunAt: at,
        createdAt: at,
      })
      .returningAll()
      .executeTakeFirstOrThrow()
  })
}

/** The run that was begun under a key; null: none was. */
export async function runWithKey(database: Database, sentKey: string): Promise<Run | null> {
  const row = await database
    .selectFrom('run')
    .selectAll()
    .where('sentKey', '=', sentKey)
    .executeTakeFirst()
  return row ?? null
}

/** @throws Failure 'not found' */
export async function runOf(database: Database, id: string): Promise<Run> {
  const row = await database.selectFrom('run').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'exposure')
}

/** Runs that go on, the last begun first. */
export async function openRuns(
  database: Database,
  { limit, begunSince }: Readonly<{ limit: number; begunSince: Date }>,
): Promise<readonly Run[]> {
  return database
    .selectFrom('run')
    .selectAll()
    .where('endedAt', 'is', null)
    .where('begunAt', '>=', begunSince)
    .orderBy('id', 'desc')
    .limit(limit)
    .execute()
}

/** What happened in a run, in the order of its clock. */
export async function runEvents(
  database: Database,
  { runId }: Readonly<{ runId: string }>,
): Promise<readonly RunEventRecord[]> {
  return database
    .selectFrom('runEvent')
    .selectAll()
    .where('runId', '=', runId)
    .orderBy('happenedAt')
    .orderBy('id')
    .execute()
}

/** What the vacuum gauge of a unit stood at, as it was told at its step; the newest first. */
export async function gaugeValues(
  database: Database,
  { unitId, limit }: Readonly<{ unitId: string; limit: number }>,
): Promise<readonly number[]> {
  const rows = await database
    .selectFrom('runEvent')
    .innerJoin('run', 'run.id', 'runEvent.runId')
    .innerJoin('exposure', 'exposure.id', 'run.exposureId')
    .select('runEvent.value')
    .where('exposure.unitId', '=', unitId)
    .where('runEvent.step', '=', 'vacuum')
    .where('runEvent.kind', '=', 'done')
    .where('runEvent.value', 'is not', null)
    .orderBy('runEvent.id', 'desc')
    .limit(limit)
    .execute()
  return rows.flatMap(({ value }) => value ?? [])
}

/** The screen that a film's layer was given; null: none yet. @throws Failure 'not found' */
export async function screenOfLayer(
  database: Database,
  { layerId }: Readonly<{ layerId: string }>,
): Promise<string | null> {
  const row = await database
    .selectFrom('layer')
    .select('screenId')
    .where('id', '=', layerId)
    .executeTakeFirst()
  return found(row, 'layer').screenId
}

/** What follows from all that happened so far. */
export type RunNews = Readonly<{
  events: readonly New<RunEventRecord, 'runId'>[]
  /** What was done at the lamp; null: it has not gone out. */
  lit: Readonly<Pick<Exposure, 'setCount' | 'readCount' | 'litSec'> & { at: Date }> | null
  /** Taken down once; a second time they stay what they are. */
  wedge: NewReading | null
  outcome: NewReading | null
  /** What it tells of its layer's road; the layer has the screen from then on. Null: a loose film. */
  road: Readonly<{ layerId: string; events: readonly OnRoad[] }> | null
  endedAt: Date | null
}>

type OnRoad = Parameters<typeof addLayerEvent>[1]

/** What came of it besides: a reading, and a screen that is coated no more. */
export type RunCame = Readonly<{ taught: boolean; exposed: boolean }>

/**
 * Takes down what happened and what follows from it: all or nothing. Told twice, it is told once.
 *
 * @throws Failure 'not found'
 */
export async function tellRun(
  database: Database,
  id: string,
  { events, lit, wedge, outcome, road, endedAt }: RunNews,
  { at }: At,
): Promise<RunCame> {
  return inTransaction(database, async (inner) => {
    const run = found(
      await inner.selectFrom('run').selectAll().where('id', '=', id).forUpdate().executeTakeFirst(),
      'exposure',
    )
    for (const event of events) {
      await inner
        .insertInto('runEvent')
        .values({ ...event, runId: id, id: sortableId(at), createdAt: at })
        .onConflict((conflict) => conflict.column('sentKey').doNothing())
        .execute()
    }
    for (const event of road?.events ?? []) await addLayerEvent(inner, event, { at })
    let exposed = false
    if (lit !== null) {
      const { at: litAt, ...done } = lit
      const { exposure: before } = await exposureOf(inner, run.exposureId)
      await inner
        .updateTable('exposure')
        .set({ ...done, litAt })
        .where('id', '=', run.exposureId)
        .execute()
      // told again later, it may have been reclaimed, or given to another layer
      if (before.litAt === null && before.screenId !== null) {
        exposed = await isExposed(inner, before.screenId)
        if (road !== null) await setLayerScreen(inner, { ...road, screenId: before.screenId })
      }
    }
    const taken = async (reading: NewReading | null, there: string | null) => {
      if (reading === null || there !== null) return there
      const { exposureId } = run
      const own = { ...reading, reading: { ...reading.reading, exposureId } }
      return (await addReading(inner, own, { at })).reading.id
    }
    const wedgeReadingId = await taken(wedge, run.wedgeReadingId)
    const outcomeReadingId = await taken(outcome, run.outcomeReadingId)
    await inner
      .updateTable('run')
      .set({ wedgeReadingId, outcomeReadingId, endedAt: run.endedAt ?? endedAt })
      .where('id', '=', id)
      .execute()
    const taught =
      wedgeReadingId !== run.wedgeReadingId || outcomeReadingId !== run.outcomeReadingId
    return { taught, exposed }
  })
}

/** A coated screen that was under the lamp is an exposed one; whether it was coated until now. */
async function isExposed(database: Database, screenId: string): Promise<boolean> {
  const { numUpdatedRows } = await database
    .updateTable('screen')
    .set({ state: 'exposed' })
    .where('id', '=', screenId)
    .where('state', '=', 'coated')
    .executeTakeFirstOrThrow()
  return numUpdatedRows > 0n
}

/** A shop's own list for a unit; null: the usual steps hold. */
export async function stepListOf(
  database: Database,
  { unitId }: Readonly<{ unitId: string }>,
): Promise<readonly ListEntry[] | null> {
  const row = await database
    .selectFrom('stepList')
    .select('entries')
    .where('unitId', '=', unitId)
    .executeTakeFirst()
  return row === undefined ? null : (row.entries as unknown as readonly ListEntry[])
}

/** Keeps a list for a unit; null: the usual steps hold again. @throws Failure 'not found' */
export async function keepStepList(
  database: Database,
  { unitId, entries }: Readonly<{ unitId: string; entries: readonly ListEntry[] | null }>,
  { at }: At,
): Promise<void> {
  if (entries === null) {
    await database.deleteFrom('stepList').where('unitId', '=', unitId).execute()
    return
  }
  const row = { entries: asJson(entries as unknown as Json), changedAt: at }
  await database
    .insertInto('stepList')
    .values({ unitId, ...row })
    .onConflict((conflict) => conflict.column('unitId').doUpdateSet(row))
    .execute()
}

import type { Database } from './database/database.ts'
import { type At, asJson, found, type Json, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A class on the room's machines, as it was planned. */
export type DayPlan = Readonly<{
  id: string
  title: string
  /** Minutes of the plan count from here. */
  beginsAt: Date
  closesAt: Date
  /** People with their screens, stations with their minutes: the contract's form. */
  asked: Json
  endedAt: Date | null
  createdAt: Date
}>

/** What happened meanwhile. */
export type DayEvent = Readonly<{
  id: string
  /** Made on the device: told twice, it is one. */
  sentKey: string
  planId: string
  kind: 'failed' | 'late' | 'done'
  person: string
  screen: number
  /** Where it failed, or which station was done. */
  station: string | null
  /** How late somebody comes. */
  minutes: number | null
  happenedAt: Date
  createdAt: Date
}>

export async function addDayPlan(
  database: Database,
  { asked, ...plan }: New<DayPlan, 'endedAt'>,
  { at }: At,
): Promise<DayPlan> {
  return database
    .insertInto('dayPlan')
    .values({ ...plan, asked: asJson(asked ?? null), id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** The newest plan that is not over and was made for this span; null without one. */
export async function dayPlanIn(
  database: Database,
  { from, until }: Readonly<{ from: Date; until: Date }>,
): Promise<DayPlan | null> {
  const row = await database
    .selectFrom('dayPlan')
    .selectAll()
    .where('endedAt', 'is', null)
    .where('beginsAt', '>=', from)
    .where('beginsAt', '<', until)
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  return row ?? null
}

/** @throws Failure 'not found' */
export async function endDayPlan(database: Database, id: string, { at }: At): Promise<void> {
  const row = await database
    .updateTable('dayPlan')
    .set({ endedAt: at })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  found(row, 'plan')
}

/** Told twice, it is told once. @throws Failure 'not found' for a plan that is not there */
export async function addDayEvent(
  database: Database,
  event: New<DayEvent>,
  { at }: At,
): Promise<void> {
  await database
    .insertInto('dayEvent')
    .values({ ...event, id: sortableId(at), createdAt: at })
    .onConflict((conflict) => conflict.column('sentKey').doNothing())
    .execute()
}

/** In the order in which they happened. */
export async function dayEvents(
  database: Database,
  { planId }: Readonly<{ planId: string }>,
): Promise<readonly DayEvent[]> {
  return database
    .selectFrom('dayEvent')
    .selectAll()
    .where('planId', '=', planId)
    .orderBy('happenedAt')
    .orderBy('id')
    .execute()
}

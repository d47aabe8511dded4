import type { Lu, Sec } from '../core/units/quantity.ts'
import { type Database, inTransaction } from './database/database.ts'
import { type At, asJson, found, type Json, type New, type Page } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Films on a screen under a lamp: what was planned and why, and what was done. */
export type Exposure = Readonly<{
  id: string
  /** Null: a screen without a tag. */
  screenId: string | null
  coatingId: string | null
  unitId: string
  lampId: string | null
  personId: string | null
  plannedDoseLu: Lu
  plannedLowLu: Lu | null
  plannedHighLu: Lu | null
  /** The chance of a good screen, as it was said. */
  chanceGood: number | null
  /** The reasons, as they were said. */
  why: Json
  /** What the counter was set to, and what it showed at the end. */
  setCount: number | null
  readCount: number | null
  litSec: Sec | null
  /** Null: planned and not yet done. */
  litAt: Date | null
  createdAt: Date
}>

/** An exposure and the films that lay on the glass. */
export type WholeExposure = Readonly<{ exposure: Exposure; filmIds: readonly string[] }>

/** What was done at the lamp. */
export type Done = 'setCount' | 'readCount' | 'litSec' | 'litAt'

/** @throws Failure 'not found' for a screen, unit, film … that the shop does not have */
export async function planExposure(
  database: Database,
  { exposure, filmIds }: Readonly<{ exposure: New<Exposure, Done>; filmIds: readonly string[] }>,
  { at }: At,
): Promise<WholeExposure> {
  return inTransaction(database, async (inner) => {
    const planned = await inner
      .insertInto('exposure')
      .values({
        ...exposure,
        why: asJson(exposure.why ?? []),
        id: sortableId(at),
        createdAt: at,
      })
      .returningAll()
      .executeTakeFirstOrThrow()
    const lying = filmIds.map((filmId) => ({ exposureId: planned.id, filmId }))
    if (lying.length > 0) await inner.insertInto('exposureFilm').values(lying).execute()
    return { exposure: planned, filmIds }
  })
}

/** Writes down what was done. @throws Failure 'not found' */
export async function recordExposure(
  database: Database,
  id: string,
  done: Partial<Pick<Exposure, 'setCount' | 'readCount' | 'litSec' | 'personId'>>,
  { at }: At,
): Promise<Exposure> {
  const row = await database
    .updateTable('exposure')
    .set({ ...done, litAt: at })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'exposure')
}

/** @throws Failure 'not found' */
export async function exposureOf(database: Database, id: string): Promise<WholeExposure> {
  const row = await database
    .selectFrom('exposure')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  const lying = await database
    .selectFrom('exposureFilm')
    .select('filmId')
    .where('exposureId', '=', id)
    .orderBy('filmId')
    .execute()
  return { exposure: found(row, 'exposure'), filmIds: lying.map(({ filmId }) => filmId) }
}

/** Exposures, newest first; of one screen when it is named. */
export async function exposures(
  database: Database,
  { limit, before, screenId }: Page & Readonly<{ screenId?: string }>,
): Promise<readonly Exposure[]> {
  let query = database.selectFrom('exposure').selectAll().orderBy('id', 'desc').limit(limit)
  if (before !== undefined) query = query.where('id', '<', before)
  if (screenId !== undefined) query = query.where('screenId', '=', screenId)
  return query.execute()
}

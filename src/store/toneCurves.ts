import type { PrintedTones } from '../core/halftone/toneCurve.ts'
import type { Database } from './database/database.ts'
import { type At, asJson, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Tints of an ink as they were measured on a print. */
export type ToneCurveRecord = Readonly<{
  id: string
  /** By its name, as plans of films have it. */
  ink: string
  fabricId: string
  dots: 'ruled' | 'scattered'
  /** Of scattered dots how many lie side by side on a cm. */
  rulingPerCm: number
  tints: PrintedTones
  /** Kept, and not used. */
  struckAt: Date | null
  createdAt: Date
}>

/** @throws Failure 'not found' for a fabric */
export async function addToneCurve(
  database: Database,
  { tints, ...curve }: New<ToneCurveRecord, 'struckAt'>,
  { at }: At,
): Promise<ToneCurveRecord> {
  return database
    .insertInto('toneCurve')
    .values({ ...curve, tints: asJson(tints), id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** Those that count, newest first. */
export async function toneCurves(
  database: Database,
  { limit }: Readonly<{ limit: number }>,
): Promise<readonly ToneCurveRecord[]> {
  return database
    .selectFrom('toneCurve')
    .selectAll()
    .where('struckAt', 'is', null)
    .orderBy('id', 'desc')
    .limit(limit)
    .execute()
}

/** It is kept and no plan uses it any more; the one before counts again. @throws Failure 'not found' */
export async function strikeToneCurve(database: Database, id: string, { at }: At): Promise<void> {
  const row = await database
    .updateTable('toneCurve')
    .set({ struckAt: at })
    .where('id', '=', id)
    .returning('id')
    .executeTakeFirst()
  found(row, 'tints')
}

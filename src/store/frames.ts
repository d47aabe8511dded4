import type { Mm } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A size of frame that the shop has. */
export type Frame = Readonly<{
  id: string
  name: string
  insideWidthMm: Mm
  insideHeightMm: Mm
  outsideWidthMm: Mm | null
  outsideHeightMm: Mm | null
  createdAt: Date
}>

/** @throws Failure 'conflict' for a name that the shop has */
export async function addFrame(database: Database, frame: New<Frame>, { at }: At): Promise<Frame> {
  return database
    .insertInto('frame')
    .values({ ...frame, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function frameOf(database: Database, id: string): Promise<Frame> {
  const row = await database.selectFrom('frame').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'frame')
}

/** All frames, narrow to wide. */
export async function frames(database: Database): Promise<readonly Frame[]> {
  return database
    .selectFrom('frame')
    .selectAll()
    .orderBy('insideWidthMm')
    .orderBy('insideHeightMm')
    .orderBy('id')
    .execute()
}

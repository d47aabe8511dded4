import type { Database } from './database/database.ts'
import type { At } from './database/record.ts'
import { sortableId } from './ids.ts'

/** That somebody accepted what was believed on that day: drift is charted against it. */
export type CalibrationReference = Readonly<{
  id: string
  acceptedAt: Date
  acceptedById: string | null
  createdAt: Date
}>

/** Accepts what is believed now. @throws Failure 'not found' for nobody of this shop */
export async function acceptReference(
  database: Database,
  { byId }: Readonly<{ byId: string | null }>,
  { at }: At,
): Promise<CalibrationReference> {
  return database
    .insertInto('calibrationReference')
    .values({ id: sortableId(at), acceptedAt: at, acceptedById: byId, createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** What was accepted last; null before anything was. */
export async function newestReference(database: Database): Promise<CalibrationReference | null> {
  const row = await database
    .selectFrom('calibrationReference')
    .selectAll()
    .orderBy('acceptedAt', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  return row ?? null
}

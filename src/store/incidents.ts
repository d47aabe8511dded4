import type { Database } from './database/database.ts'
import type { At, New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Somebody or something was hurt, or nearly so. */
export type Incident = Readonly<{
  id: string
  happenedAt: Date
  place: string
  what: string
  done: string | null
  hurt: 'nobody' | 'nearly' | 'somebody'
  toldById: string | null
  toldTo: string | null
  createdAt: Date
}>

/** It stays as it was told: nothing changes an incident. @throws Failure 'not found' for nobody of this shop */
export async function addIncident(
  database: Database,
  incident: New<Incident>,
  { at }: At,
): Promise<Incident> {
  return database
    .insertInto('incident')
    .values({ ...incident, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** The newest first. */
export async function incidents(
  database: Database,
  { limit }: Readonly<{ limit: number }>,
): Promise<readonly Incident[]> {
  return database
    .selectFrom('incident')
    .selectAll()
    .orderBy('happenedAt', 'desc')
    .orderBy('id', 'desc')
    .limit(limit)
    .execute()
}

import type { Database } from './database/database.ts'
import type { Run } from './runs.ts'

/** Exposures that a failure may have come of, the last begun first. */
export async function recentRuns(
  database: Database,
  { limit }: Readonly<{ limit: number }>,
): Promise<readonly Run[]> {
  return database.selectFrom('run').selectAll().orderBy('id', 'desc').limit(limit).execute()
}

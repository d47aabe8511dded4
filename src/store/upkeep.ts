import type { Database } from './database/database.ts'
import type { At } from './database/record.ts'

/** What is done to keep the data well. */
export type UpkeepTask = 'vacuum' | 'check' | 'backup'

/** Notes that it was done. */
export async function noteUpkeep(database: Database, task: UpkeepTask, { at }: At): Promise<void> {
  await database
    .insertInto('upkeep')
    .values({ task, doneAt: at })
    .onConflict((conflict) => conflict.column('task').doUpdateSet({ doneAt: at }))
    .execute()
}

/** When each was done last; null: never. */
export async function lastUpkeep(
  database: Database,
): Promise<Readonly<Record<UpkeepTask, Date | null>>> {
  const rows = await database.selectFrom('upkeep').selectAll().execute()
  const last = (task: UpkeepTask): Date | null =>
    rows.find((row) => row.task === task)?.doneAt ?? null
  return { vacuum: last('vacuum'), check: last('check'), backup: last('backup') }
}

import type { Database } from './database/database.ts'
import type { At, New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Something that must not be left longer than this, and whom its clock follows. */
export type ClockRecord = Readonly<{
  id: string
  /** Made on the device: told twice, it is one. */
  sentKey: string
  kind: 'remover'
  screenId: string
  /** Null: it follows the device alone. */
  personId: string | null
  /** By our clock, reckoned back from the device's. */
  startedAt: Date
  /** Rings after so long. */
  sec: number
  endedAt: Date | null
  createdAt: Date
}>

/**
 * Takes down a clock, or that it was ended; told again it stays what it is, and ended it stays ended.
 *
 * @throws Failure 'not found' for a screen or person that the shop does not have
 */
export async function tellClock(
  database: Database,
  clock: New<ClockRecord>,
  { at }: At,
): Promise<void> {
  const { endedAt = null } = clock
  await database
    .insertInto('clock')
    .values({ ...clock, id: sortableId(at), createdAt: at })
    .onConflict((conflict) => conflict.column('sentKey').doNothing())
    .execute()
  if (endedAt === null) return
  await database
    .updateTable('clock')
    .set({ endedAt })
    .where('sentKey', '=', clock.sentKey)
    .where('endedAt', 'is', null)
    .where('startedAt', '<=', endedAt)
    .execute()
}

/** Those of these keys that are known. */
export async function clocksWithKeys(
  database: Database,
  keys: readonly string[],
): Promise<readonly ClockRecord[]> {
  if (keys.length === 0) return []
  return database
    .selectFrom('clock')
    .selectAll()
    .where('sentKey', 'in', [...keys])
    .execute()
}

/** Those that run, the oldest first. */
export async function runningClocks(
  database: Database,
  { startedSince }: Readonly<{ startedSince: Date }>,
): Promise<readonly ClockRecord[]> {
  return database
    .selectFrom('clock')
    .selectAll()
    .where('endedAt', 'is', null)
    .where('startedAt', '>=', startedSince)
    .orderBy('startedAt')
    .execute()
}

/** A screen that is clean has no clock any more. */
export async function endClocksOf(
  database: Database,
  { screenId }: Readonly<{ screenId: string }>,
  { at }: At,
): Promise<void> {
  await database
    .updateTable('clock')
    .set({ endedAt: at })
    .where('screenId', '=', screenId)
    .where('endedAt', 'is', null)
    .where('startedAt', '<=', at)
    .execute()
}

import type { Database } from './database/database.ts'
import { type At, asJson, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** What a counter showed at a second of the clock. */
export type TimedCount = Readonly<{ clockSec: number; count: number }>

/** One run of a unit's lamp, from cold or from hot. */
export type LampTiming = Readonly<{
  id: string
  unitId: string
  lampId: string | null
  takenAt: Date
  started: 'cold' | 'hot'
  lampHours: number | null
  /** In the order of the clock. */
  pairs: readonly TimedCount[]
  createdAt: Date
}>

/** @throws Failure 'not found' for a unit that the shop does not have; RangeError for one pair */
export async function addLampTiming(
  database: Database,
  timing: New<LampTiming>,
  { at }: At,
): Promise<LampTiming> {
  const pairs = timing.pairs.toSorted((a, b) => a.clockSec - b.clockSec)
  if (pairs.length < 2) throw new RangeError(`pairs: expected at least 2, got ${pairs.length}`)
  return database
    .insertInto('lampTiming')
    .values({ ...timing, pairs: asJson(pairs), id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** A unit's runs, oldest first, of all the lamps it had. */
export async function lampTimings(
  database: Database,
  { unitId }: Readonly<{ unitId: string }>,
): Promise<readonly LampTiming[]> {
  return database
    .selectFrom('lampTiming')
    .selectAll()
    .where('unitId', '=', unitId)
    .orderBy('takenAt')
    .orderBy('id')
    .execute()
}

import type { Database } from './database/database.ts'
import type { At } from './database/record.ts'

/** The most ink at one place that dries here before the next screen, in solids. */
export type InkLimitRecord = Readonly<{ onlyOne: boolean; coverage: number; changedAt: Date }>

/** Null until somebody said what this shop keeps to. */
export async function inkLimitOf(database: Database): Promise<number | null> {
  const row = await database.selectFrom('inkLimit').select('coverage').executeTakeFirst()
  return row?.coverage ?? null
}

/** From now on plans are held to it, but those that say another. */
export async function keepInkLimit(
  database: Database,
  coverage: number,
  { at }: At,
): Promise<void> {
  const set = { coverage, changedAt: at }
  await database
    .insertInto('inkLimit')
    .values({ onlyOne: true, ...set })
    .onConflict((conflict) => conflict.column('onlyOne').doUpdateSet(set))
    .execute()
}

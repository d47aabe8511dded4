import { type Database, inTransaction } from './database/database.ts'
import { type At, asJson, type Json } from './database/record.ts'

/** What was believed on an evening, kept under a key of all that it rests on. A cache. */
export type Evening = Readonly<{
  key: string
  /** Days since 1970. */
  day: number
  belief: Json
  createdAt: Date
}>

/** The keys of the evenings that are kept, oldest first. */
export async function eveningKeys(database: Database): Promise<readonly string[]> {
  const rows = await database
    .selectFrom('evening')
    .select('key')
    .orderBy('day')
    .orderBy('key')
    .execute()
  return rows.map(({ key }) => key)
}

/** One of them; null where it is not kept. */
export async function eveningOf(database: Database, key: string): Promise<Evening | null> {
  const query = database.selectFrom('evening').selectAll().where('key', '=', key)
  return (await query.executeTakeFirst()) ?? null
}

/**
 * Adds evenings, in place of those of the same keys, and forgets all that are neither among them nor
 * of the keys that are to stay; all or nothing.
 */
export async function keepEvenings(
  database: Database,
  {
    added,
    staying,
  }: Readonly<{ added: readonly Omit<Evening, 'createdAt'>[]; staying: readonly string[] }>,
  { at }: At,
): Promise<void> {
  const keys = [...staying, ...added.map(({ key }) => key)]
  await inTransaction(database, async (inner) => {
    const others = inner.deleteFrom('evening')
    await (keys.length === 0 ? others : others.where('key', 'not in', keys)).execute()
    for (const { key, day, belief } of added) {
      const fresh = { day, belief: asJson(belief), createdAt: at }
      await inner
        .insertInto('evening')
        .values({ key, ...fresh })
        .onConflict((conflict) => conflict.column('key').doUpdateSet(fresh))
        .execute()
    }
  })
}

import type { Database } from './database/database.ts'
import type { At } from './database/record.ts'

/** What the shop reckons in, by ISO 4217: EUR. */
export type Money = Readonly<{ onlyOne: boolean; currency: string; changedAt: Date }>

/** Null until somebody said what prices are in. */
export async function currencyOf(database: Database): Promise<string | null> {
  const row = await database.selectFrom('money').select('currency').executeTakeFirst()
  return row?.currency ?? null
}

/** From now on prices are in this currency; none of them is changed. */
export async function keepCurrency(
  database: Database,
  currency: string,
  { at }: At,
): Promise<void> {
  const set = { currency, changedAt: at }
  await database
    .insertInto('money')
    .values({ onlyOne: true, ...set })
    .onConflict((conflict) => conflict.column('onlyOne').doUpdateSet(set))
    .execute()
}

import { Failure } from '../core/failure.ts'
import type { Machine } from '../core/register/machines.ts'
import type { Database } from './database/database.ts'
import { type At, asJson, isChange, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** The shop that this database is. What is usual fills the blanks nobody has filled. */
export type Shop = Readonly<{
  id: string
  name: string
  kind: 'demo' | 'own'
  units: 'mm' | 'inch'
  usualUnitId: string | null
  usualFabricId: string | null
  usualEmulsionId: string | null
  usualRecipe: string | null
  usualBaseId: string | null
  usualMediumId: string | null
  /** What somebody has to be shown before they use it; null: what is usual. */
  shownFirst: readonly Machine[] | null
  createdAt: Date
}>

/**
 * Makes the database a shop.
 *
 * @throws Failure 'conflict' when it is one already
 */
export async function foundShop(
  database: Database,
  shop: New<Shop, 'shownFirst'>,
  { at }: At,
): Promise<Shop> {
  return database
    .insertInto('shop')
    .values({ ...shop, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
    .then(withoutMark)
}

/** Null until somebody said which shop it is: the first page asks. */
export async function shopOrNull(database: Database): Promise<Shop | null> {
  const row = await database.selectFrom('shop').selectAll().executeTakeFirst()
  return row === undefined ? null : withoutMark(row)
}

/** @throws Failure 'not found' while there is none */
export async function theShop(database: Database): Promise<Shop> {
  const shop = await shopOrNull(database)
  if (shop !== null) return shop
  throw new Failure('not found', 'There is no shop here yet: set one up on the first page.')
}

/** @throws Failure 'not found' while there is no shop, or for a usual thing that it does not have */
export async function changeShop(
  database: Database,
  changes: Partial<Omit<Shop, 'id' | 'kind' | 'shownFirst' | 'createdAt'>>,
): Promise<Shop> {
  if (isChange(changes)) await database.updateTable('shop').set(changes).execute()
  return theShop(database)
}

/** Settles what has to be shown first. */
export async function keepShownFirst(
  database: Database,
  machines: readonly Machine[],
): Promise<void> {
  await database
    .updateTable('shop')
    .set({ shownFirst: asJson(machines) })
    .execute()
}

function withoutMark(row: Shop): Shop {
  const { onlyOne: _, ...shop } = row as Shop & { onlyOne?: boolean }
  return shop
}

import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** What is left of an ink. */
export type InkStock = Readonly<{
  inkId: string
  grams: number
  /** In the shop's money. */
  pricePerKg: number | null
  countedAt: Date
}>

/** A paper as it is bought. */
export type PaperStock = Readonly<{
  id: string
  name: string
  widthMm: number
  heightMm: number
  sheets: number
  /** In the shop's money. */
  pricePerSheet: number | null
  countedAt: Date
  createdAt: Date
}>

/** What was counted of an ink takes the place of what was counted before. */
export async function countInk(
  database: Database,
  stock: Omit<InkStock, 'countedAt'>,
  { at }: At,
): Promise<void> {
  const { inkId: _, ...rest } = stock
  await database
    .insertInto('inkStock')
    .values({ ...stock, countedAt: at })
    .onConflict((conflict) => conflict.column('inkId').doUpdateSet({ ...rest, countedAt: at }))
    .execute()
}

/** Of each ink that was ever counted. */
export async function inkStocks(database: Database): Promise<readonly InkStock[]> {
  return database.selectFrom('inkStock').selectAll().orderBy('inkId').execute()
}

/** @throws Failure 'conflict' for a name that another paper has */
export async function addPaper(
  database: Database,
  paper: New<PaperStock, 'countedAt'>,
  { at }: At,
): Promise<PaperStock> {
  return database
    .insertInto('paperStock')
    .values({ ...paper, id: sortableId(at), countedAt: at, createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found', or 'conflict' for a name that another paper has */
export async function countPaper(
  database: Database,
  id: string,
  changes: Partial<Omit<PaperStock, 'id' | 'countedAt' | 'createdAt'>>,
  { at }: At,
): Promise<PaperStock> {
  const row = await database
    .updateTable('paperStock')
    .set({ ...changes, countedAt: at })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'paper')
}

/** All papers, by name. */
export async function papers(database: Database): Promise<readonly PaperStock[]> {
  return database.selectFrom('paperStock').selectAll().orderBy('name').orderBy('id').execute()
}

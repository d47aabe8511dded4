import type { Density } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** What the shop's marks are made with; densities are above the base. */
export type Medium = Readonly<{
  id: string
  name: string
  madeBy: 'hand' | 'printer'
  weakestMeanDensity: Density
  weakestSdDensity: Density
  solidLowDensity: Density | null
  solidHighDensity: Density | null
  status: 'measured' | 'judged'
  createdAt: Date
}>

/** @throws Failure 'conflict' for a name that the shop has */
export async function addMedium(
  database: Database,
  medium: New<Medium>,
  { at }: At,
): Promise<Medium> {
  return database
    .insertInto('medium')
    .values({ ...medium, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function mediumOf(database: Database, id: string): Promise<Medium> {
  const row = await database
    .selectFrom('medium')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  return found(row, 'medium')
}

/** All media, pale to dense. */
export async function media(database: Database): Promise<readonly Medium[]> {
  return database
    .selectFrom('medium')
    .selectAll()
    .orderBy('weakestMeanDensity')
    .orderBy('id')
    .execute()
}

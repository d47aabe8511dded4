import type { Density, Um } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** What the shop's films are drawn or printed on. */
export type Base = Readonly<{
  id: string
  name: string
  /** At the lamp's wavelengths. */
  baseDensity: Density
  thicknessUm: Um
  status: 'measured' | 'from memory'
  createdAt: Date
}>

/** @throws Failure 'conflict' for a name that the shop has */
export async function addBase(database: Database, base: New<Base>, { at }: At): Promise<Base> {
  return database
    .insertInto('base')
    .values({ ...base, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function baseOf(database: Database, id: string): Promise<Base> {
  const row = await database.selectFrom('base').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'film base')
}

/** All film bases, clear to dense. */
export async function bases(database: Database): Promise<readonly Base[]> {
  return database.selectFrom('base').selectAll().orderBy('baseDensity').orderBy('id').execute()
}

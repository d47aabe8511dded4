import type { PerCm, Um } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A fabric that the shop stretches. */
export type Fabric = Readonly<{
  id: string
  /** Count and thread, like 90-48. */
  name: string
  threadsPerCm: PerCm
  threadUm: Um
  /** Measured; null: reckon it from the tables. */
  thicknessUm: Um | null
  colour: string
  dyed: boolean
  createdAt: Date
}>

/** @throws Failure 'conflict' for a name and colour that the shop has */
export async function addFabric(
  database: Database,
  fabric: New<Fabric>,
  { at }: At,
): Promise<Fabric> {
  return database
    .insertInto('fabric')
    .values({ ...fabric, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function fabricOf(database: Database, id: string): Promise<Fabric> {
  const row = await database
    .selectFrom('fabric')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  return found(row, 'fabric')
}

/** All fabrics, coarse to fine. */
export async function fabrics(database: Database): Promise<readonly Fabric[]> {
  return database
    .selectFrom('fabric')
    .selectAll()
    .orderBy('threadsPerCm')
    .orderBy('threadUm')
    .orderBy('id')
    .execute()
}

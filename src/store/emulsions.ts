import type { Emulsion as Coat } from '../core/emulsion/emulsion.ts'
import type { Lu, Share, Um } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** An emulsion that the shop buys, and the numbers of its model; those of the other are null. */
export type Emulsion = Readonly<{
  id: string
  name: string
  kind: 'ready-mixed' | 'diazo' | 'dual cure'
  model: 'absorbing' | 'bleaching'
  gelDoseLu: Lu | null
  penetrationDepthUm: Um | null
  aPerUm: number | null
  bPerUm: number | null
  cPerLu: number | null
  gelShare: Share | null
  refractiveIndex: number
  createdAt: Date
}>

/** A bucket of it. */
export type Batch = Readonly<{
  id: string
  emulsionId: string
  name: string
  mixedAt: Date
  expiresAt: Date | null
  usedUpAt: Date | null
  createdAt: Date
}>

/** @throws Failure 'conflict' for a name that the shop has; RangeError without its model's numbers */
export async function addEmulsion(
  database: Database,
  emulsion: New<Emulsion>,
  { at }: At,
): Promise<Emulsion> {
  return database
    .insertInto('emulsion')
    .values({ ...emulsion, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function emulsionOf(database: Database, id: string): Promise<Emulsion> {
  const row = await database
    .selectFrom('emulsion')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  return found(row, 'emulsion')
}

/** All emulsions, in the order they came. */
export async function emulsions(database: Database): Promise<readonly Emulsion[]> {
  return database.selectFrom('emulsion').selectAll().orderBy('id').execute()
}

/** @throws Failure 'conflict' for a bucket's name that this emulsion has already */
export async function addBatch(database: Database, batch: New<Batch>, { at }: At): Promise<Batch> {
  return database
    .insertInto('batch')
    .values({ ...batch, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** All buckets there ever were, newest first. */
export async function batches(database: Database): Promise<readonly Batch[]> {
  return database
    .selectFrom('batch')
    .selectAll()
    .orderBy('mixedAt', 'desc')
    .orderBy('id', 'desc')
    .execute()
}

/** The buckets that are not used up, newest first. */
export async function openBatches(database: Database): Promise<readonly Batch[]> {
  return database
    .selectFrom('batch')
    .selectAll()
    .where('usedUpAt', 'is', null)
    .orderBy('mixedAt', 'desc')
    .orderBy('id', 'desc')
    .execute()
}

/** @throws Failure 'not found' */
export async function useUpBatch(database: Database, id: string, { at }: At): Promise<Batch> {
  const row = await database
    .updateTable('batch')
    .set({ usedUpAt: at })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'batch')
}

/** The emulsion as a coat of some thickness, for the formulas. */
export function coatOf(
  emulsion: Emulsion,
  coat: Readonly<{ thicknessUm: Um; anchorDepthUm: Um }>,
): Coat {
  const { model, gelDoseLu, penetrationDepthUm, aPerUm, bPerUm, cPerLu, gelShare } = emulsion
  if (model === 'absorbing' && gelDoseLu !== null && penetrationDepthUm !== null) {
    return { model, gelDoseLu, penetrationDepthUm, ...coat }
  }
  const bleaches = aPerUm !== null && bPerUm !== null && cPerLu !== null && gelShare !== null
  if (model === 'bleaching' && bleaches) {
    return { model, aPerUm, bPerUm, cPerLu, gelShare, ...coat }
  }
  throw new RangeError(`emulsion: expected the numbers of the ${model} model, got others`)
}

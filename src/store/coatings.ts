import { Failure } from '../core/failure.ts'
import type { Um } from '../core/units/quantity.ts'
import { type Database, inTransaction } from './database/database.ts'
import { type At, found, isChange, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** The emulsion on a screen, from coating to reclaim. */
export type Coating = Readonly<{
  id: string
  screenId: string
  batchId: string | null
  /** How it was put on: once on each side. */
  recipe: string
  /** Emulsion over mesh, measured. */
  eomUm: Um | null
  coatedAt: Date
  /** When it was meant to be dry; once somebody felt that it is, when that was. */
  dryAt: Date | null
  /** When somebody felt that it is dry; null: nobody said so. */
  dryNotedAt: Date | null
  goodUntil: Date | null
  removedAt: Date | null
  createdAt: Date
}>

/**
 * Coats a clean screen, which is then coated.
 *
 * @throws Failure 'not found' for a screen or batch that the shop does not have; 'conflict' when
 * the screen still carries a coating
 */
export async function coatScreen(
  database: Database,
  coating: New<Coating, 'removedAt'>,
  { at }: At,
): Promise<Coating> {
  return inTransaction(database, async (inner) => {
    await inner
      .updateTable('screen')
      .set({ state: 'coated' })
      .where('id', '=', coating.screenId)
      .execute()
    return inner
      .insertInto('coating')
      .values({ ...coating, id: sortableId(at), createdAt: at })
      .returningAll()
      .executeTakeFirstOrThrow()
  })
}

/** Takes down coatings of the past, which were taken off again; no screen's state changes. */
export async function addPastCoatings(
  database: Database,
  all: readonly (New<Coating> & Readonly<{ removedAt: Date }>)[],
  { at }: At,
): Promise<void> {
  if (all.length === 0) return
  const rows = all.map((coating) => ({ ...coating, id: sortableId(at), createdAt: at }))
  await database.insertInto('coating').values(rows).execute()
}

/** What is on the screen now; null when it is bare. */
export async function coatingOn(database: Database, screenId: string): Promise<Coating | null> {
  const row = await database
    .selectFrom('coating')
    .selectAll()
    .where('screenId', '=', screenId)
    .where('removedAt', 'is', null)
    .executeTakeFirst()
  return row ?? null
}

/** What is on every screen that is not bare, in the order of coating. */
export async function coatings(database: Database): Promise<readonly Coating[]> {
  return database
    .selectFrom('coating')
    .selectAll()
    .where('removedAt', 'is', null)
    .orderBy('id')
    .execute()
}

/** All coatings there ever were, in the order they were put on. */
export async function allCoatings(database: Database): Promise<readonly Coating[]> {
  return database.selectFrom('coating').selectAll().orderBy('coatedAt').orderBy('id').execute()
}

/** @throws Failure 'not found' */
export async function changeCoating(
  database: Database,
  id: string,
  changes: Partial<Pick<Coating, 'dryAt' | 'dryNotedAt' | 'goodUntil' | 'eomUm'>>,
): Promise<Coating> {
  const row = isChange(changes)
    ? await database
        .updateTable('coating')
        .set(changes)
        .where('id', '=', id)
        .returningAll()
        .executeTakeFirst()
    : await database.selectFrom('coating').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'coating')
}

/** Takes the stencil off: the screen is clean again. @throws Failure 'conflict' when it is bare */
export async function reclaimScreen(
  database: Database,
  screenId: string,
  { at }: At,
): Promise<Coating> {
  return inTransaction(database, async (inner) => {
    const coating = await coatingOn(inner, screenId)
    if (coating === null) {
      throw new Failure('conflict', 'There is no coating on this screen to take off.')
    }
    await inner
      .updateTable('screen')
      .set({ state: 'clean', ownerId: null, keptUntil: null })
      .where('id', '=', screenId)
      .execute()
    const row = await inner
      .updateTable('coating')
      .set({ removedAt: at })
      .where('id', '=', coating.id)
      .returningAll()
      .executeTakeFirst()
    return found(row, 'coating')
  })
}

import type { Database } from './database/database.ts'
import { type At, found, isChange, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

export type ScreenState =
  | 'clean'
  | 'coated'
  | 'exposed'
  | 'in print'
  | 'to reclaim'
  | 'torn'
  | 'lost'

/** A frame with its fabric, known by the tag on it. */
export type Screen = Readonly<{
  id: string
  tag: string
  frameId: string
  fabricId: string
  state: ScreenState
  rackSlot: string | null
  ownerId: string | null
  keptUntil: Date | null
  tensionNewtonPerCm: number | null
  tensionMeasuredAt: Date | null
  /** A ghost of an old image stayed in the fabric. */
  haze: boolean
  retiredAt: Date | null
  createdAt: Date
}>

/** @throws Failure 'conflict' for a tag that another screen carries */
export async function addScreen(
  database: Database,
  screen: New<Screen, 'haze'>,
  { at }: At,
): Promise<Screen> {
  return database
    .insertInto('screen')
    .values({ ...screen, haze: false, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function screenOf(database: Database, id: string): Promise<Screen> {
  const row = await database
    .selectFrom('screen')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  return found(row, 'screen')
}

/** The screen in use that carries this tag. @throws Failure 'not found' */
export async function screenWithTag(database: Database, tag: string): Promise<Screen> {
  const row = await database
    .selectFrom('screen')
    .selectAll()
    .where('tag', '=', tag)
    .where('retiredAt', 'is', null)
    .executeTakeFirst()
  return found(row, 'screen')
}

/** The screens in use, in the order they came. */
export async function screens(database: Database): Promise<readonly Screen[]> {
  return database
    .selectFrom('screen')
    .selectAll()
    .where('retiredAt', 'is', null)
    .orderBy('id')
    .execute()
}

/** @throws Failure 'not found', or 'conflict' for a tag that another screen carries */
export async function changeScreen(
  database: Database,
  id: string,
  changes: Partial<Omit<Screen, 'id' | 'createdAt'>>,
): Promise<Screen> {
  if (!isChange(changes)) return screenOf(database, id)
  const row = await database
    .updateTable('screen')
    .set(changes)
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'screen')
}

import { type Database, inTransaction } from './database/database.ts'
import { type At, type New } from './database/record.ts'
import { sortableId } from './ids.ts'
import { changeScreen, type Screen, type ScreenState } from './screens.ts'

/** Something that happened to a screen. */
export type ScreenEvent = Readonly<{
  id: string
  /** Made where it happened: told twice, it is one. Null: it came of something else. */
  sentKey: string | null
  screenId: string
  kind: 'came' | 'state' | 'owner' | 'slot' | 'tension' | 'haze' | 'note'
  /** What it then was, of what the kind names. */
  state: ScreenState | null
  ownerId: string | null
  keptUntil: Date | null
  rackSlot: string | null
  tensionNewtonPerCm: number | null
  says: string | null
  /** Who told; null: nobody said who. */
  personId: string | null
  happenedAt: Date
  createdAt: Date
}>

type Changes = Parameters<typeof changeScreen>[2]

/**
 * Takes down what happened to a screen and changes it: both or neither. What was sent before under
 * the same key changes nothing.
 *
 * @throws Failure 'not found' for a screen or person that the shop does not have
 */
export async function addScreenEvent(
  database: Database,
  { event, changes = {} }: Readonly<{ event: New<ScreenEvent>; changes?: Changes }>,
  { at }: At,
): Promise<Screen> {
  return inTransaction(database, async (inner) => {
    const taken = await inner
      .insertInto('screenEvent')
      .values({ ...event, id: sortableId(at), createdAt: at })
      .onConflict((conflict) => conflict.column('sentKey').doNothing())
      .returning('id')
      .executeTakeFirst()
    return changeScreen(inner, event.screenId, taken === undefined ? {} : changes)
  })
}

/** What happened to a screen, newest first. */
export async function screenEvents(
  database: Database,
  { screenId, limit }: Readonly<{ screenId: string; limit: number }>,
): Promise<readonly ScreenEvent[]> {
  return database
    .selectFrom('screenEvent')
    .selectAll()
    .where('screenId', '=', screenId)
    .orderBy('happenedAt', 'desc')
    .orderBy('id', 'desc')
    .limit(limit)
    .execute()
}

/** What the screen was before it was lost; null: nobody knows. */
export async function stateBeforeLost(
  database: Database,
  { screenId }: Readonly<{ screenId: string }>,
): Promise<ScreenState | null> {
  const row = await database
    .selectFrom('screenEvent')
    .select('state')
    .where('screenId', '=', screenId)
    .where('kind', '=', 'state')
    .where('state', '!=', 'lost')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  return row?.state ?? null
}

/** Whether something was told under a key before. */
export async function isTold(database: Database, sentKey: string): Promise<boolean> {
  const row = await database
    .selectFrom('screenEvent')
    .select('id')
    .where('sentKey', '=', sentKey)
    .executeTakeFirst()
  return row !== undefined
}

/** The newest exposure of each coating that is on a screen now, with its films. */
export async function stencils(database: Database): Promise<readonly Stencil[]> {
  const rows = await database
    .selectFrom('exposure')
    .innerJoin('coating', (join) =>
      join.onRef('coating.screenId', '=', 'exposure.screenId').on('coating.removedAt', 'is', null),
    )
    .leftJoin('exposureFilm', 'exposureFilm.exposureId', 'exposure.id')
    .leftJoin('film', 'film.id', 'exposureFilm.filmId')
    .whereRef('exposure.createdAt', '>=', 'coating.coatedAt')
    .where('exposure.litAt', 'is not', null)
    .select([
      'exposure.screenId as screenId',
      'exposure.id as exposureId',
      'exposure.litAt as litAt',
      'film.id as filmId',
      'film.name as filmName',
      'film.layerId as layerId',
    ])
    .orderBy('exposure.id', 'desc')
    .execute()
  const newest = new Map<string, string>()
  for (const { screenId, exposureId } of rows) {
    if (screenId !== null && !newest.has(screenId)) newest.set(screenId, exposureId)
  }
  return rows.flatMap(({ screenId, exposureId, litAt, ...film }) =>
    screenId !== null && litAt !== null && newest.get(screenId) === exposureId
      ? [{ screenId, litAt, ...film }]
      : [],
  )
}

/** A film that was exposed on a screen's coating. */
export type Stencil = Readonly<{
  screenId: string
  litAt: Date
  filmId: string | null
  filmName: string | null
  layerId: string | null
}>

/** What somebody told of screens, or was given of them, oldest first. */
export async function eventsOfPerson(
  database: Database,
  { personId, limit }: Readonly<{ personId: string; limit: number }>,
): Promise<readonly (ScreenEvent & Readonly<{ tag: string }>)[]> {
  return database
    .selectFrom('screenEvent')
    .innerJoin('screen', 'screen.id', 'screenEvent.screenId')
    .selectAll('screenEvent')
    .select('screen.tag as tag')
    .where((where) =>
      where.or([
        where('screenEvent.ownerId', '=', personId),
        where('screenEvent.personId', '=', personId),
      ]),
    )
    .orderBy('screenEvent.happenedAt')
    .orderBy('screenEvent.id')
    .limit(limit)
    .execute()
}

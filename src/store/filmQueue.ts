import type { Database } from './database/database.ts'
import { type At, found, isChange } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A film that somebody waits for. */
export type QueuedFilm = Readonly<{
  id: string
  /** Made where it was asked: asked twice, it is one. */
  sentKey: string
  /** Null: a loose film. */
  layerId: string | null
  what: string
  /** Who waits for it. */
  personId: string | null
  askedAt: Date
  madeAt: Date | null
  /** The scale bar along the film: how long it should be, and as it was measured. */
  barMm: number | null
  measuredMm: number | null
  /** The same across it; null: only the one way was measured. */
  acrossBarMm: number | null
  acrossMeasuredMm: number | null
  measuredAt: Date | null
  liesIn: string | null
  leftAt: Date | null
  leftAs: 'fetched' | 'not wanted' | null
  createdAt: Date
}>

type AskedFor = Pick<QueuedFilm, 'sentKey' | 'layerId' | 'what' | 'personId'>

/**
 * Puts a film into the queue; what was asked before under the same key is not asked twice.
 *
 * @throws Failure 'not found' for a layer or a person that the shop does not have
 */
export async function queueFilm(database: Database, asked: AskedFor, { at }: At): Promise<void> {
  await database
    .insertInto('filmQueue')
    .values({ ...asked, id: sortableId(at), askedAt: at, createdAt: at })
    .onConflict((conflict) => conflict.column('sentKey').doNothing())
    .execute()
}

/** Films that are waited for, and those that left the queue since; the first asked first. */
export async function filmQueue(
  database: Database,
  { leftSince }: Readonly<{ leftSince: Date }>,
): Promise<readonly QueuedFilm[]> {
  return database
    .selectFrom('filmQueue')
    .selectAll()
    .where((row) => row.or([row('leftAt', 'is', null), row('leftAt', '>=', leftSince)]))
    .orderBy('id')
    .execute()
}

/** @throws Failure 'not found' */
export async function queuedFilmOf(database: Database, id: string): Promise<QueuedFilm> {
  const row = await database
    .selectFrom('filmQueue')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  return found(row, 'film in the queue')
}

/** @throws Failure 'not found' */
export async function changeQueuedFilm(
  database: Database,
  id: string,
  changes: Partial<Omit<QueuedFilm, keyof AskedFor | 'id' | 'askedAt' | 'createdAt'>>,
): Promise<QueuedFilm> {
  if (!isChange(changes)) return queuedFilmOf(database, id)
  const row = await database
    .updateTable('filmQueue')
    .set(changes)
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'film in the queue')
}

/** A film that became of artwork here, made with register marks. */
export async function hasOwnCrosses(database: Database, filmId: string): Promise<boolean> {
  const row = await database
    .selectFrom('artworkFilm')
    .innerJoin('artwork', 'artwork.id', 'artworkFilm.artworkId')
    .where('artworkFilm.filmId', '=', filmId)
    .select('artwork.made')
    .executeTakeFirst()
  const made = row?.made as Readonly<{ plan?: Readonly<{ marks?: Marks }> }> | null | undefined
  return made?.plan?.marks?.registration === true
}

type Marks = Readonly<{ registration?: boolean }>

import { type Database, inTransaction } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Where films lie on a screen, and the screen on a glass; the newest of a screen holds. */
export type Placement = Readonly<{
  id: string
  screenId: string
  /** Null, as the three after it: laid on no glass. */
  unitId: string | null
  /** The outside of its frame from the back left corner of the glass, seen from above. */
  leftMm: number | null
  backMm: number | null
  turned: boolean | null
  frameClearanceMm: number
  betweenClearanceMm: number
  /** When somebody said that all of it lies so; null: planned. */
  laidAt: Date | null
  createdAt: Date
}>

/** The sheet's top left corner from the inside top left of the frame; turned by a quarter, clockwise. */
export type PlacedFilm = Readonly<{
  placementId: string
  filmId: string
  xMm: number
  yMm: number
  turned: boolean
}>

export type WholePlacement = Readonly<{ placement: Placement; films: readonly PlacedFilm[] }>

/** Something on a glass that light should not cross, from the glass’s back left corner. */
export type GlassMark = Readonly<{
  id: string
  unitId: string
  what: string
  xMm: number
  yMm: number
  widthMm: number
  heightMm: number
  goneAt: Date | null
  createdAt: Date
}>

/** @throws Failure 'not found' for a screen, a unit or a film that the shop does not have */
export async function addPlacement(
  database: Database,
  {
    placement,
    films,
  }: Readonly<{ placement: New<Placement>; films: readonly Omit<PlacedFilm, 'placementId'>[] }>,
  { at }: At,
): Promise<WholePlacement> {
  if (films.length === 0) throw new RangeError('films: expected at least 1, got 0')
  return inTransaction(database, async (inner) => {
    const kept = await inner
      .insertInto('placement')
      .values({ ...placement, id: sortableId(at), createdAt: at })
      .returningAll()
      .executeTakeFirstOrThrow()
    const rows = films.map((film) => ({ ...film, placementId: kept.id }))
    const placed = await inner.insertInto('placedFilm').values(rows).returningAll().execute()
    return { placement: kept, films: placed }
  })
}

/** How films were laid on a screen last; null where none ever were. */
export async function newestPlacement(
  database: Database,
  { screenId }: Readonly<{ screenId: string }>,
): Promise<WholePlacement | null> {
  const placement = await database
    .selectFrom('placement')
    .selectAll()
    .where('screenId', '=', screenId)
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  if (placement === undefined) return null
  const films = await database
    .selectFrom('placedFilm')
    .selectAll()
    .where('placementId', '=', placement.id)
    .orderBy('filmId')
    .execute()
  return { placement, films }
}

/** How films were laid last on each screen, the newest first. */
export async function newestPlacements(database: Database): Promise<readonly WholePlacement[]> {
  const newest = await database
    .selectFrom('placement')
    .selectAll()
    .where('id', 'in', (inner) =>
      inner.selectFrom('placement').select(inner.fn.max('id').as('id')).groupBy('screenId'),
    )
    .orderBy('id', 'desc')
    .execute()
  if (newest.length === 0) return []
  const films = await database
    .selectFrom('placedFilm')
    .selectAll()
    .where(
      'placementId',
      'in',
      newest.map(({ id }) => id),
    )
    .orderBy('filmId')
    .execute()
  return newest.map((placement) => ({
    placement,
    films: films.filter(({ placementId }) => placementId === placement.id),
  }))
}

/** @throws Failure 'not found' for a unit that the shop does not have */
export async function addGlassMark(
  database: Database,
  mark: New<GlassMark>,
  { at }: At,
): Promise<GlassMark> {
  return database
    .insertInto('glassMark')
    .values({ ...mark, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** What is on a unit's glass now, in the order it was seen. */
export async function glassMarks(
  database: Database,
  { unitId }: Readonly<{ unitId: string }>,
): Promise<readonly GlassMark[]> {
  return database
    .selectFrom('glassMark')
    .selectAll()
    .where('unitId', '=', unitId)
    .where('goneAt', 'is', null)
    .orderBy('id')
    .execute()
}

/** The glass is clean there again: kept, and no longer kept clear of. @throws Failure 'not found' */
export async function glassMarkIsGone(
  database: Database,
  id: string,
  { at }: At,
): Promise<GlassMark> {
  const row = await database
    .updateTable('glassMark')
    .set((mark) => ({ goneAt: mark.fn.coalesce('goneAt', mark.val(at)) }))
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'mark on the glass')
}

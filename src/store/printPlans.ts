import type { Database } from './database/database.ts'
import { type At, asJson, type Json, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** What somebody settled about printing a ticket. */
export type PrintPlanRecord = Readonly<{ ticketId: string; asked: Json; changedAt: Date }>

/** How much of a film is marks. */
export type FilmCover = Readonly<{
  filmId: string
  /** Of the picture that it was counted in. */
  tilesSha256: string
  coverShare: number
  /** Of the marks: close to an edge. */
  edgeShare: number
  countedAt: Date
}>

/** A layer's colour on the print against the colour wanted, CIELAB under D50. */
export type ColourCheck = Readonly<{
  id: string
  layerId: string
  how: 'measured' | 'photo'
  /** What was read, as it was sent. */
  readings: Json
  wantedL: number
  wantedA: number
  wantedB: number
  seenL: number
  seenA: number
  seenB: number
  /** Nine in ten such readings are right within so much. */
  doubtDeltaE: number
  checkedAt: Date
  takenBackAt: Date | null
  createdAt: Date
}>

/** Null while all is as usual. */
export async function printPlanOf(database: Database, ticketId: string): Promise<Json> {
  const row = await database
    .selectFrom('printPlan')
    .select('asked')
    .where('ticketId', '=', ticketId)
    .executeTakeFirst()
  return row?.asked ?? null
}

/** Takes the place of what was settled before. */
export async function keepPrintPlan(
  database: Database,
  { ticketId, asked }: Readonly<{ ticketId: string; asked: Json }>,
  { at }: At,
): Promise<void> {
  const set = { asked: asJson(asked), changedAt: at }
  await database
    .insertInto('printPlan')
    .values({ ticketId, ...set })
    .onConflict((conflict) => conflict.column('ticketId').doUpdateSet(set))
    .execute()
}

/** Of these films, those that were counted. */
export async function filmCovers(
  database: Database,
  films: readonly string[],
): Promise<readonly FilmCover[]> {
  if (films.length === 0) return []
  return database.selectFrom('filmCover').selectAll().where('filmId', 'in', films).execute()
}

/** Takes the place of what was counted before. */
export async function keepFilmCover(
  database: Database,
  cover: Omit<FilmCover, 'countedAt'>,
  { at }: At,
): Promise<void> {
  const { filmId: _, ...rest } = cover
  await database
    .insertInto('filmCover')
    .values({ ...cover, countedAt: at })
    .onConflict((conflict) => conflict.column('filmId').doUpdateSet({ ...rest, countedAt: at }))
    .execute()
}

export async function addColourCheck(
  database: Database,
  { readings, ...check }: New<ColourCheck, 'takenBackAt' | 'checkedAt'>,
  { at }: At,
): Promise<void> {
  await database
    .insertInto('colourCheck')
    .values({
      ...check,
      readings: asJson(readings ?? []),
      id: sortableId(at),
      checkedAt: at,
      createdAt: at,
    })
    .execute()
}

/** It is kept and not counted. */
export async function takeBackColourCheck(
  database: Database,
  { id, layers }: Readonly<{ id: string; layers: readonly string[] }>,
  { at }: At,
): Promise<boolean> {
  if (layers.length === 0) return false
  const row = await database
    .updateTable('colourCheck')
    .set({ takenBackAt: at })
    .where('id', '=', id)
    .where('layerId', 'in', layers)
    .returning('id')
    .executeTakeFirst()
  return row !== undefined
}

/** All that were not taken back, newest first. */
export async function colourChecksOf(
  database: Database,
  layers: readonly string[],
): Promise<readonly ColourCheck[]> {
  if (layers.length === 0) return []
  return database
    .selectFrom('colourCheck')
    .selectAll()
    .where('layerId', 'in', layers)
    .where('takenBackAt', 'is', null)
    .orderBy('id', 'desc')
    .execute()
}

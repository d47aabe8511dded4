import type { Density, Mm, Um } from '../core/units/quantity.ts'
import type { Database } from './database/database.ts'
import {
  type At,
  asJson,
  asJsonOrNull,
  found,
  isChange,
  type Json,
  type New,
  type Page,
} from './database/record.ts'
import { sortableId } from './ids.ts'

/** A film: read from a file that came in, or made here. */
export type Film = Readonly<{
  id: string
  /** Null: a loose film. */
  layerId: string | null
  kind: 'read' | 'made'
  name: string
  ownerId: string | null
  baseId: string | null
  mediumId: string | null
  /** Waiting to be read, ready with its size, or refused with a sentence. */
  status: 'waiting' | 'ready' | 'refused'
  refusal: string | null
  /** The file as it came, by its sha-256. */
  originalBlob: string
  fileName: string | null
  /** How it is to be read, where the file does not say so itself. */
  resolutionDpi: number | null
  solidDensity: Density | null
  readAs: 'transmission' | 'coverage' | null
  widthMm: Mm | null
  heightMm: Mm | null
  pixelUm: Um | null
  /** The density map, where it is another file than the original. */
  mapBlob: string | null
  /** Its picture in tiles. */
  tilesBlob: string | null
  /** What was found on it, as the workflow wrote it. */
  marks: Json
  /** Of a film read from a photo: how far its densities hold, and what it looks made with. */
  byPhoto: Json
  /** Whether faint underdrawing prints; null until somebody was asked. */
  faintPrints: boolean | null
  readAt: Date | null
  createdAt: Date
}>

type Given =
  | 'status'
  | 'refusal'
  | 'widthMm'
  | 'heightMm'
  | 'pixelUm'
  | 'readAt'
  | 'marks'
  | 'byPhoto'

/** What reading a film found out. */
export type FilmFindings = Readonly<{
  widthMm: Mm
  heightMm: Mm
  pixelUm: Um
  mapBlob?: string | null
  tilesBlob?: string | null
  marks?: Json
}>

/**
 * Takes in a film whose file is stored; it waits to be read.
 *
 * @throws Failure 'not found' for a file, layer, base or medium that the shop does not have
 */
export async function addFilm(
  database: Database,
  film: New<Film, Given>,
  { at }: At,
): Promise<Film> {
  return database
    .insertInto('film')
    .values({ ...film, status: 'waiting', id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** The film is read, with its true size. @throws Failure 'not found' */
export async function filmIsReady(
  database: Database,
  id: string,
  { marks, ...findings }: FilmFindings,
  { at }: At,
): Promise<Film> {
  const row = await database
    .updateTable('film')
    .set({ ...findings, marks: asJsonOrNull(marks), status: 'ready', refusal: null, readAt: at })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'film')
}

/** The film cannot be read; the sentence says why. @throws Failure 'not found' */
export async function filmIsRefused(
  database: Database,
  id: string,
  { refusal }: Readonly<{ refusal: string }>,
): Promise<Film> {
  const row = await database
    .updateTable('film')
    .set({ status: 'refused', refusal })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'film')
}

type Changes = Partial<
  Pick<
    Film,
    | 'layerId'
    | 'name'
    | 'ownerId'
    | 'baseId'
    | 'mediumId'
    | 'resolutionDpi'
    | 'solidDensity'
    | 'readAs'
    | 'faintPrints'
    | 'tilesBlob'
  >
> &
  Readonly<{ marks?: Json; byPhoto?: Json }>

/** What people say of a film, or what was found on it since. @throws Failure 'not found' */
export async function changeFilm(
  database: Database,
  id: string,
  { marks, byPhoto, ...changes }: Changes,
): Promise<Film> {
  const json = {
    ...(marks === undefined ? {} : { marks: asJson(marks) }),
    ...(byPhoto === undefined ? {} : { byPhoto: asJsonOrNull(byPhoto) }),
  }
  const all = { ...changes, ...json }
  if (!isChange(all)) return filmOf(database, id)
  const row = await database
    .updateTable('film')
    .set(all)
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'film')
}

/** @throws Failure 'not found' */
export async function filmOf(database: Database, id: string): Promise<Film> {
  const row = await database.selectFrom('film').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'film')
}

/** Films, newest first. */
export async function films(database: Database, { limit, before }: Page): Promise<readonly Film[]> {
  const query = database.selectFrom('film').selectAll().orderBy('id', 'desc').limit(limit)
  return (before === undefined ? query : query.where('id', '<', before)).execute()
}

/** The films of a layer, newest first. */
export async function filmsOfLayer(database: Database, layerId: string): Promise<readonly Film[]> {
  return database
    .selectFrom('film')
    .selectAll()
    .where('layerId', '=', layerId)
    .orderBy('id', 'desc')
    .execute()
}

/**
 * Forgets a film that was never exposed, with its forecasts; its files go when they are cleared.
 *
 * @throws Failure 'not found', or 'conflict' when an exposure or a reading names it
 */
export async function removeFilm(database: Database, id: string): Promise<Film> {
  const row = await database
    .deleteFrom('film')
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'film')
}

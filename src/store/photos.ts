import type { Database } from './database/database.ts'
import { type At, asJsonOrNull, found, type Json, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A photo: of a film that is to be read, of a screen that is to be checked, of a washed-out test. */
export type Photo = Readonly<{
  id: string
  subject: 'film' | 'screen' | 'wedge' | 'strip'
  name: string
  /** The file as it came, by its sha-256. */
  originalBlob: string
  /** Of a screen: the film it is checked against. */
  filmId: string | null
  /** Upright, as its camera meant it; null until somebody looked at it. */
  widthPx: number | null
  heightPx: number | null
  previewBlob: string | null
  /** Where to look, as somebody asked; null: nobody asked for an answer yet. */
  asked: Json
  answer: Json
  /** Of a film its density map, of a screen the film beside it; and the straightened picture. */
  mapBlob: string | null
  pictureBlob: string | null
  /** Of a screen: what to spot out, to be printed. */
  listBlob: string | null
  /** Why there is no answer, as said to people. */
  refusal: string | null
  createdAt: Date
}>

type Later =
  | 'widthPx'
  | 'heightPx'
  | 'previewBlob'
  | 'answer'
  | 'mapBlob'
  | 'pictureBlob'
  | 'listBlob'

/** Takes in a photo whose file is stored. @throws Failure 'not found' for a file or film that is not there */
export async function addPhoto(
  database: Database,
  { asked, ...photo }: New<Photo, Later | 'refusal'>,
  { at }: At,
): Promise<Photo> {
  return database
    .insertInto('photo')
    .values({ ...photo, asked: asJsonOrNull(asked), id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

type Changes = Partial<Pick<Photo, Later | 'asked' | 'filmId' | 'refusal'>>

/** What was found on it, or is asked of it, since. @throws Failure 'not found' */
export async function changePhoto(
  database: Database,
  id: string,
  { asked, answer, ...changes }: Changes,
): Promise<Photo> {
  const row = await database
    .updateTable('photo')
    .set({
      ...changes,
      ...(asked === undefined ? {} : { asked: asJsonOrNull(asked) }),
      ...(answer === undefined ? {} : { answer: asJsonOrNull(answer) }),
    })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'photo')
}

/** @throws Failure 'not found' */
export async function photoOf(database: Database, id: string): Promise<Photo> {
  const row = await database.selectFrom('photo').selectAll().where('id', '=', id).executeTakeFirst()
  return found(row, 'photo')
}

/** Forgets a photo; its files go when they are cleared, if no film names them. @throws Failure 'not found' */
export async function removePhoto(database: Database, id: string): Promise<void> {
  const row = await database
    .deleteFrom('photo')
    .where('id', '=', id)
    .returning('id')
    .executeTakeFirst()
  found(row, 'photo')
}

/** Forgets photos that came before a day. */
export async function forgetPhotos(
  database: Database,
  { cameBefore }: Readonly<{ cameBefore: Date }>,
): Promise<void> {
  await database.deleteFrom('photo').where('createdAt', '<', cameBefore).execute()
}

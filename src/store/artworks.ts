import type { Share } from '../core/units/quantity.ts'
import { type Database, inTransaction } from './database/database.ts'
import { type At, asJsonOrNull, found, type Json, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** A picture or drawing of which films are made. */
export type Artwork = Readonly<{
  id: string
  /** Null: of no ticket yet. */
  ticketId: string | null
  name: string
  fileName: string
  /** The file as it came, by its sha-256. */
  originalBlob: string
  /** Its size and kind, and its samples made small; null until somebody looked at it. */
  seen: Json
  samplesBlob: string | null
  /** Why no film can be made of it, as said to people. */
  refusal: string | null
  /** What films are wanted, in the words of plan files. */
  plan: Json
  /** What their screens are woven of. */
  fabricId: string | null
  /** The plan that the newest films were made by, and how large they are. */
  made: Json
  proofBlob: string | null
  createdAt: Date
}>

/** The newest film of one of its inks. */
export type ArtworkFilm = Readonly<{
  id: string
  artworkId: string
  /** In the order of printing, from 1. */
  place: number
  ink: string
  coverageShare: Share
  pdfBlob: string
  tiffBlob: string
  /** The film of the shop that it became. */
  filmId: string | null
  createdAt: Date
}>

type Later = 'seen' | 'samplesBlob' | 'refusal' | 'made' | 'proofBlob'

/** Takes in artwork whose file is stored. @throws Failure 'not found' for a file, ticket or fabric */
export async function addArtwork(
  database: Database,
  { plan, ...artwork }: New<Artwork, Later>,
  { at }: At,
): Promise<Artwork> {
  return database
    .insertInto('artwork')
    .values({ ...artwork, plan: asJsonOrNull(plan), id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

type Changes = Partial<
  Pick<Artwork, 'ticketId' | 'name' | 'seen' | 'samplesBlob' | 'refusal' | 'plan' | 'fabricId'>
>

/** What was seen of it, or is wanted of it. @throws Failure 'not found' */
export async function changeArtwork(
  database: Database,
  id: string,
  { seen, plan, ...changes }: Changes,
): Promise<Artwork> {
  const row = await database
    .updateTable('artwork')
    .set({
      id, // nothing else may change
      ...changes,
      ...(seen === undefined ? {} : { seen: asJsonOrNull(seen) }),
      ...(plan === undefined ? {} : { plan: asJsonOrNull(plan) }),
    })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'artwork')
}

/** @throws Failure 'not found' */
export async function artworkOf(database: Database, id: string): Promise<Artwork> {
  const row = await database
    .selectFrom('artwork')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  return found(row, 'artwork')
}

/** Artworks, newest first. */
export async function artworks(
  database: Database,
  { limit }: Readonly<{ limit: number }>,
): Promise<readonly Artwork[]> {
  return database.selectFrom('artwork').selectAll().orderBy('id', 'desc').limit(limit).execute()
}

/** Forgets artwork and its films; what became a film of the shop stays. @throws Failure 'not found' */
export async function removeArtwork(database: Database, id: string): Promise<void> {
  const row = await database
    .deleteFrom('artwork')
    .where('id', '=', id)
    .returning('id')
    .executeTakeFirst()
  found(row, 'artwork')
}

/** Its newest films, in the order of printing. */
export async function filmsOfArtwork(
  database: Database,
  artworkId: string,
): Promise<readonly ArtworkFilm[]> {
  return database
    .selectFrom('artworkFilm')
    .selectAll()
    .where('artworkId', '=', artworkId)
    .orderBy('place')
    .execute()
}

/** Films were made: they take the place of earlier ones. @throws Failure 'not found' */
export async function keepMadeFilms(
  database: Database,
  artworkId: string,
  {
    made,
    proofBlob,
    films,
  }: Readonly<{
    made: Json
    proofBlob: string
    films: readonly New<ArtworkFilm, 'artworkId' | 'filmId'>[]
  }>,
  { at }: At,
): Promise<void> {
  await inTransaction(database, async (inner) => {
    const row = await inner
      .updateTable('artwork')
      .set({ made: asJsonOrNull(made), proofBlob })
      .where('id', '=', artworkId)
      .returning('id')
      .executeTakeFirst()
    found(row, 'artwork')
    await inner.deleteFrom('artworkFilm').where('artworkId', '=', artworkId).execute()
    for (const film of films) {
      await inner
        .insertInto('artworkFilm')
        .values({ ...film, artworkId, id: sortableId(at), createdAt: at })
        .execute()
    }
  })
}

/** A made film became a film of the shop. @throws Failure 'not found' */
export async function nameShopFilm(
  database: Database,
  id: string,
  { filmId }: Readonly<{ filmId: string }>,
): Promise<void> {
  const row = await database
    .updateTable('artworkFilm')
    .set({ filmId })
    .where('id', '=', id)
    .returning('id')
    .executeTakeFirst()
  found(row, 'film')
}

import { inflateSync } from 'node:zlib'
import { blobFile } from '../../store/blobs/blobStore.ts'
import type { Film } from '../../store/films.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { filmCovers, keepFilmCover } from '../../store/printPlans.ts'
import { coverTiles, type MarksCover, marksCover } from '../../workflow/printPlanCover.ts'
import { openTileFile } from '../jobs/tileFile.ts'

type At = Readonly<{ at: Date }>

/** The cover of each of these films that is read, counted once a picture; by the film's id. */
export async function coversOf(
  { database, blobs }: Pick<OpenShop, 'database' | 'blobs'>,
  films: readonly Film[],
  { at }: At,
): Promise<ReadonlyMap<string, MarksCover>> {
  const known = await filmCovers(
    database,
    films.map(({ id }) => id),
  )
  const covers = new Map<string, MarksCover>()
  for (const film of films) {
    const { id, tilesBlob } = film
    if (tilesBlob === null) continue
    const kept = known.find(({ filmId, tilesSha256 }) => filmId === id && tilesSha256 === tilesBlob)
    const cover = kept ?? (await counted(film, (await blobFile(blobs, tilesBlob)).path))
    covers.set(id, cover)
    if (kept !== undefined) continue
    const { coverShare, edgeShare } = cover
    const found = { filmId: id, tilesSha256: tilesBlob, coverShare, edgeShare }
    await keepFilmCover(database, found, { at })
  }
  return covers
}

async function counted({ pixelUm }: Film, path: string): Promise<MarksCover> {
  const { store, close } = await openTileFile(path)
  try {
    const film = { ...store, pixelUm: pixelUm ?? 0 }
    const tiles = await Promise.all(
      coverTiles(film).map(async (place) => {
        const deflated = await store.tile(place)
        return { place, bytes: deflated === null ? null : inflateSync(deflated) }
      }),
    )
    return marksCover(film, tiles)
  } finally {
    await close()
  }
}

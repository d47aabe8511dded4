import { createReadStream } from 'node:fs'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import type { PhotoFilm } from '../../api/photos.ts'
import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { writeWhole } from '../../decode/files.ts'
import { withFilm } from '../../decode/openFilm.ts'
import { writeFloatTiff } from '../../formats/floatTiff.ts'
import { blobFile, storeBlob } from '../../store/blobs/blobStore.ts'
import { inTransaction } from '../../store/database/database.ts'
import { addFilm, type Film } from '../../store/films.ts'
import { sortableId } from '../../store/ids.ts'
import type { Photo } from '../../store/photos.ts'
import { withoutEnding } from '../http/fileBody.ts'
import { baseAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'

const MOST_BYTES = 512 * 2 ** 20

/**
 * What was read in a photo becomes a film like any other, turned over where somebody says that the
 * photo shows it mirrored.
 *
 * @throws Failure 'wrong input' while there is no reading; 'not found' for a base
 */
export async function filmOfPhoto(
  service: ShopService,
  photo: Photo,
  { name, mirrored, base }: PhotoFilm,
): Promise<Film> {
  const { store, jobs, now } = service
  if (photo.subject !== 'film' || photo.mapBlob === null) {
    const message =
      'No film has been read in this photo yet: say where its sheet lies, and read it.'
    throw new Failure('wrong input', message)
  }
  const records = await service.records()
  const baseId = base === undefined ? records.usualBase.id : baseAsked(records, base).id
  const mapBlob = mirrored ? await turnedOver(service, photo.mapBlob) : photo.mapBlob
  const setup = await service.usualSetup({ baseId })
  const film = await inTransaction(store.database, async (inner) => {
    const taken = await addFilm(
      inner,
      {
        kind: 'read',
        name: name ?? withoutEnding(photo.name),
        fileName: photo.name,
        originalBlob: photo.originalBlob,
        mapBlob,
        baseId,
      },
      { at: now() },
    )
    await jobs.queue(inner, { filmId: taken.id, setup })
    return taken
  })
  service.changed()
  jobs.wake()
  return film
}

/** A density map with left and right swapped, a band at a time. */
async function turnedOver({ store, now }: ShopService, mapBlob: string): Promise<string> {
  const { path } = await blobFile(store.blobs, mapBlob)
  const scratch = join(store.folder.incoming, `${sortableId(now())}.turned`)
  try {
    await withFilm(path, {}, async ({ film }) => {
      const { widthPx, heightPx, pixelUm } = film
      async function* bands() {
        for await (const { rows, samples } of film.bands()) {
          const turned = Float32Array.from(samples)
          for (let row = 0; row < rows; row += 1) {
            turned.subarray(row * widthPx, (row + 1) * widthPx).reverse()
          }
          yield { rows, samples: turned }
        }
      }
      await writeWhole(scratch, { force: true }, (sink) =>
        writeFloatTiff(
          { widthPx, heightPx, pixelUm, bands: bands() },
          { sink, deflater: deflater() },
        ),
      )
    })
    const bytes = createReadStream(scratch, { highWaterMark: 2 ** 20 }) as AsyncIterable<Uint8Array>
    const wanted = { mediaType: 'image/tiff', limitBytes: MOST_BYTES }
    return (await storeBlob(store.blobs, bytes, wanted, { at: now() })).sha256
  } finally {
    await rm(scratch, { force: true })
  }
}

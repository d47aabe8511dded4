import type { UploadQuestion } from '../../api/films.ts'
import { density } from '../../core/units/quantity.ts'
import { storeBlob } from '../../store/blobs/blobStore.ts'
import { inTransaction } from '../../store/database/database.ts'
import { addFilm, type Film } from '../../store/films.ts'
import { fileBody, fileNameOf, withoutEnding } from '../http/fileBody.ts'
import { baseAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'

export const MOST_UPLOAD_BYTES: number = 512 * 2 ** 20

/**
 * Takes in a film: its file streamed to the disk, its record and its reading written together. Once
 * this has answered the film is in the shop whatever happens.
 *
 * @throws Failure 'too large'; 'wrong input' for a file that broke off; 'not found' for a base
 */
export async function takeInFilm(
  service: ShopService,
  request: Request,
  question: UploadQuestion,
): Promise<Film> {
  const { store, jobs, now } = service
  jobs.expect()
  const records = await service.records()
  const { base, resolutionDpi = null, solidDensity = null, as: readAs = null } = question
  const baseId = base === undefined ? records.usualBase.id : baseAsked(records, base).id
  const fileName = fileNameOf(request, { unnamed: 'film' })
  const blob = await storeBlob(
    store.blobs,
    fileBody(request, { mostBytes: MOST_UPLOAD_BYTES }),
    { mediaType: 'application/octet-stream', limitBytes: MOST_UPLOAD_BYTES },
    { at: now() },
  )
  const setup = await service.usualSetup({ baseId })
  const film = await inTransaction(store.database, async (inner) => {
    const taken = await addFilm(
      inner,
      {
        kind: 'read',
        name: withoutEnding(fileName),
        fileName,
        originalBlob: blob.sha256,
        baseId,
        resolutionDpi,
        readAs,
        solidDensity: solidDensity === null ? null : density(solidDensity),
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

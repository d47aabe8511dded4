import type { PhotoQuestion } from '../../api/photos.ts'
import { Failure } from '../../core/failure.ts'
import { PHOTO_LIMITS } from '../../decode/photoLimits.ts'
import { storeBlob } from '../../store/blobs/blobStore.ts'
import { filmOf } from '../../store/films.ts'
import { addPhoto, type Photo } from '../../store/photos.ts'
import { fileBody, fileNameOf } from '../http/fileBody.ts'
import type { ShopService } from '../shop/shopService.ts'

/**
 * Takes in a photo: its file streamed to the disk, then its record. It is looked at once.
 *
 * @throws Failure 'too large'; 'wrong input' for a file that broke off; 'not found' for a film
 */
export async function takeInPhoto(
  { store, photos, now }: ShopService,
  request: Request,
  { subject, film }: PhotoQuestion,
): Promise<Photo> {
  if (subject === 'screen' && film === undefined) {
    const message = 'A screen is checked against its film: say which film it was exposed with.'
    throw new Failure('wrong input', message, { field: 'film' })
  }
  const isTest = subject === 'wedge' || subject === 'strip' // somebody says first where it lies
  photos.prepare()
  const filmId = film === undefined ? null : (await filmOf(store.database, film)).id
  const { sha256 } = await storeBlob(
    store.blobs,
    fileBody(request, { mostBytes: PHOTO_LIMITS.bytes }),
    { mediaType: 'application/octet-stream', limitBytes: PHOTO_LIMITS.bytes },
    { at: now() },
  )
  const name = fileNameOf(request, { unnamed: 'photo' })
  const photo = await addPhoto(
    store.database,
    { subject, name, originalBlob: sha256, filmId, asked: isTest ? null : {} },
    { at: now() },
  )
  photos.care(photo)
  return photo
}

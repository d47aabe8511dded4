import { photoPicturePath } from '../../api/paths.ts'
import type {
  Inspection,
  PhotoAsk,
  PhotoReading,
  PhotoTest,
  Photo as PhotoTold,
} from '../../api/photos.ts'
import { isFailure } from '../../core/failure.ts'
import { type Film, filmOf } from '../../store/films.ts'
import type { Photo } from '../../store/photos.ts'
import type { Told } from '../http/route.ts'
import type { ShopService } from '../shop/shopService.ts'
import { nextWork } from './nextWork.ts'
import type { InspectionFound, ReadingFound } from './photoWork.ts'

/** A photo as the contract tells it; what is missing is begun by the way. */
export async function photoAnswer(
  { store, photos }: ShopService,
  photo: Photo,
): Promise<Told<PhotoTold>> {
  photos.care(photo)
  const { id, subject, name, filmId, widthPx, heightPx, previewBlob, refusal } = photo
  const film = filmId === null ? null : await filmOrNull(store.database, filmId)
  const progress = photos.progress(id)
  return {
    kind: 'photo',
    id,
    subject,
    name,
    film: film && { id: film.id, name: film.name },
    status: statusOf(photo),
    progressShare: progress?.share ?? 0,
    progressWords: progress?.words || null,
    message: refusal,
    widthPx,
    heightPx,
    preview: previewBlob === null ? null : photoPicturePath(id, 'preview.jpg'),
    asked: photo.asked as PhotoAsk | null,
    reading: readingOf(photo),
    inspection: inspectionOf(photo),
    test: subject === 'wedge' || subject === 'strip' ? (photo.answer as PhotoTest | null) : null,
  }
}

/** What was read, with the address of its picture: another answer has another. */
function readingOf({ id, subject, answer, pictureBlob }: Photo): Told<PhotoReading> | null {
  if (subject !== 'film' || answer === null) return null
  const found = answer as unknown as ReadingFound
  // photos read by an older version were not asked what their marks look like
  const looksLike = found.looksLike ?? null
  return { ...found, looksLike, picture: pictureAt(id, 'straightened.png', pictureBlob) }
}

/** What was compared, the same way. */
function inspectionOf(photo: Photo): Told<Inspection> | null {
  const { id, subject, answer, pictureBlob, mapBlob, listBlob } = photo
  if (subject !== 'screen' || answer === null) return null
  const found = answer as unknown as InspectionFound
  return {
    ...found,
    screenPicture: pictureAt(id, 'straightened.png', pictureBlob),
    filmPicture: pictureAt(id, 'film.png', mapBlob),
    spottingList: listBlob === null ? null : pictureAt(id, 'spotting-list.pdf', listBlob),
  }
}

function pictureAt(
  id: string,
  which: Parameters<typeof photoPicturePath>[1],
  blob: string | null,
): string {
  return `${photoPicturePath(id, which)}?${(blob ?? '').slice(0, 8)}`
}

function statusOf(photo: Photo): PhotoTold['status'] {
  if (photo.previewBlob === null) return photo.refusal === null ? 'waiting' : 'failed'
  if (photo.answer !== null) return 'done'
  return nextWork(photo) === null ? 'seen' : 'reading'
}

async function filmOrNull(
  database: Parameters<typeof filmOf>[0],
  id: string,
): Promise<Film | null> {
  return filmOf(database, id).catch((cause: unknown) => {
    if (isFailure(cause, 'not found')) return null
    throw cause
  })
}

import { Failure, isFailure } from '../../core/failure.ts'
import { named } from '../../decode/named.ts'
import { writePhotoPreview } from '../../decode/photoPreview.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'

/**
 * Does one work on a photo.
 *
 * @throws Failure in one sentence that speaks of the photo by its owner's name for it
 */
export async function doPhotoWork(
  work: PhotoWork,
  { onProgress }: WorkSays<never>,
): Promise<PhotoResult> {
  const { path, name } = work.photo
  try {
    onProgress(0.05, 'looking at the photo')
    return { kind: 'look', ...(await writePhotoPreview(path, work.previewPath)) }
  } catch (cause) {
    if (!isFailure(cause)) throw cause
    const { kind, message } = cause
    throw new Failure(kind, message.replaceAll(named(path), named(name)), { cause })
  }
}

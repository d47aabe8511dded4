import { Failure, isFailure } from '../../core/failure.ts'
import { named } from '../../decode/named.ts'
import { writePhotoPreview } from '../../decode/photoPreview.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import { inspectIn } from './inspectIn.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'
import { readIn } from './readIn.ts'
import { testIn } from './testIn.ts'

/**
 * Does one work on a photo.
 *
 * @throws Failure in one sentence that speaks of the photo by its owner's name for it
 */
export async function doPhotoWork(
  work: PhotoWork,
  { onProgress }: WorkSays<never>,
): Promise<PhotoResult> {
  try {
    switch (work.kind) {
      case 'look':
        onProgress(0.05, 'looking at the photo')
        return { kind: 'look', ...(await writePhotoPreview(work.photo.path, work.previewPath)) }
      case 'read':
        return await readIn(work, onProgress)
      case 'inspect':
        return await inspectIn(work, onProgress)
      case 'test':
        return await testIn(work, onProgress)
    }
  } catch (cause) {
    if (!isFailure(cause)) throw cause
    const { path, name } = work.photo
    const message = spoken(cause.message.replaceAll(named(path), named(name)))
    throw new Failure(cause.kind, message, { cause })
  }
}

/** A command's options are what a page asks for in its own way. */
function spoken(message: string): string {
  return message
    .replace('give the sheet’s corners with --corners and its size with --size-mm', SHOWN)
    .replace(/ with --[\w-]+(, like [\w.]+)?/g, ' on the page')
}

const SHOWN = 'show on the page where the sheet lies, and write how large it is'

import { Failure, isFailure } from '../../core/failure.ts'
import { named } from '../../decode/named.ts'
import { writePhotoPreview } from '../../decode/photoPreview.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'

/**
 * Does one work on a photo. What only some works need is loaded with them: the picture comes first.
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
      case 'read': {
        const { readIn } = await import('./readIn.ts')
        return await readIn(work, onProgress)
      }
      case 'inspect': {
        const { inspectIn } = await import('./inspectIn.ts')
        return await inspectIn(work, onProgress)
      }
      case 'test': {
        const { testIn } = await import('./testIn.ts')
        return await testIn(work, onProgress)
      }
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

import { openPhoto, type Photo } from '../photo.ts'
import { targetFinder } from './findTargets.ts'
import type { SeenTarget } from './targetsThread.ts'

/**
 * Opens a photo and finds the targets in it. What finds them gets ready meanwhile.
 *
 * @throws Failure as `openPhoto`
 */
export async function photoOnMat(
  path: string,
): Promise<Readonly<{ photo: Photo; targets: readonly SeenTarget[] }>> {
  const finder = targetFinder()
  try {
    const photo = await openPhoto(path)
    return { photo, targets: await finder.find(photo) }
  } finally {
    await finder.end()
  }
}

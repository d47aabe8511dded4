import type { OpenShop } from '../../store/openShop.ts'
import type { Photo } from '../../store/photos.ts'
import type { PhotoWork } from './photoWork.ts'

export type WorkPlace = Readonly<{
  shop: OpenShop
  /** Where the photo's file lies. */
  path: string
  /** What is written lies here, each with an ending of its own. */
  scratch: string
}>

/** What is to be done with a photo next; null when there is nothing. */
export function nextWork(photo: Photo): ((place: WorkPlace) => Promise<PhotoWork>) | null {
  const { previewBlob, refusal, name } = photo
  if (refusal !== null) return null
  if (previewBlob === null) {
    return async ({ path, scratch }) => ({
      kind: 'look',
      photo: { path, name },
      previewPath: `${scratch}.preview`,
    })
  }
  return null
}

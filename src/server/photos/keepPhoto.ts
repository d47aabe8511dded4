import { createReadStream } from 'node:fs'
import { storeBlob } from '../../store/blobs/blobStore.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { changePhoto, type Photo } from '../../store/photos.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'

/** A density map of 60 million pixels is the largest. */
const MOST_BYTES = 512 * 2 ** 20

/** Keeps what was found, with the files that go with it. */
export async function keepPhotoResult(
  { database, blobs }: Pick<OpenShop, 'database' | 'blobs'>,
  {
    photo,
    work,
    result,
    at,
  }: Readonly<{ photo: Photo; work: PhotoWork; result: PhotoResult; at: Date }>,
): Promise<void> {
  const kept = async (path: string, mediaType: string): Promise<string> => {
    const bytes = createReadStream(path, { highWaterMark: 2 ** 20 }) as AsyncIterable<Uint8Array>
    return (await storeBlob(blobs, bytes, { mediaType, limitBytes: MOST_BYTES }, { at })).sha256
  }
  if (work.kind === 'look' && result.kind === 'look') {
    const { widthPx, heightPx } = result
    const previewBlob = await kept(work.previewPath, 'image/jpeg')
    await changePhoto(database, photo.id, { widthPx, heightPx, previewBlob })
  }
  if (work.kind === 'read' && result.kind === 'read') {
    await changePhoto(database, photo.id, {
      answer: result.reading,
      pictureBlob: await kept(work.picturePath, 'image/png'),
      mapBlob: await kept(work.mapPath, 'image/tiff'),
    })
  }
  if (result.kind === 'test') await changePhoto(database, photo.id, { answer: result.told })
  if (work.kind === 'inspect' && result.kind === 'inspect') {
    await changePhoto(database, photo.id, {
      answer: result.inspection,
      pictureBlob: await kept(work.screenPath, 'image/png'),
      mapBlob: await kept(work.filmPath, 'image/png'),
      listBlob:
        result.inspection.findings.length === 0
          ? null
          : await kept(work.list.path, 'application/pdf'),
    })
  }
}

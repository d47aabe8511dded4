import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { isFailure } from '../../core/failure.ts'
import { blobFile } from '../../store/blobs/blobStore.ts'
import { sortableId } from '../../store/ids.ts'
import type { OpenShop } from '../../store/openShop.ts'
import { changePhoto, type Photo, photoOf } from '../../store/photos.ts'
import type { Crew, CrewLimits, Trade } from '../jobs/crew.ts'
import { keepPhotoResult } from './keepPhoto.ts'
import { nextWork } from './nextWork.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'

export const PHOTO_TRADE: Trade = {
  name: 'photo',
  process: 'dist/server/photos/photoProcess.js',
  brokeOff: 'take the photo again, or save it as JPEG',
  tookTooMuch: 'take the photo again with fewer pixels',
}

/** A photo is looked at while somebody waits in front of it. */
export const PHOTO_LIMITS: CrewLimits = {
  atOnce: 2,
  residentMb: 1024,
  silentSec: 60,
  wholeSec: 180,
}

export type PhotoProgress = Readonly<{ share: number; words: string }>

/** The work on photos. It is begun when somebody asks after the photo, so a restart loses nothing. */
export type PhotoJobs = Readonly<{
  /** A photo is on its way: whoever will look at it gets ready. */
  prepare: () => void
  /** Begins what is missing, unless it is under way or all hands are full. */
  care: (photo: Photo) => void
  /** Null while nobody works on it. */
  progress: (photoId: string) => PhotoProgress | null
  stop: (photoId: string) => Promise<void>
  end: () => Promise<void>
}>

type Running = { progress: PhotoProgress; stop: AbortController; ended: Promise<void> }

class Stopped extends Error {}

export function photoJobs(
  shop: OpenShop,
  {
    crew,
    now,
    onTrouble,
  }: Readonly<{
    crew: Crew<PhotoWork, never, PhotoResult>
    now: () => Date
    onTrouble: (cause: unknown) => void
  }>,
): PhotoJobs {
  const { database, blobs, folder } = shop
  const running = new Map<string, Running>()
  let ended = false

  const care = (photo: Photo): void => {
    if (ended || running.has(photo.id) || running.size >= crew.atOnce) return
    const wanted = nextWork(photo)
    if (wanted === null) return
    const own: Running = {
      progress: { share: 0, words: '' },
      stop: new AbortController(),
      ended: Promise.resolve(),
    }
    running.set(photo.id, own)
    own.ended = run(photo, own)
      .catch(onTrouble)
      .finally(() => running.delete(photo.id))
      .then(() => goOn(photo.id, own.stop.signal))
      .catch(onTrouble)
  }
  /** One work done, the next is begun at once. */
  const goOn = async (photoId: string, { aborted }: AbortSignal): Promise<void> => {
    if (aborted || ended) return
    const photo = await photoOf(database, photoId).catch((cause: unknown) => {
      if (isFailure(cause, 'not found')) return null
      throw cause
    })
    if (photo !== null) care(photo)
  }
  const run = async (photo: Photo, own: Running): Promise<void> => {
    const scratch = join(folder.incoming, sortableId(now()))
    try {
      const { path } = await blobFile(blobs, photo.originalBlob)
      const work = await nextWork(photo)?.({ shop, path, scratch, at: now() })
      if (work === undefined) return
      const result = await crew.work(work, {
        name: photo.name,
        onProgress: (share, words) => {
          own.progress = { share, words }
        },
        onPicture: () => undefined,
        signal: own.stop.signal,
      })
      if (!own.stop.signal.aborted) await keepPhotoResult(shop, { photo, work, result, at: now() })
    } catch (cause) {
      await gaveUp(photo, cause)
    } finally {
      await Promise.all(SCRATCH.map((ending) => rm(`${scratch}.${ending}`, { force: true })))
    }
  }
  const gaveUp = async (photo: Photo, cause: unknown): Promise<void> => {
    if (ended || cause instanceof Stopped || isFailure(cause, 'not found')) return
    if (!isFailure(cause)) onTrouble(cause)
    const refusal = isFailure(cause) ? cause.message : UNSAID
    await changePhoto(database, photo.id, { refusal }).catch((gone: unknown) => {
      if (!isFailure(gone, 'not found')) throw gone
    })
  }

  const stop = async (photoId: string): Promise<void> => {
    const own = running.get(photoId)
    own?.stop.abort(new Stopped())
    await own?.ended
  }
  return {
    prepare: crew.prepare,
    care,
    progress: (photoId) => running.get(photoId)?.progress ?? null,
    stop,
    end: async () => {
      ended = true
      await Promise.all([...running.keys()].map(stop))
      await crew.end()
    },
  }
}

/** What a work may write beside its place. */
const SCRATCH = ['preview', 'map', 'picture', 'list'] as const

const UNSAID = 'Reading this photo met a fault in Yellowroom: take it again, or save it as JPEG.'

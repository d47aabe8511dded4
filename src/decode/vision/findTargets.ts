import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import { reduced } from '../../raster/photo/reduced.ts'
import type { GreyPicture, SeenTarget } from './targetsThread.ts'

/** The compiled thread, from the sources and from what is compiled of them alike. */
const THREAD = fileURLToPath(
  new URL('../../../dist/decode/vision/targetsThread.js', import.meta.url),
)

/** Enough for a target of 12 mm on a sheet of A3 across a photo, and quick. */
const LONGER_SIDE_PX = 1800

/**
 * Square targets in a photo, by the general-purpose vision library in a thread of its own.
 *
 * @returns corners in photo pixels, the first pixel's middle at (0.5, 0.5)
 */
export async function findTargets(photo: PhotoLight): Promise<readonly SeenTarget[]> {
  const by = Math.max(1, Math.round(Math.max(photo.widthPx, photo.heightPx) / LONGER_SIDE_PX))
  const thread = new Worker(THREAD, { workerData: greyOf(by === 1 ? photo : reduced(photo, by)) })
  try {
    const [seen] = (await once(thread, 'message')) as [readonly SeenTarget[]]
    return seen.map(({ number, corners }) => ({
      number,
      corners: corners.map(({ x, y }) => ({ x: by * x, y: by * y })),
    }))
  } finally {
    await thread.terminate()
  }
}

/** Light as the eye steps through it: dim paper is told from the black on it. */
function greyOf({ widthPx, heightPx, values }: PhotoLight): GreyPicture {
  const grey = new Uint8Array(values.length)
  for (let at = 0; at < values.length; at += 1) grey[at] = 255 * Math.sqrt(values[at] ?? 0)
  return { widthPx, heightPx, grey }
}

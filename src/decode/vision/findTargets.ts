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

export type TargetFinder = Readonly<{
  /**
   * Square targets in a photo; once.
   *
   * @returns corners in photo pixels, the first pixel's middle at (0.5, 0.5)
   */
  find: (photo: PhotoLight) => Promise<readonly SeenTarget[]>
  /** Ends the thread, also where nothing was looked for. */
  end: () => Promise<void>
}>

/**
 * Begins to load the general-purpose vision library in a thread of its own: most of a second, in
 * which the photo itself can be opened.
 */
export function targetFinder(): TargetFinder {
  const thread = new Worker(THREAD)
  const answer = once(thread, 'message') as Promise<[readonly SeenTarget[]]>
  answer.catch(() => undefined) // told to whoever asks
  return {
    find: async (photo) => {
      const by = Math.max(1, Math.round(Math.max(photo.widthPx, photo.heightPx) / LONGER_SIDE_PX))
      thread.postMessage(greyOf(photo, by), [])
      const [seen] = await answer
      return seen.map(({ number, corners }) => ({
        number,
        corners: corners.map(({ x, y }) => ({ x: by * x, y: by * y })),
      }))
    },
    end: async () => {
      await thread.terminate()
    },
  }
}

/** Square targets in a photo that is open already. */
export async function findTargets(photo: PhotoLight): Promise<readonly SeenTarget[]> {
  const finder = targetFinder()
  try {
    return await finder.find(photo)
  } finally {
    await finder.end()
  }
}

/** Light as the eye steps through it: dim paper is told from the black on it. */
function greyOf(photo: PhotoLight, by: number): GreyPicture {
  if (photo.planes !== undefined && by > 1) {
    const [widthPx, heightPx] = [Math.floor(photo.widthPx / by), Math.floor(photo.heightPx / by)]
    return { widthPx, heightPx, grey: photo.planes.greys(by) }
  }
  const { widthPx, heightPx, values } = reduced(photo, by)
  const grey = new Uint8Array(values.length)
  for (let at = 0; at < values.length; at += 1) grey[at] = 255 * Math.sqrt(values[at] ?? 0)
  return { widthPx, heightPx, grey }
}

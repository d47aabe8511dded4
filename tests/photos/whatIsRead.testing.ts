import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { FilmTruth } from '../../fixtures/photos/photoOfFilm.ts'
import { isFailure } from '../../src/core/failure.ts'
import { openPhoto, type Photo } from '../../src/decode/photo.ts'
import {
  type PhotoReading,
  type ReadOptions,
  readPhoto,
} from '../../src/workflow/readPhoto/readPhoto.ts'
import { errorsOf } from './reading.testing.ts'

export const DENSITIES: readonly number[] = Array.from({ length: 21 }, (_, at) => 0.05 + 0.15 * at)

/** A photo by its bytes, opened as a command opens it. */
export async function opened(bytes: Buffer): Promise<Photo> {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-read-'))
  try {
    const path = join(folder, 'photo.jpg')
    await writeFile(path, bytes)
    return await openPhoto(path)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Read with corners all around the middle four fifths each way: in one process, no command started. */
export function inTheMiddle({ widthPx, heightPx }: Photo): ReadOptions {
  const corners = [
    [0.1, 0.1],
    [0.9, 0.1],
    [0.9, 0.9],
    [0.1, 0.9],
  ].map(([x = 0, y = 0]) => ({ x: x * widthPx, y: y * heightPx }))
  const sizeMm = { widthMm: 200, heightMm: (200 * heightPx) / widthPx }
  return { corners, sizeMm, wedge: { ends: null, densities: DENSITIES } }
}

export function byTruth({ corners, wedgeEnds, widthMm, heightMm }: FilmTruth): ReadOptions {
  const sizeMm = { widthMm, heightMm }
  return { corners, sizeMm, wedge: { ends: wedgeEnds, densities: DENSITIES } }
}

/** The sentence a photo is refused with; null where it is read. */
export function refusal(photo: Photo, options: ReadOptions): string | null {
  try {
    readPhoto(photo, options)
    return null
  } catch (cause) {
    if (isFailure(cause, 'wrong input')) return cause.message
    throw cause
  }
}

/** Share of what was read that is right to two of its own standard deviations. */
export function withinShare({ reading, map }: PhotoReading, truth: FilmTruth): number {
  const { widthPx, heightPx, values } = map
  return errorsOf({ answer: reading, densities: values, widthPx, heightPx }, truth).withinShare
}

import { stat } from 'node:fs/promises'
import type { Metadata, Sharp } from 'sharp'
import { Failure } from '../core/failure.ts'
import { named } from './named.ts'
import { PHOTO_LIMITS } from './photoLimits.ts'
import { sharp } from './pixelLibrary.ts'
import { unreadable, withSourceFile } from './sourceFile.ts'

/** A photo that may be decoded, turned upright, and its size so. */
export type PhotoFile = Readonly<{
  photo: Sharp
  head: Metadata
  widthPx: number
  heightPx: number
}>

/**
 * Looks at the head of a photo before a pixel is decoded.
 *
 * @throws Failure in one sentence for a file that is no photo, is damaged, or has too many pixels
 */
export async function withPhotoFile<Result>(
  path: string,
  use: (file: PhotoFile) => Promise<Result>,
): Promise<Result> {
  const size = await stat(path).then(
    (status) => status.size,
    () => 0, // told in its own sentence below
  )
  if (size > PHOTO_LIMITS.bytes) {
    throw tooLarge(
      path,
      `has ${Math.ceil(size / 2 ** 20)} MB and ${PHOTO_LIMITS.bytes / 2 ** 20} MB is the most`,
    )
  }
  return withSourceFile(path, async () => {
    const photo = sharp(path, {
      failOn: 'truncated',
      limitInputPixels: false,
      pages: 1,
    })
    const head = await photo.metadata().catch(damagedPhoto(path))
    const { width, height } = head.autoOrient
    if (width * height > PHOTO_LIMITS.pixels) {
      throw tooLarge(
        path,
        `has ${Math.round((width * height) / 1e6)} million pixels and ${PHOTO_LIMITS.pixels / 1e6} million is the most`,
      )
    }
    if (Math.min(width, height) < PHOTO_LIMITS.leastSidePx) {
      throw unreadable(
        path,
        `has only ${width} by ${height} pixels, too few to measure anything; take the photo itself, not a small copy`,
      )
    }
    return use({
      photo: photo.autoOrient(),
      head,
      widthPx: width,
      heightPx: height,
    })
  })
}

/** For a decoder that gave up on the way. */
export function damagedPhoto(path: string): (cause: unknown) => never {
  return (cause) => {
    throw unreadable(path, 'is damaged or broke off on its way; send or take it again', cause)
  }
}

function tooLarge(path: string, what: string): Failure {
  return new Failure('too large', `${named(path)} ${what}; take it with fewer pixels.`)
}

import { stat } from 'node:fs/promises'
import { Failure } from '../core/failure.ts'
import { named } from './named.ts'
import { sharp } from './pixelLibrary.ts'
import { unreadable, withSourceFile } from './sourceFile.ts'

/** What we take on of a photo. */
export const PHOTO_LIMITS: Readonly<Record<'bytes' | 'pixels' | 'leastSidePx', number>> = {
  bytes: 80 * 2 ** 20,
  pixels: 60e6,
  leastSidePx: 200,
}

/** Enough to set a corner to a third of a thousandth of the sheet, little enough to come at once. */
const PREVIEW_PX = 2000

export type PhotoPreview = Readonly<{ widthPx: number; heightPx: number }>

/**
 * Writes a photo upright and made small, as JPEG for the eye.
 *
 * @returns the size of the upright photo itself
 * @throws Failure in one sentence for a file that is no photo, is damaged, or has too many pixels
 */
export async function writePhotoPreview(path: string, out: string): Promise<PhotoPreview> {
  const { size } = await stat(path)
  if (size > PHOTO_LIMITS.bytes) {
    throw tooLarge(
      path,
      `has ${Math.ceil(size / 2 ** 20)} MB and ${PHOTO_LIMITS.bytes / 2 ** 20} MB is the most`,
    )
  }
  return withSourceFile(path, async () => {
    const photo = sharp(path, { failOn: 'truncated', limitInputPixels: false, pages: 1 })
    const head = await photo.metadata().catch(damaged(path))
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
    await photo
      .autoOrient()
      .resize({ width: PREVIEW_PX, height: PREVIEW_PX, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .jpeg({ quality: 82 })
      .toFile(out)
      .catch(damaged(path))
    return { widthPx: width, heightPx: height }
  })
}

function damaged(path: string): (cause: unknown) => never {
  return (cause) => {
    throw unreadable(path, 'is damaged or broke off on its way; send or take it again', cause)
  }
}

function tooLarge(path: string, what: string): Failure {
  return new Failure('too large', `${named(path)} ${what}; take it with fewer pixels.`)
}

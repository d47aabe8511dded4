import { damagedPhoto, withPhotoFile } from './photoFile.ts'

/** Enough to set a corner to a third of a thousandth of the sheet, little enough to come at once. */
const PREVIEW_PX = 2000

export type PhotoPreview = Readonly<{ widthPx: number; heightPx: number }>

/**
 * Writes a photo upright and made small, as JPEG for the eye.
 *
 * @returns the size of the upright photo itself
 * @throws Failure as `withPhotoFile`
 */
export async function writePhotoPreview(path: string, out: string): Promise<PhotoPreview> {
  return withPhotoFile(path, async ({ photo, widthPx, heightPx }) => {
    await photo
      .resize({
        width: PREVIEW_PX,
        height: PREVIEW_PX,
        fit: 'inside',
        withoutEnlargement: true,
      })
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .jpeg({ quality: 82 })
      .toFile(out)
      .catch(damagedPhoto(path))
    return { widthPx, heightPx }
  })
}

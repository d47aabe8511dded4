import type { Sharp } from 'sharp'
import type { PhotoLight } from '../raster/photo/photoLight.ts'
import { coloursOf, lightOf } from '../raster/photo/storedLight.ts'
import { damagedPhoto, withPhotoFile } from './photoFile.ts'

/** A photo upright, as light. */
export type Photo = PhotoLight &
  Readonly<{
    bitDepth: 8 | 16
    /** Whether the file says what its values mean; else they are taken for sRGB. */
    hasProfile: boolean
  }>

/**
 * Opens a photo or a scan: turned as its camera was held, by its own colour profile or by sRGB's
 * curve to linear light.
 *
 * @throws Failure as `withPhotoFile`
 */
export async function openPhoto(path: string): Promise<Photo> {
  return withPhotoFile(path, async ({ photo, head, widthPx, heightPx }) => {
    const bitDepth = head.depth === 'ushort' ? 16 : 8
    const { data, channels } = await samplesOf(photo, bitDepth).catch(damagedPhoto(path))
    const samples = { data, channels, widthPx, heightPx, bitDepth } as const
    const colours = coloursOf(samples)
    const planes = lightOf(samples)
    return {
      widthPx,
      heightPx,
      values: planes.light,
      planes,
      ...(colours === null ? {} : { colours }),
      bitDepth,
      hasProfile: head.hasProfile,
    }
  })
}

async function samplesOf(
  photo: Sharp,
  bitDepth: 8 | 16,
): Promise<Readonly<{ data: Uint8Array | Uint16Array; channels: number }>> {
  const { data, info } = await photo
    .flatten({ background: '#ffffff' })
    .toColourspace(bitDepth === 16 ? 'rgb16' : 'srgb')
    .raw({ depth: bitDepth === 16 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true })
  const wide = bitDepth === 16
  const samples = wide ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : data
  return { data: samples, channels: info.channels }
}

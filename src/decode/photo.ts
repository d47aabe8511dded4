import type { Sharp } from 'sharp'
import { LUMINANCE, linearLight } from '../core/inspection/linearLight.ts'
import { damagedPhoto, withPhotoFile } from './photoFile.ts'

/** A photo upright, as light. */
export type Photo = Readonly<{
  widthPx: number
  heightPx: number
  /** Linear light 0..1 row by row; exactly 1 where any colour is at its end, whatever the others. */
  values: Float32Array
  bitDepth: 8 | 16
  /** Whether the file says what its values mean; else they are taken for sRGB. */
  hasProfile: boolean
}>

/** 8-bit values from here up have no room above them: JPEG's blocks ring by a step or two. */
const FULL_FROM = { 8: 254, 16: 65_000 } as const

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
    const values = lightOf(data, {
      channels,
      pixels: widthPx * heightPx,
      bitDepth,
    })
    return { widthPx, heightPx, values, bitDepth, hasProfile: head.hasProfile }
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

function lightOf(
  data: Uint8Array | Uint16Array,
  { channels, pixels, bitDepth }: Readonly<{ channels: number; pixels: number; bitDepth: 8 | 16 }>,
): Float32Array {
  const most = bitDepth === 16 ? 65_535 : 255
  const full = FULL_FROM[bitDepth]
  const light = Float32Array.from({ length: most + 1 }, (_, at) => linearLight(at / most))
  const values = new Float32Array(pixels)
  const [green, blue] = channels >= 3 ? [1, 2] : [0, 0]
  for (let at = 0, from = 0; at < pixels; at += 1, from += channels) {
    const r = data[from] ?? 0
    const g = data[from + green] ?? 0
    const b = data[from + blue] ?? 0
    values[at] =
      r >= full || g >= full || b >= full
        ? 1
        : LUMINANCE.red * (light[r] ?? 0) +
          LUMINANCE.green * (light[g] ?? 0) +
          LUMINANCE.blue * (light[b] ?? 0)
  }
  return values
}

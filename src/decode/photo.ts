import type { Sharp } from 'sharp'
import { LUMINANCE, linearLight } from '../core/inspection/linearLight.ts'
import type { Colours } from '../raster/photo/photoLight.ts'
import { damagedPhoto, withPhotoFile } from './photoFile.ts'

/** A photo upright, as light. */
export type Photo = Readonly<{
  widthPx: number
  heightPx: number
  /** Linear light 0..1 row by row; exactly 1 where any colour is at its end, whatever the others. */
  values: Float32Array
  colours?: Colours
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
    const samples = { data, channels, widthPx, heightPx, bitDepth } as const
    const colours = coloursOf(samples)
    return {
      widthPx,
      heightPx,
      values: lightOf(samples),
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

/** Values of a file, whose channels lie side by side in each pixel. */
type Samples = Readonly<{
  data: Uint8Array | Uint16Array
  channels: number
  widthPx: number
  heightPx: number
  bitDepth: 8 | 16
}>

/** Above any sum of the others: light at its end. */
const AT_END = 2

function lightOf({ data, channels, widthPx, heightPx, bitDepth }: Samples): Float32Array {
  const [red, green, blue] = channels >= 3 ? COLOURED.map((part) => table(bitDepth, part)) : []
  const grey = table(bitDepth, 1)
  const values = new Float32Array(widthPx * heightPx)
  if (red === undefined || green === undefined || blue === undefined) {
    for (let at = 0, from = 0; at < values.length; at += 1, from += channels) {
      values[at] = Math.min(1, grey[data[from] ?? 0] ?? 0)
    }
    return values
  }
  for (let at = 0, from = 0; at < values.length; at += 1, from += channels) {
    const light =
      (red[data[from] ?? 0] ?? 0) +
      (green[data[from + 1] ?? 0] ?? 0) +
      (blue[data[from + 2] ?? 0] ?? 0)
    values[at] = light < 1 ? light : 1
  }
  return values
}

const COLOURED = [LUMINANCE.red, LUMINANCE.green, LUMINANCE.blue] as const

/** A part of the light of each stored value. */
function table(bitDepth: 8 | 16, part: number): Float32Array {
  const most = bitDepth === 16 ? 65_535 : 255
  return Float32Array.from({ length: most + 1 }, (_, at) =>
    at >= FULL_FROM[bitDepth] ? AT_END : part * linearLight(at / most),
  )
}

/** Cells along the longer side, and places looked at along a cell's side. */
const CELLS = 100
const LOOKS = 4
/** Under this light a colour is grain and rounding. */
const LEAST_LIGHT = 0.01

/** null for a grey file. */
function coloursOf({ data, channels, widthPx, heightPx, bitDepth }: Samples): Colours | null {
  if (channels < 3) return null
  const light = table(bitDepth, 1)
  const cellPx = Math.ceil(Math.max(widthPx, heightPx) / CELLS)
  const [across, down] = [Math.ceil(widthPx / cellPx), Math.ceil(heightPx / cellPx)]
  const hues = new Float32Array(2 * across * down)
  for (let cell = 0; cell < across * down; cell += 1) {
    const [left, top] = [(cell % across) * cellPx, Math.floor(cell / across) * cellPx]
    const sums = [0, 0, 0]
    for (let look = 0; look < LOOKS ** 2; look += 1) {
      const x = left + Math.floor((((look % LOOKS) + 0.5) * cellPx) / LOOKS)
      const y = top + Math.floor(((Math.floor(look / LOOKS) + 0.5) * cellPx) / LOOKS)
      const from = channels * (Math.min(heightPx - 1, y) * widthPx + Math.min(widthPx - 1, x))
      for (const part of [0, 1, 2]) {
        sums[part] = (sums[part] ?? 0) + (light[data[from + part] ?? 0] ?? 0) / LOOKS ** 2
      }
    }
    const [red = 0, green = 0, blue = 0] = sums
    const told = Math.max(red, green, blue) < 1 && Math.min(red, green, blue) > 0
    const bright = told && LUMINANCE.red * red + LUMINANCE.green * green > LEAST_LIGHT
    hues[2 * cell] = bright ? Math.log10(red / green) : Number.NaN
    hues[2 * cell + 1] = bright ? Math.log10(blue / green) : Number.NaN
  }
  return { cellPx, across, down, hues }
}

import { expectIn } from '../core/units/range.ts'
import { type Overwriting, writeWhole } from './files.ts'
import { sharp } from './pixelLibrary.ts'
import { drawSvg } from './svg.ts'

export type Picture = Readonly<{
  /** Rows of red, green and blue. */
  rgb: Uint8Array
  widthPx: number
  heightPx: number
  /** Its true size, written into the file. */
  pixelsPerMm: number
  /** Drawn over the pixels, as wide as they are. */
  overlaySvg: string
}>

const MM_PER_INCH = 25.4

/**
 * Writes a picture for people as a PNG: pixels with a drawing over them.
 *
 * @throws RangeError where the pixels do not fill the sides; Failure as `writeWhole`
 */
export async function writePicture(
  path: string,
  picture: Picture,
  overwriting: Overwriting,
): Promise<void> {
  const { rgb, widthPx, heightPx, pixelsPerMm, overlaySvg } = picture
  expectIn(pixelsPerMm, { name: 'pixelsPerMm', low: 0.001, high: 1000, unit: 'px/mm' })
  if (rgb.length !== 3 * widthPx * heightPx) {
    throw new RangeError(`rgb: expected ${3 * widthPx * heightPx} bytes, got ${rgb.length}`)
  }
  const drawing = await drawSvg(overlaySvg, { widthPx })
  if (drawing.height !== heightPx) {
    throw new RangeError(`overlaySvg: expected ${heightPx} px high, got ${drawing.height}`)
  }
  const png = await sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .composite([
      {
        input: Buffer.from(drawing.data.buffer),
        raw: { width: drawing.width, height: drawing.height, channels: 4 },
      },
    ])
    .removeAlpha()
    .withDensity(pixelsPerMm * MM_PER_INCH)
    .png({ compressionLevel: 6 })
    .toBuffer()
  await writeWhole(path, overwriting, (sink) => sink.write(png))
}

/** A picture of ours back as plain pixels. */
export async function rgbOfPng(
  bytes: Uint8Array,
): Promise<Pick<Picture, 'rgb' | 'widthPx' | 'heightPx'>> {
  const { data, info } = await sharp(bytes)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { rgb: data, widthPx: info.width, heightPx: info.height }
}

/** Plain pixels as the bytes of a PNG. @throws RangeError where they do not fill the sides */
export async function pngOf({
  rgb,
  widthPx,
  heightPx,
}: Pick<Picture, 'rgb' | 'widthPx' | 'heightPx'>): Promise<Uint8Array<ArrayBuffer>> {
  if (rgb.length !== 3 * widthPx * heightPx) {
    throw new RangeError(`rgb: expected ${3 * widthPx * heightPx} bytes, got ${rgb.length}`)
  }
  const raw = { width: widthPx, height: heightPx, channels: 3 } as const
  return new Uint8Array(await sharp(rgb, { raw }).png({ compressionLevel: 6 }).toBuffer())
}

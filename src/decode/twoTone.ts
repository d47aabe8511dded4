import { sharp } from './pixelLibrary.ts'

type Colour = readonly [red: number, green: number, blue: number]

export type TwoTone = Readonly<{
  path: string
  /** The colours of 0 and of 1, sRGB 0 … 255; what lies between is mixed. */
  from: Colour
  to: Colour
  /** The longer side of the picture is no longer than this. */
  mostPx: number
}>

/** Writes shares 0 … 1, row by row, as a picture for the eye: PNG in two colours. */
export async function writeTwoTone(
  {
    widthPx,
    heightPx,
    values,
  }: Readonly<{ widthPx: number; heightPx: number; values: Float32Array }>,
  { path, from, to, mostPx }: TwoTone,
): Promise<void> {
  const steps = new Uint8Array(values.length)
  for (const [at, value] of values.entries()) {
    steps[at] = Math.round(255 * Math.min(1, Math.max(0, value)))
  }
  const small = await sharp(steps, { raw: { width: widthPx, height: heightPx, channels: 1 } })
    .resize({ width: mostPx, height: mostPx, fit: 'inside', withoutEnlargement: true })
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true })
  const rgb = new Uint8Array(3 * small.data.length)
  for (const [at, step] of small.data.entries()) {
    for (let channel = 0; channel < 3; channel += 1) {
      const [low, high] = [from[channel] ?? 0, to[channel] ?? 0]
      rgb[3 * at + channel] = low + ((high - low) * step) / 255
    }
  }
  const { width, height } = small.info
  await sharp(rgb, { raw: { width, height, channels: 3 } })
    .png({ compressionLevel: 5 })
    .toFile(path)
}

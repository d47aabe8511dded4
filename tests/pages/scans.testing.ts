import { createRequire } from 'node:module'
import sharp from 'sharp'
import { drawBar, seeded } from '../../src/raster/testFilms.testing.ts'

/** The package comes without types. */
type Pngjs = Readonly<{
  PNG: (new (
    size: Readonly<{ width: number; height: number }>,
  ) => Readonly<{ data: Buffer }>) &
    Readonly<{
      sync: Readonly<{ write: (png: object, as: Readonly<{ colorType: number }>) => Buffer }>
    }>
}>
const { PNG } = createRequire(import.meta.url)('pngjs') as Pngjs

/** A film to bring: densities by rows, and how many pixels an inch. */
export type Scan = Readonly<{ densities: Float32Array; widthPx: number; resolutionDpi: number }>

/** Ink strokes over faint thin lines: 114 by 81 mm at 200 dpi. */
export function inkOverPencil(): Scan {
  const [widthPx, heightPx] = [900, 640]
  const densities = new Float32Array(widthPx * heightPx)
  const next = seeded(12)
  for (let bar = 0; bar < 40; bar += 1) {
    const pale = bar >= 30
    drawBar(densities, widthPx, {
      x: 100 + next() * 700,
      y: 100 + next() * 440,
      turn: next() * Math.PI,
      length: 100 + next() * 160,
      width: pale ? 3 : 5 + next() * 12,
      density: pale ? 0.42 + 0.05 * next() : bar < 4 ? 0.85 : 1.9,
    })
  }
  return { densities, widthPx, resolutionDpi: 200 }
}

/** As a scanner shows it, in 8-bit grey; the encoder says nothing of the resolution. */
export function scanPng({ densities, widthPx }: Scan): Buffer {
  const png = new PNG({ width: widthPx, height: densities.length / widthPx })
  for (const [at, density] of densities.entries()) {
    png.data.fill(Math.round(255 * 10 ** -density), 4 * at, 4 * at + 3)
    png.data[4 * at + 3] = 255
  }
  return PNG.sync.write(png, { colorType: 0 })
}

/** As a density map: 32-bit floats in a TIFF. */
export async function densityMap({ densities, widthPx }: Scan): Promise<Buffer> {
  const { writeArrayBuffer } = await import('geotiff') // it starts threads as soon as it is there
  const written = writeArrayBuffer(densities, {
    width: widthPx,
    height: densities.length / widthPx,
    BitsPerSample: [32],
    SampleFormat: [3],
  })
  return Buffer.from(written)
}

/** A5 at 600 dpi with grain all over its bars: takes seconds to read. */
export async function largeScan(): Promise<Uint8Array<ArrayBuffer>> {
  const [width, height] = [3508, 4961]
  const grey = Buffer.alloc(width * height)
  let state = 1702
  for (let at = 0; at < grey.length; at += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    grey[at] = Math.floor((at % width) / 200) % 3 === 0 ? 20 + (state >>> 25) : 255
  }
  const png = sharp(grey, { raw: { width, height, channels: 1 } })
    .toColourspace('b-w')
    .withMetadata({ density: 600 })
    .png({ compressionLevel: 1 })
  return new Uint8Array(await png.toBuffer())
}

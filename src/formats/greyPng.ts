import { expectIn } from '../core/units/range.ts'
import type { ByteSink, Deflater } from './bytes.ts'
import { crc32 } from './checksum.ts'

export type GreyPicture = Readonly<{
  widthPx: number
  heightPx: number
  /** Side of the square pixels; the file keeps whole pixels per metre. */
  pixelUm: number
  /** Whole rows from top to bottom, 0 black … 255 white. */
  bands: AsyncIterable<GreyBand> | Iterable<GreyBand>
}>

export type GreyBand = Readonly<{ rows: number; samples: Uint8Array }>

const MOST_SIDE = 2 ** 31 - 1
const UM_PER_METRE = 1e6

/**
 * Writes an 8-bit grey PNG as its rows come, keeping no more than a band.
 *
 * Rows go unfiltered: class pictures have few values in long runs, which deflate finds by itself,
 * and filtering them costs time and makes them larger.
 *
 * @throws RangeError where a side is no whole number from 1, or the rows do not fill the height
 * @source png3 (5.2 signature, 11.2.1 IHDR, 11.3.4.3 pHYs)
 */
export async function writeGreyPng(
  picture: GreyPicture,
  { sink, deflater }: Readonly<{ sink: ByteSink; deflater: Deflater }>,
): Promise<void> {
  const { widthPx, heightPx, pixelUm, bands } = picture
  expectIn(widthPx, { name: 'widthPx', low: 1, high: MOST_SIDE, unit: 'px', whole: true })
  expectIn(heightPx, { name: 'heightPx', low: 1, high: MOST_SIDE, unit: 'px', whole: true })
  expectIn(pixelUm, { name: 'pixelUm', low: 0.001, high: 1e6, unit: 'um' })
  await sink.write(Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))
  await sink.write(chunk('IHDR', header(widthPx, heightPx)))
  await sink.write(chunk('pHYs', physical(Math.round(UM_PER_METRE / pixelUm))))
  const stream = deflater.stream()
  let rowsDone = 0
  for await (const band of bands) {
    rowsDone += band.rows
    if (rowsDone > heightPx || band.samples.length !== band.rows * widthPx) {
      throw new RangeError(`bands: rows ${rowsDone} of ${widthPx} px do not fit ${heightPx} rows`)
    }
    await writeData(sink, await stream.push(unfiltered(band, widthPx)))
  }
  if (rowsDone !== heightPx) {
    throw new RangeError(`bands: expected ${heightPx} rows, got ${rowsDone}`)
  }
  await writeData(sink, await stream.end())
  await sink.write(chunk('IEND', new Uint8Array(0)))
}

async function writeData(sink: ByteSink, parts: readonly Uint8Array[]): Promise<void> {
  for (const part of parts) if (part.length > 0) await sink.write(chunk('IDAT', part))
}

/** Each row behind its filter byte, 0: none. */
function unfiltered({ rows, samples }: GreyBand, widthPx: number): Uint8Array {
  const lines = new Uint8Array(rows * (widthPx + 1))
  for (let row = 0; row < rows; row++) {
    lines.set(samples.subarray(row * widthPx, (row + 1) * widthPx), row * (widthPx + 1) + 1)
  }
  return lines
}

function header(widthPx: number, heightPx: number): Uint8Array {
  const bytes = new Uint8Array(13)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, widthPx)
  view.setUint32(4, heightPx)
  bytes[8] = 8 // bits; colour type 0: grey; deflate, five filters, not interlaced
  return bytes
}

function physical(perMetre: number): Uint8Array {
  const bytes = new Uint8Array(9)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, perMetre)
  view.setUint32(4, perMetre)
  bytes[8] = 1 // the metre
  return bytes
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(data.length + 12)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, data.length)
  for (let at = 0; at < 4; at++) bytes[4 + at] = type.charCodeAt(at)
  bytes.set(data, 8)
  view.setUint32(data.length + 8, crc32(bytes.subarray(4, data.length + 8)))
  return bytes
}

import { expectIn } from '../core/units/range.ts'
import type { ByteSink, Deflater } from './bytes.ts'
import {
  CLASSIC_BYTES,
  resolutionFields,
  type TiffField,
  tiffDirectory,
  tiffHead,
} from './tiffParts.ts'

/** Transmission densities above the film base, row by row. */
export type DensityMap = Readonly<{
  widthPx: number
  heightPx: number
  /** Side of the square pixels. */
  pixelUm: number
  bands: AsyncIterable<DensityBand> | Iterable<DensityBand>
}>

export type DensityBand = Readonly<{ rows: number; samples: Float32Array }>

export type DensityMapOutput = Readonly<{
  sink: ByteSink
  /** Without one the strips stand as they are. */
  deflater?: Deflater
  /** 8-byte addresses; from 4 GB on there is no other way, and then it is so anyhow. */
  big?: boolean
}>

const STRIP_BYTES = 2 ** 20
/** Deflate can lengthen what it cannot shorten, by less than this share; addresses come on top. */
const LENGTHENED = 1.01

type Strips = { offsets: number[]; byteCounts: number[]; rowsEach: number }

/**
 * Writes a density map as a single-channel 32-bit float TIFF, keeping no more than a strip.
 *
 * Strips first, the directory last; the head's address of the directory is corrected at the end.
 * The resolution is a fraction that gives back `pixelUm` to 13 digits, per inch or per cm,
 * whichever is the shorter. Same map, same compressor: same bytes.
 *
 * @throws RangeError where a side is out of range, or the rows do not fill the height
 * @source tiff6, bigtiff
 * @limits hosts that keep the low byte first, as all that Node runs on but one do
 */
export async function writeFloatTiff(map: DensityMap, output: DensityMapOutput): Promise<void> {
  const { widthPx, heightPx, pixelUm } = map
  expectIn(widthPx, { name: 'widthPx', low: 1, high: 2 ** 31, unit: 'px', whole: true })
  expectIn(heightPx, { name: 'heightPx', low: 1, high: 2 ** 31, unit: 'px', whole: true })
  expectIn(pixelUm, { name: 'pixelUm', low: 0.001, high: 1e6, unit: 'um' })
  const big = output.big === true || widthPx * heightPx * 4 * LENGTHENED > CLASSIC_BYTES
  const head = tiffHead({ big }, { directoryAt: 0 })
  await output.sink.write(head)
  const { strips, end } = await writeStrips(map, { output, start: head.length })
  await output.sink.write(new Uint8Array(end % 2)) // a directory begins at an even address
  const directoryAt = end + (end % 2)
  await output.sink.write(tiffDirectory(fieldsOf(map, output, strips), { big, directoryAt }))
  await output.sink.rewrite(0, tiffHead({ big }, { directoryAt }))
}

async function writeStrips(
  { widthPx, heightPx, bands }: DensityMap,
  { output, start }: Readonly<{ output: DensityMapOutput; start: number }>,
): Promise<Readonly<{ strips: Strips; end: number }>> {
  const rowsEach = Math.min(heightPx, Math.max(1, Math.floor(STRIP_BYTES / (4 * widthPx))))
  const strips: Strips = { offsets: [], byteCounts: [], rowsEach }
  const strip = new Float32Array(rowsEach * widthPx)
  let end = start
  let filledRows = 0
  const flush = async (): Promise<void> => {
    const plain = new Uint8Array(strip.buffer, 0, 4 * filledRows * widthPx)
    const bytes = output.deflater === undefined ? plain : await output.deflater.whole(plain)
    await output.sink.write(bytes)
    strips.offsets.push(end)
    strips.byteCounts.push(bytes.length)
    end += bytes.length
    filledRows = 0
  }
  let rowsDone = 0
  for await (const { rows, samples } of bands) {
    if (rowsDone + rows > heightPx || samples.length !== rows * widthPx) {
      throw new RangeError(`bands: rows to ${rowsDone + rows} do not fit ${heightPx} rows`)
    }
    for (let row = 0; row < rows; row++) {
      strip.set(samples.subarray(row * widthPx, (row + 1) * widthPx), filledRows * widthPx)
      filledRows += 1
      if (filledRows === rowsEach) await flush()
    }
    rowsDone += rows
  }
  if (rowsDone !== heightPx) {
    throw new RangeError(`bands: expected ${heightPx} rows, got ${rowsDone}`)
  }
  if (filledRows > 0) await flush()
  return { strips, end }
}

function fieldsOf(map: DensityMap, output: DensityMapOutput, strips: Strips): readonly TiffField[] {
  return [
    { tag: 256, type: 'address', values: [map.widthPx] },
    { tag: 257, type: 'address', values: [map.heightPx] },
    { tag: 258, type: 'short', values: [32] }, // bits a sample
    { tag: 259, type: 'short', values: [output.deflater === undefined ? 1 : 8] },
    { tag: 262, type: 'short', values: [1] }, // 0 is black, as float maps are shown
    { tag: 273, type: 'address', values: strips.offsets },
    { tag: 277, type: 'short', values: [1] }, // samples a pixel
    { tag: 278, type: 'address', values: [strips.rowsEach] },
    { tag: 279, type: 'address', values: strips.byteCounts },
    ...resolutionFields(map),
    { tag: 339, type: 'short', values: [3] }, // floating point
  ]
}

import { expectIn } from '../core/units/range.ts'
import type { ByteSink, Deflater } from './bytes.ts'
import { rationalOf } from './rational.ts'

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
const CLASSIC_BYTES = 2 ** 32
/** Deflate can lengthen what it cannot shorten, by less than this share; addresses come on top. */
const LENGTHENED = 1.01

const UM_PER_INCH = 25400
const UM_PER_CM = 10000

type Strips = { offsets: number[]; byteCounts: number[]; rowsEach: number }
type Address = Readonly<{ big: boolean; bytes: 4 | 8 }>

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
  const address: Address = { big, bytes: big ? 8 : 4 }
  const head = headOf(address, 0)
  await output.sink.write(head)
  const { strips, end } = await writeStrips(map, { output, start: head.length })
  await output.sink.write(new Uint8Array(end % 2)) // a directory begins at an even address
  const directoryAt = end + (end % 2)
  await output.sink.write(directoryOf({ map, output, strips, address, directoryAt }))
  await output.sink.rewrite(0, headOf(address, directoryAt))
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

function headOf({ big }: Address, directoryAt: number): Uint8Array {
  const bytes = new Uint8Array(big ? 16 : 8)
  const view = new DataView(bytes.buffer)
  view.setUint16(0, 0x4949)
  view.setUint16(2, big ? 43 : 42, true)
  if (big) {
    view.setUint16(4, 8, true)
    view.setBigUint64(8, BigInt(directoryAt), true)
  } else {
    view.setUint32(4, directoryAt, true)
  }
  return bytes
}

type Field = Readonly<{ tag: number; type: 'short' | 'address' | 'rational'; values: number[] }>

function fieldsOf(map: DensityMap, output: DensityMapOutput, strips: Strips): readonly Field[] {
  const { per, unit } = resolutionOf(map.pixelUm)
  const resolution = [per.numerator, per.denominator]
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
    { tag: 282, type: 'rational', values: resolution },
    { tag: 283, type: 'rational', values: resolution },
    { tag: 296, type: 'short', values: [unit] },
    { tag: 339, type: 'short', values: [3] }, // floating point
  ]
}

/** Pixels per inch (unit 2) or per cm (unit 3). */
function resolutionOf(
  pixelUm: number,
): Readonly<{ per: ReturnType<typeof rationalOf>; unit: 2 | 3 }> {
  const perInch = rationalOf(UM_PER_INCH / pixelUm)
  const perCm = rationalOf(UM_PER_CM / pixelUm)
  return perCm.denominator < perInch.denominator
    ? { per: perCm, unit: 3 }
    : { per: perInch, unit: 2 }
}

function directoryOf({
  map,
  output,
  strips,
  address,
  directoryAt,
}: Readonly<{
  map: DensityMap
  output: DensityMapOutput
  strips: Strips
  address: Address
  directoryAt: number
}>): Uint8Array {
  const { big, bytes } = address
  const fields = fieldsOf(map, output, strips)
  const countBytes = big ? 8 : 2
  const entryBytes = 4 + 2 * bytes
  const tableBytes = countBytes + fields.length * entryBytes + bytes
  const widths = { short: 2, address: bytes, rational: 4 } as const
  const typeCodes = { short: 3, address: big ? 16 : 4, rational: 5 } as const
  const lengthOf = (field: Field): number => widths[field.type] * field.values.length
  const apart = fields.map(lengthOf).filter((length) => length > bytes)
  const whole = new Uint8Array(tableBytes + apart.reduce((sum, length) => sum + length, 0))
  const view = new DataView(whole.buffer)
  const put = (at: number, value: number, width: 2 | 4 | 8): void => {
    if (width === 2) view.setUint16(at, value, true)
    else if (width === 4) view.setUint32(at, value, true)
    else view.setBigUint64(at, BigInt(value), true)
  }
  put(0, fields.length, big ? 8 : 2)
  let apartAt = tableBytes
  fields.forEach((field, index) => {
    const at = countBytes + index * entryBytes
    const width = widths[field.type]
    const fits = lengthOf(field) <= bytes
    put(at, field.tag, 2)
    put(at + 2, typeCodes[field.type], 2)
    put(at + 4, field.type === 'rational' ? field.values.length / 2 : field.values.length, bytes)
    if (!fits) put(at + 4 + bytes, directoryAt + apartAt, bytes)
    const start = fits ? at + 4 + bytes : apartAt
    field.values.forEach((value, each) => put(start + each * width, value, width))
    if (!fits) apartAt += lengthOf(field)
  })
  return whole
}

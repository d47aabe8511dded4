import { type Rational, rationalOf } from './rational.ts'

/** One tag of a directory, with its numbers. */
export type TiffField = Readonly<{
  tag: number
  /** `address` has 4 bytes, in a BigTIFF 8. */
  type: 'short' | 'long' | 'address' | 'rational'
  /** A rational's are numerator and denominator. */
  values: readonly number[]
}>

/** Whether addresses have 4 or 8 bytes. */
export type TiffSize = Readonly<{ big: boolean }>

/** From here on a file needs 8-byte addresses. */
export const CLASSIC_BYTES: number = 2 ** 32

const UM_PER_INCH = 25400
const UM_PER_CM = 10000

/** The head of a file, low byte first; a BigTIFF's has 16 bytes, the other 8. */
export function tiffHead(
  { big }: TiffSize,
  { directoryAt }: Readonly<{ directoryAt: number }>,
): Uint8Array {
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

/**
 * X and Y resolution and their unit for square pixels: a fraction that gives back `pixelUm` to 13
 * digits, per inch or per cm, whichever is the shorter.
 */
export function resolutionFields({ pixelUm }: Readonly<{ pixelUm: number }>): readonly TiffField[] {
  const perInch = rationalOf(UM_PER_INCH / pixelUm)
  const perCm = rationalOf(UM_PER_CM / pixelUm)
  const inCm = perCm.denominator < perInch.denominator
  const { numerator, denominator }: Rational = inCm ? perCm : perInch
  return [
    { tag: 282, type: 'rational', values: [numerator, denominator] },
    { tag: 283, type: 'rational', values: [numerator, denominator] },
    { tag: 296, type: 'short', values: [inCm ? 3 : 2] },
  ]
}

/**
 * A directory, which says that no other follows, and behind it the values that do not fit into it.
 *
 * @param place where in the file the directory will stand, an even address
 * @source tiff6 (section 2), bigtiff
 */
export function tiffDirectory(
  unsorted: readonly TiffField[],
  { big, directoryAt }: Readonly<{ directoryAt: number }> & TiffSize,
): Uint8Array {
  const fields = [...unsorted].sort((one, other) => one.tag - other.tag)
  const addressBytes = big ? 8 : 4
  const countBytes = big ? 8 : 2
  const entryBytes = 4 + 2 * addressBytes
  const tableBytes = countBytes + fields.length * entryBytes + addressBytes
  const widths = { short: 2, long: 4, address: addressBytes, rational: 4 } as const
  const typeCodes = { short: 3, long: 4, address: big ? 16 : 4, rational: 5 } as const
  const lengthOf = (field: TiffField): number => widths[field.type] * field.values.length
  const apart = fields.map(lengthOf).filter((length) => length > addressBytes)
  const whole = new Uint8Array(tableBytes + apart.reduce((sum, length) => sum + length, 0))
  const view = new DataView(whole.buffer)
  const put = (at: number, value: number, width: 2 | 4 | 8): void => {
    if (width === 2) view.setUint16(at, value, true)
    else if (width === 4) view.setUint32(at, value, true)
    else view.setBigUint64(at, BigInt(value), true)
  }
  put(0, fields.length, countBytes)
  let apartAt = tableBytes
  fields.forEach((field, index) => {
    const at = countBytes + index * entryBytes
    const width = widths[field.type]
    const fits = lengthOf(field) <= addressBytes
    const values = field.type === 'rational' ? field.values.length / 2 : field.values.length
    put(at, field.tag, 2)
    put(at + 2, typeCodes[field.type], 2)
    put(at + 4, values, addressBytes)
    if (!fits) put(at + 4 + addressBytes, directoryAt + apartAt, addressBytes)
    const start = fits ? at + 4 + addressBytes : apartAt
    field.values.forEach((value, each) => put(start + each * width, value, width))
    if (!fits) apartAt += lengthOf(field)
  })
  return whole
}

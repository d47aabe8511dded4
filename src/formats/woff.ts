/** Inflates a table from the zlib format; handed in because this layer knows no platform. */
export type Inflate = (bytes: Uint8Array) => Uint8Array

const HEAD_BYTES = 44
const ENTRY_BYTES = 20

/**
 * The plain font file (TrueType or OpenType) inside a WOFF 1 file: its tables, inflated.
 *
 * @throws RangeError where the bytes are no WOFF 1 file
 * @source woff1 (sections 3 to 5)
 */
export function sfntFromWoff(woff: Uint8Array, inflate: Inflate): Uint8Array {
  const view = new DataView(woff.buffer, woff.byteOffset, woff.byteLength)
  if (woff.length < HEAD_BYTES || view.getUint32(0) !== 0x774f4646) {
    throw new RangeError('woff: expected a WOFF 1 file')
  }
  const count = view.getUint16(12)
  const sfnt = new Uint8Array(view.getUint32(16))
  const out = new DataView(sfnt.buffer)
  const power = Math.floor(Math.log2(count))
  out.setUint32(0, view.getUint32(4)) // the flavour
  out.setUint16(4, count)
  out.setUint16(6, 16 * 2 ** power) // three figures that help a binary search
  out.setUint16(8, power)
  out.setUint16(10, 16 * count - 16 * 2 ** power)
  let at = 12 + 16 * count
  for (let index = 0; index < count; index++) {
    const entry = HEAD_BYTES + index * ENTRY_BYTES
    const [offset, packedLength, length] = [4, 8, 12].map((of) => view.getUint32(entry + of))
    if (offset === undefined || packedLength === undefined || length === undefined) continue
    const packed = woff.subarray(offset, offset + packedLength)
    const table = packedLength < length ? inflate(packed) : packed
    if (table.length !== length) throw new RangeError(`woff: table ${index} has a wrong length`)
    out.setUint32(12 + 16 * index, view.getUint32(entry)) // tag
    out.setUint32(16 + 16 * index, view.getUint32(entry + 16)) // checksum
    out.setUint32(20 + 16 * index, at)
    out.setUint32(24 + 16 * index, length)
    sfnt.set(table, at)
    at += 4 * Math.ceil(length / 4)
  }
  return sfnt
}

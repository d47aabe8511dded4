import type { ByteSource } from './bytes.ts'

/** Numbers under their tags: the first directory of a TIFF, BigTIFF or EXIF block. */
export type Directory = ReadonlyMap<number, readonly number[]>

/** A damaged file can claim millions of values or entries: no tag we read has more than these. */
const MOST_VALUES = 64
const MOST_ENTRIES = 4096

type Reader = Readonly<{
  source: ByteSource
  /** Where the block begins: its offsets count from here. */
  base: number
  little: boolean
  big: boolean
}>

type Entry = Readonly<{ type: number; count: number; inline: DataView; address: number }>

/** Bytes of one value of each TIFF type number; the types without numbers are left out. */
const VALUE_BYTES: Readonly<Record<number, number>> = {
  1: 1,
  3: 2,
  4: 4,
  5: 8,
  6: 1,
  8: 2,
  9: 4,
  10: 8,
  11: 4,
  12: 8,
  13: 4,
  16: 8,
  17: 8,
  18: 8,
}

/**
 * The numbers of the asked tags in the first directory.
 *
 * @param base offset of the byte-order mark, 0 in a TIFF file
 * @returns null where there is no TIFF head or the directory lies outside the source; rationals
 *   come divided, one over zero as Infinity or NaN
 * @source tiff6 (section 2)
 */
export async function readDirectory(
  source: ByteSource,
  { tags, base = 0 }: Readonly<{ tags: readonly number[]; base?: number }>,
): Promise<Directory | null> {
  const head = viewOf(await source.read(base, 16))
  if (head.byteLength < 8) return null
  const mark = head.getUint16(0)
  if (mark !== 0x4949 && mark !== 0x4d4d) return null
  const little = mark === 0x4949
  const version = head.getUint16(2, little)
  if (version !== 42 && version !== 43) return null
  const big = version === 43
  if (big && head.byteLength < 16) return null
  const reader = { source, base, little, big }
  return readEntries(reader, {
    tags,
    at: big ? uint64(head, 8, little) : head.getUint32(4, little),
  })
}

async function readEntries(
  reader: Reader,
  { tags, at }: Readonly<{ tags: readonly number[]; at: number }>,
): Promise<Directory | null> {
  const { source, base, little, big } = reader
  const countBytes = big ? 8 : 2
  const entryBytes = big ? 20 : 12
  const head = viewOf(await source.read(base + at, countBytes))
  if (head.byteLength < countBytes) return null
  const count = big ? uint64(head, 0, little) : head.getUint16(0, little)
  if (count > MOST_ENTRIES) return null
  const table = viewOf(await source.read(base + at + countBytes, count * entryBytes))
  if (table.byteLength < count * entryBytes) return null
  const found = new Map<number, readonly number[]>()
  for (let start = 0; start < table.byteLength; start += entryBytes) {
    const tag = table.getUint16(start, little)
    if (!tags.includes(tag)) continue
    const inlineAt = start + (big ? 12 : 8)
    const values = await readValues(reader, {
      type: table.getUint16(start + 2, little),
      count: big ? uint64(table, start + 4, little) : table.getUint32(start + 4, little),
      inline: new DataView(table.buffer, table.byteOffset + inlineAt, big ? 8 : 4),
      address: big ? uint64(table, inlineAt, little) : table.getUint32(inlineAt, little),
    })
    if (values !== null) found.set(tag, values)
  }
  return found
}

async function readValues(reader: Reader, entry: Entry): Promise<readonly number[] | null> {
  const bytesEach = VALUE_BYTES[entry.type]
  if (bytesEach === undefined || entry.count < 1 || entry.count > MOST_VALUES) return null
  const length = bytesEach * entry.count
  const view =
    length <= entry.inline.byteLength
      ? entry.inline
      : viewOf(await reader.source.read(reader.base + entry.address, length))
  if (view.byteLength < length) return null
  return Array.from({ length: entry.count }, (_, index) =>
    valueAt(view, { at: index * bytesEach, type: entry.type, little: reader.little }),
  )
}

function valueAt(
  view: DataView,
  { at, type, little }: Readonly<{ at: number; type: number; little: boolean }>,
): number {
  switch (type) {
    case 1:
      return view.getUint8(at)
    case 3:
      return view.getUint16(at, little)
    case 4:
    case 13:
      return view.getUint32(at, little)
    case 5:
      return view.getUint32(at, little) / view.getUint32(at + 4, little)
    case 6:
      return view.getInt8(at)
    case 8:
      return view.getInt16(at, little)
    case 9:
      return view.getInt32(at, little)
    case 10:
      return view.getInt32(at, little) / view.getInt32(at + 4, little)
    case 11:
      return view.getFloat32(at, little)
    case 12:
      return view.getFloat64(at, little)
    case 17:
      return Number(view.getBigInt64(at, little))
    default:
      return uint64(view, at, little)
  }
}

function uint64(view: DataView, at: number, little: boolean): number {
  return Number(view.getBigUint64(at, little))
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
}

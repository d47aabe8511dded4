import { Failure } from '../core/failure.ts'
import { expectIn } from '../core/units/range.ts'
import type { ByteSink, ByteSource } from './bytes.ts'
import { crc32 } from './checksum.ts'

/**
 * One forecast's tiles in one file of bytes: a head, the tiles deflated one after another, an index
 * sorted by level, row, column, and a foot that says where the index begins. Written in one go,
 * front to back, so it may be hashed as it is written; any tile is read alone. All numbers little
 * endian.
 *
 *     head   8  "YRTILES" and the version
 *     tiles     zlib streams (RFC 1950)
 *     index 24  a tile: level, x, y (4 each), offset (6), length (4), two bytes 0
 *     foot  32  width, height in film pixels (4 each), tile side (4), tiles (4), index offset (8),
 *               CRC-32 of the index (4), of these 28 bytes (4)
 */
const MAGIC: readonly number[] = [...'YRTILES'].map((letter) => letter.charCodeAt(0))
const VERSION = 1
const HEAD_BYTES = 8
const ENTRY_BYTES = 24
const FOOT_BYTES = 32
const MOST_SIDE_PX = 2 ** 31 - 1
const MOST_TILES = 200_000
const MOST_TILE_BYTES = 2 ** 22
const TWO_32 = 2 ** 32

export type StoredPlace = Readonly<{ level: number; x: number; y: number }>
export type StoredSize = Readonly<{ widthPx: number; heightPx: number; tileSide: number }>

export type TileWriter = Readonly<{
  /** The next tile's bytes; they may be reused once the promise is kept. */
  put: (place: StoredPlace, bytes: Uint8Array) => Promise<void>
  /** The next tile, which somebody has compressed already. */
  putDeflated: (place: StoredPlace, deflated: Uint8Array) => Promise<void>
  /** Writes index and foot; returns the size of it all. */
  finish: () => Promise<number>
}>

/** Compresses whole blocks to the zlib format; handed in because this layer knows no platform. */
export type BlockDeflater = Readonly<{ whole: (bytes: Uint8Array) => Promise<Uint8Array> }>

/** Tiles that may be in the compressor at a time. */
const AT_ONCE = 6

/**
 * Writes tiles in the order they are put, several being compressed at a time: the same tiles give
 * the same bytes whatever the compressor's threads do.
 */
export async function tileWriter(
  { widthPx, heightPx, tileSide }: StoredSize,
  { sink, deflater }: Readonly<{ sink: Pick<ByteSink, 'write'>; deflater: BlockDeflater }>,
): Promise<TileWriter> {
  for (const [name, value] of Object.entries({ widthPx, heightPx, tileSide })) {
    expectIn(value, { name, low: 1, high: MOST_SIDE_PX, unit: 'px', whole: true })
  }
  const entries: (StoredPlace & { offset: number; length: number })[] = []
  const waiting: Promise<Uint8Array>[] = []
  const places: StoredPlace[] = []
  let offset = HEAD_BYTES
  await sink.write(Uint8Array.from([...MAGIC, VERSION]))

  const writeFirst = async (): Promise<void> => {
    const bytes = await waiting.shift()
    const place = places.shift()
    if (bytes === undefined || place === undefined) return
    entries.push({ ...place, offset, length: bytes.length })
    offset += bytes.length
    await sink.write(bytes)
  }

  const queue = async (place: StoredPlace, deflated: Promise<Uint8Array>): Promise<void> => {
    // a compressor that fails while others are awaited is told of when its turn comes
    deflated.catch(() => undefined)
    waiting.push(deflated)
    places.push(place)
    if (waiting.length >= AT_ONCE) await writeFirst()
  }

  return {
    put: (place, bytes) => queue(place, deflater.whole(bytes)),
    putDeflated: (place, deflated) => queue(place, Promise.resolve(deflated)),
    finish: async () => {
      while (waiting.length > 0) await writeFirst()
      const index = indexOf(entries)
      await sink.write(index)
      await sink.write(
        footOf({ widthPx, heightPx, tileSide }, { tiles: entries.length, offset, index }),
      )
      return offset + index.length + FOOT_BYTES
    },
  }
}

function inOrder(a: StoredPlace, b: StoredPlace): number {
  return a.level - b.level || a.y - b.y || a.x - b.x
}

function indexOf(
  entries: readonly (StoredPlace & { offset: number; length: number })[],
): Uint8Array {
  const bytes = new Uint8Array(ENTRY_BYTES * entries.length)
  const view = new DataView(bytes.buffer)
  for (const [at, { level, x, y, offset, length }] of [...entries].sort(inOrder).entries()) {
    const start = ENTRY_BYTES * at
    view.setUint32(start, level, true)
    view.setUint32(start + 4, x, true)
    view.setUint32(start + 8, y, true)
    view.setUint32(start + 12, offset % TWO_32, true)
    view.setUint16(start + 16, Math.floor(offset / TWO_32), true)
    view.setUint32(start + 18, length, true)
  }
  return bytes
}

function footOf(
  { widthPx, heightPx, tileSide }: StoredSize,
  { tiles, offset, index }: Readonly<{ tiles: number; offset: number; index: Uint8Array }>,
): Uint8Array {
  const bytes = new Uint8Array(FOOT_BYTES)
  const view = new DataView(bytes.buffer)
  const words = [
    widthPx,
    heightPx,
    tileSide,
    tiles,
    offset % TWO_32,
    Math.floor(offset / TWO_32),
    crc32(index),
  ]
  for (const [at, word] of words.entries()) view.setUint32(4 * at, word, true)
  view.setUint32(28, crc32(bytes.subarray(0, 28)), true)
  return bytes
}

export type TileStore = StoredSize &
  Readonly<{
    tiles: number
    /** Where it has tiles, by level, row and column. */
    places: () => readonly StoredPlace[]
    /** The tile's zlib stream; null where the film is clear. */
    tile: (place: StoredPlace) => Promise<Uint8Array | null>
  }>

/** @throws Failure 'unreadable file' unless it is a whole tile store of this version */
export async function openTileStore(source: ByteSource): Promise<TileStore> {
  const head = await source.read(0, HEAD_BYTES)
  if (head.length < HEAD_BYTES || MAGIC.some((byte, at) => head[at] !== byte))
    throw damaged('it is none')
  if (head[7] !== VERSION) throw damaged(`it is of version ${head[7] ?? 0}`)
  if (source.sizeBytes < HEAD_BYTES + FOOT_BYTES) throw damaged('its end is missing')
  const foot = await source.read(source.sizeBytes - FOOT_BYTES, FOOT_BYTES)
  const words = new DataView(foot.buffer, foot.byteOffset, foot.length)
  const word = (at: number): number => words.getUint32(4 * at, true)
  if (foot.length < FOOT_BYTES || word(7) !== crc32(foot.subarray(0, 28)))
    throw damaged('its end is missing')
  const [tiles, indexAt] = [word(3), word(4) + TWO_32 * word(5)]
  if (tiles > MOST_TILES || indexAt + ENTRY_BYTES * tiles + FOOT_BYTES !== source.sizeBytes) {
    throw damaged('its index does not fit')
  }
  const index = await source.read(indexAt, ENTRY_BYTES * tiles)
  if (crc32(index) !== word(6)) throw damaged('its index is damaged')
  const view = new DataView(index.buffer, index.byteOffset, index.length)
  const placeAt = (start: number): StoredPlace => ({
    level: view.getUint32(start, true),
    x: view.getUint32(start + 4, true),
    y: view.getUint32(start + 8, true),
  })
  const find = (place: StoredPlace): number => {
    let [low, high] = [0, tiles - 1]
    while (low <= high) {
      const middle = (low + high) >> 1
      const start = ENTRY_BYTES * middle
      const order = inOrder(placeAt(start), place)
      if (order === 0) return start
      if (order < 0) low = middle + 1
      else high = middle - 1
    }
    return -1
  }
  return {
    widthPx: word(0),
    heightPx: word(1),
    tileSide: word(2),
    tiles,
    places: () => Array.from({ length: tiles }, (_, at) => placeAt(ENTRY_BYTES * at)),
    tile: async (place) => {
      const start = find(place)
      if (start < 0) return null
      const offset = view.getUint32(start + 12, true) + TWO_32 * view.getUint16(start + 16, true)
      const length = view.getUint32(start + 18, true)
      if (length > MOST_TILE_BYTES || offset < HEAD_BYTES || offset + length > indexAt) {
        throw damaged('a tile lies outside it')
      }
      const bytes = await source.read(offset, length)
      if (bytes.length !== length) throw damaged('a tile is cut short')
      return bytes
    },
  }
}

function damaged(how: string): Failure {
  const message = `The stored picture of this film cannot be read (${how}); it can be computed again from the film.`
  return new Failure('unreadable file', message)
}

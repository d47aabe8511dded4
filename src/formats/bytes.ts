/** Bytes that can be read anywhere: a file's head is not always at its beginning. */
export type ByteSource = Readonly<{
  sizeBytes: number
  /** Up to `length` bytes from `offset`; fewer where the source ends. */
  read: (offset: number, length: number) => Promise<Uint8Array>
}>

/** Where bytes go, in order. A format that learns an address late corrects it afterwards. */
export type ByteSink = Readonly<{
  /** `bytes` may be reused once the promise is kept. */
  write: (bytes: Uint8Array) => Promise<void>
  /** Replaces bytes already written, from `offset` on. */
  rewrite: (offset: number, bytes: Uint8Array) => Promise<void>
}>

/** A compressor to the zlib format (RFC 1950), handed in because this layer knows no platform. */
export type Deflater = Readonly<{
  whole: (bytes: Uint8Array) => Promise<Uint8Array>
  stream: () => DeflateStream
}>

export type DeflateStream = Readonly<{
  /** What came out while this went in; `bytes` may be reused once the promise is kept. */
  push: (bytes: Uint8Array) => Promise<readonly Uint8Array[]>
  end: () => Promise<readonly Uint8Array[]>
}>

export function sourceOf(bytes: Uint8Array): ByteSource {
  return {
    sizeBytes: bytes.length,
    read: (offset, length) => Promise.resolve(bytes.subarray(offset, offset + length)),
  }
}

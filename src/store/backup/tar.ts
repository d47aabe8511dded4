const BLOCK = 512
const MOST_BYTES = 8 ** 11 - 1

/** Takes bytes and resolves when more may come. */
export type Sink = (bytes: Uint8Array) => Promise<void>

export type TarEntry = Readonly<{
  name: string
  sizeBytes: number
  /** To be read to its end, or left, before the next entry is asked for. */
  content: AsyncIterable<Uint8Array>
}>

/**
 * Writes one file of a tar.
 *
 * @param entry a name of up to 100 ASCII characters, a size up to 8 GiB, exactly that many bytes
 * @throws RangeError when the name, the size or the bytes are otherwise
 * @source ustar
 */
export async function writeEntry(
  sink: Sink,
  { name, sizeBytes, content }: TarEntry,
  { at }: Readonly<{ at: Date }>,
): Promise<void> {
  await sink(header({ name, sizeBytes, at }))
  let written = 0
  for await (const bytes of content) {
    written += bytes.byteLength
    if (written > sizeBytes) break
    await sink(bytes)
  }
  if (written !== sizeBytes) {
    throw new RangeError(`${name}: expected ${sizeBytes} bytes, got ${written}`)
  }
  await sink(new Uint8Array(padding(sizeBytes)))
}

/** Two empty blocks end a tar. */
export async function endTar(sink: Sink): Promise<void> {
  await sink(new Uint8Array(2 * BLOCK))
}

/**
 * The files of a tar, one after another.
 *
 * @throws RangeError where the bytes are no tar, or end before it does
 * @source ustar
 */
export async function* entriesOf(source: AsyncIterable<Uint8Array>): AsyncIterable<TarEntry> {
  const reader = new Reader(source)
  for (;;) {
    const block = await reader.take(BLOCK)
    if (block.every((byte) => byte === 0)) return
    const { name, sizeBytes } = parsed(block)
    let left = sizeBytes
    const content = (async function* () {
      while (left > 0) {
        const bytes = await reader.some(left)
        left -= bytes.byteLength
        yield bytes
      }
    })()
    yield { name, sizeBytes, content }
    for await (const _ of content) void _ // what the caller left
    await reader.take(padding(sizeBytes))
  }
}

/** Bytes as they come, handed out in the pieces that are asked for. */
class Reader {
  readonly #source: AsyncIterator<Uint8Array>
  #rest: Uint8Array = new Uint8Array(0)

  constructor(source: AsyncIterable<Uint8Array>) {
    this.#source = source[Symbol.asyncIterator]()
  }

  /** At least one byte and at most `most`. */
  async some(most: number): Promise<Uint8Array> {
    while (this.#rest.byteLength === 0) {
      const { done, value } = await this.#source.next()
      if (done === true) throw new RangeError('tar: expected more bytes, got its end')
      this.#rest = value
    }
    const bytes = this.#rest.subarray(0, most)
    this.#rest = this.#rest.subarray(bytes.byteLength)
    return bytes
  }

  async take(count: number): Promise<Uint8Array> {
    const bytes = new Uint8Array(count)
    let filled = 0
    while (filled < count) {
      const part = await this.some(count - filled)
      bytes.set(part, filled)
      filled += part.byteLength
    }
    return bytes
  }
}

const TEXT = new TextEncoder()
const CHECKSUM_AT = 148

function header({
  name,
  sizeBytes,
  at,
}: Readonly<{ name: string; sizeBytes: number; at: Date }>): Uint8Array {
  if (!/^[\x21-\x7e]{1,100}$/.test(name)) {
    throw new RangeError(`name: expected 1 to 100 plain characters, got '${name}'`)
  }
  const block = new Uint8Array(BLOCK)
  const put = (offset: number, text: string): void => block.set(TEXT.encode(text), offset)
  put(0, name)
  put(100, '0000644\0')
  put(108, '0000000\0')
  put(116, '0000000\0')
  put(124, `${octal(sizeBytes, 11)}\0`)
  put(136, `${octal(Math.floor(at.getTime() / 1000), 11)}\0`)
  put(156, '0')
  put(257, 'ustar\x0000')
  put(CHECKSUM_AT, `${octal(checksum(block), 6)}\0 `)
  return block
}

function parsed(block: Uint8Array): Readonly<{ name: string; sizeBytes: number }> {
  const text = (offset: number, length: number): string =>
    new TextDecoder('latin1').decode(block.subarray(offset, offset + length)).replace(/\0[^]*$/, '')
  const number = (offset: number, length: number): number => {
    const digits = text(offset, length).trim()
    return /^[0-7]+$/.test(digits) ? Number.parseInt(digits, 8) : Number.NaN
  }
  if (number(CHECKSUM_AT, 8) !== checksum(block)) {
    throw new RangeError('tar: expected a header with a right checksum, got another')
  }
  const sizeBytes = number(124, 12)
  if (!(sizeBytes >= 0 && sizeBytes <= MOST_BYTES)) {
    throw new RangeError(`tar: expected a size up to ${MOST_BYTES}, got ${sizeBytes}`)
  }
  return { name: text(0, 100), sizeBytes }
}

/** The sum of the header's bytes, its own place counted as blanks. */
function checksum(block: Uint8Array): number {
  const inPlace = (at: number): boolean => at >= CHECKSUM_AT && at < CHECKSUM_AT + 8
  return block.reduce((sum, byte, at) => sum + (inPlace(at) ? 32 : byte), 0)
}

function octal(value: number, digits: number): string {
  if (!(Number.isInteger(value) && value >= 0 && value < 8 ** digits)) {
    throw new RangeError(`tar: expected a whole number below 8^${digits}, got ${value}`)
  }
  return value.toString(8).padStart(digits, '0')
}

function padding(sizeBytes: number): number {
  return (BLOCK - (sizeBytes % BLOCK)) % BLOCK
}

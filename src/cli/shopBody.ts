import { Failure } from '../core/failure.ts'
import type { ByteSink } from '../formats/bytes.ts'

/**
 * Writes what the shop sends, as it comes.
 *
 * @returns how many bytes it was
 * @throws Failure 'world failed' where the shop breaks off
 */
export async function writeBody({ body }: Response, sink: ByteSink): Promise<number> {
  if (body === null) throw new RangeError('shop: expected bytes, got none')
  let bytes = 0
  for await (const part of wholeOf(body)) {
    await sink.write(part)
    bytes += part.length
  }
  return bytes
}

async function* wholeOf(body: ReadableStream<Uint8Array>): AsyncGenerator<Uint8Array> {
  try {
    yield* body
  } catch (cause) {
    throw new Failure('world failed', 'The shop broke off on the way: try again.', { cause })
  }
}

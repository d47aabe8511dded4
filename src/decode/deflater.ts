import { promisify } from 'node:util'
import { createDeflate, deflate } from 'node:zlib'
import type { Deflater, DeflateStream } from '../formats/bytes.ts'

/**
 * Node's own compressor for the writers of `formats`: same bytes in, same bytes out.
 *
 * @param level 1 quick … 9 small
 */
export function deflater({ level = 1 }: Readonly<{ level?: number }> = {}): Deflater {
  const whole = promisify<Uint8Array, { level: number }, Uint8Array>(deflate)
  return {
    whole: (bytes) => whole(bytes, { level }),
    stream: () => deflateStream(level),
  }
}

function deflateStream(level: number): DeflateStream {
  const stream = createDeflate({ level })
  let out: Uint8Array[] = []
  stream.on('data', (bytes: Uint8Array) => out.push(bytes))
  const taken = (): readonly Uint8Array[] => {
    const parts = out
    out = []
    return parts
  }
  return {
    push: (bytes) =>
      new Promise((resolve, reject) => {
        stream.write(bytes, (error) => (error ? reject(error) : resolve(taken())))
      }),
    end: () =>
      new Promise((resolve, reject) => {
        stream.once('error', reject)
        stream.once('end', () => resolve(taken()))
        stream.end()
      }),
  }
}

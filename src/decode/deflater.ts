import { promisify } from 'node:util'
import { constants, createDeflate, deflate, type ZlibOptions } from 'node:zlib'
import type { Deflater, DeflateStream } from '../formats/bytes.ts'

/** `runs`: only runs of the same byte are sought, which is quick and nearly as small on plain tiles. */
export type DeflaterOptions = Readonly<{ level?: number; runs?: boolean }>

/**
 * Node's own compressor for the writers of `formats`: same bytes in, same bytes out.
 *
 * @param level 1 quick … 9 small
 */
export function deflater({ level = 1, runs = false }: DeflaterOptions = {}): Deflater {
  const options: ZlibOptions = runs ? { level, strategy: constants.Z_RLE, memLevel: 9 } : { level }
  const whole = promisify<Uint8Array, ZlibOptions, Uint8Array>(deflate)
  return {
    whole: (bytes) => whole(bytes, options),
    stream: () => deflateStream(options),
  }
}

function deflateStream(options: ZlibOptions): DeflateStream {
  const stream = createDeflate(options)
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

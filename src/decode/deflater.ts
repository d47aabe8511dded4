import { promisify } from 'node:util'
import { constants, createDeflate, deflate, deflateSync, type ZlibOptions } from 'node:zlib'
import type { Deflater, DeflateStream } from '../formats/bytes.ts'

/**
 * `runs`: only runs of the same byte are sought, which is quick and nearly as small on plain tiles.
 * `atOnce`: whole blocks in the calling thread, which has nothing else to do.
 */
export type DeflaterOptions = Readonly<{ level?: number; runs?: boolean; atOnce?: boolean }>

/**
 * Node's own compressor for the writers of `formats`: same bytes in, same bytes out.
 *
 * @param level 1 quick … 9 small
 */
export function deflater({
  level = 1,
  runs = false,
  atOnce = false,
}: DeflaterOptions = {}): Deflater {
  const options: ZlibOptions = runs ? { level, strategy: constants.Z_RLE, memLevel: 9 } : { level }
  const whole = promisify<Uint8Array, ZlibOptions, Uint8Array>(deflate)
  return {
    whole: atOnce
      ? // a copy of its own: what is compressed quickly lies in a larger block
        (bytes) => Promise.resolve(new Uint8Array(deflateSync(bytes, options)))
      : (bytes) => whole(bytes, options),
    stream: () => deflateStream(options),
  }
}

/** What comes out at a time: in larger pieces more of them wait to be cleared away, of a film of noise 5 MB. */
const PIECE_BYTES = 8192

function deflateStream(options: ZlibOptions): DeflateStream {
  const stream = createDeflate({ ...options, chunkSize: PIECE_BYTES })
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

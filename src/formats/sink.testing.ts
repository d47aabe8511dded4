import { createDeflate, deflateSync } from 'node:zlib'
import type { ByteSink, Deflater } from './bytes.ts'

/** A sink in memory, for tests. */
export function memorySink(): Readonly<{ sink: ByteSink; bytes: () => Uint8Array<ArrayBuffer> }> {
  let whole = new Uint8Array(0)
  return {
    sink: {
      write: (bytes) => {
        const longer = new Uint8Array(whole.length + bytes.length)
        longer.set(whole)
        longer.set(bytes, whole.length)
        whole = longer
        return Promise.resolve()
      },
      rewrite: (offset, bytes) => {
        whole.set(bytes, offset)
        return Promise.resolve()
      },
    },
    bytes: () => whole,
  }
}

/** Node's zlib, whole at once. */
export const testDeflater: Deflater = {
  whole: (bytes) => Promise.resolve(deflateSync(bytes)),
  stream: () => {
    const stream = createDeflate()
    const parts: Uint8Array[] = []
    stream.on('data', (bytes: Uint8Array) => parts.push(bytes))
    return {
      push: (bytes) =>
        new Promise((resolve) => stream.write(bytes, () => resolve(parts.splice(0)))),
      end: () => new Promise((resolve) => stream.end().once('end', () => resolve(parts.splice(0)))),
    }
  },
}

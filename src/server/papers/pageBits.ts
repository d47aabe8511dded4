import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import type { BitsAsked } from './bitsThread.ts'

/** The compiled thread, from the sources and from what is compiled of them alike. */
const THREAD = fileURLToPath(new URL('../../../dist/server/papers/bitsThread.js', import.meta.url))

/** A page as a 1-bit TIFF. @throws what the thread threw */
export async function pageBits(asked: BitsAsked): Promise<Uint8Array<ArrayBuffer>> {
  const thread = new Worker(THREAD, { workerData: asked })
  try {
    const [bytes] = (await once(thread, 'message')) as [Uint8Array<ArrayBuffer>]
    return bytes
  } finally {
    await thread.terminate()
  }
}

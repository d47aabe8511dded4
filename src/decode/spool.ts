import { writeSync } from 'node:fs'
import { mkdtemp, open } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Failure } from '../core/failure.ts'
import { rememberLeftover, removeLeftover } from './leftovers.ts'
import { named, systemCode } from './named.ts'

/** Bytes that wait in a temporary file, written once and read as often as wanted. */
export type FileSpool = Readonly<{
  write: (bytes: Uint8Array) => Promise<void>
  bands: () => AsyncIterable<Uint8Array>
  /** For another thread of this process that writes in place of `write`, from the beginning on. */
  descriptor: number
  /** So much was written by its descriptor. */
  written: (bytes: number) => void
  close: () => Promise<void>
}>

const PART_BYTES = 2 ** 18

/** @throws Failure 'world failed' where the temporary folder refuses */
export async function openSpool(): Promise<FileSpool> {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-bits-')).catch(noRoom)
  rememberLeftover(folder)
  const file = await open(join(folder, 'bits'), 'wx+').catch(noRoom)
  await removeLeftover(folder) // where the system allows it, the open file lives on
  let length = 0
  async function* bands(): AsyncGenerator<Uint8Array> {
    for (let at = 0; at < length; at += PART_BYTES) {
      const part = new Uint8Array(Math.min(PART_BYTES, length - at))
      for (let done = 0; done < part.length; ) {
        const { bytesRead } = await file.read(part, done, part.length - done, at + done)
        if (bytesRead === 0) noRoom(new Error('cut off'))
        done += bytesRead
      }
      yield part
    }
  }
  return {
    write: async (bytes) => {
      for (let done = 0; done < bytes.length; ) {
        const { bytesWritten } = await file
          .write(bytes, done, bytes.length - done, length + done)
          .catch(noRoom)
        done += bytesWritten
      }
      length += bytes.length
    },
    bands,
    descriptor: file.fd,
    written: (bytes) => {
      length = bytes
    },
    close: async () => {
      await file.close()
      await removeLeftover(folder)
    },
  }
}

/**
 * Writes bytes into a spool by its descriptor, from a place on.
 *
 * @throws Failure 'world failed' where the temporary folder refuses
 */
export function writeInto(descriptor: number, bytes: Uint8Array, at: number): void {
  try {
    for (let done = 0; done < bytes.length; ) {
      done += writeSync(descriptor, bytes, done, bytes.length - done, at + done)
    }
  } catch (cause) {
    noRoom(cause)
  }
}

function noRoom(cause: unknown): never {
  const why = systemCode(cause) || 'no reason given'
  const message = `The temporary folder ${named(tmpdir())} refuses the film's bits (${why}); make room, or set TMPDIR to another folder.`
  throw new Failure('world failed', message, { cause })
}

import { mkdir, rmdir, stat } from 'node:fs/promises'
import { Failure } from '../core/failure.ts'
import { removeLeftover } from './leftovers.ts'
import { named, systemCode } from './named.ts'

/** A folder for the files of one command. */
export type OutFolder = Readonly<{
  /** Remembers a file that was written, for `undo`. */
  wrote: (path: string) => void
  /** After a failure: takes away what was written, and the folder where it was made for it. */
  undo: () => Promise<void>
}>

/**
 * Makes the folder where it is not there; the one above it must be.
 *
 * @throws Failure 'wrong input' where a file has its name, 'cannot write' where it cannot be made
 */
export async function openOutFolder(path: string): Promise<OutFolder> {
  const there = await stat(path).catch(() => null)
  if (there !== null && !there.isDirectory()) {
    throw new Failure('wrong input', `${named(path)} is a file; name a folder to write into.`, {
      field: 'out',
    })
  }
  if (there === null) {
    await mkdir(path).catch((cause: unknown) => {
      const missing = systemCode(cause) === 'ENOENT'
      const message = missing
        ? `There is no folder to make ${named(path)} in; make it first.`
        : `Cannot make the folder ${named(path)} (${systemCode(cause)}); choose another place.`
      throw new Failure('cannot write', message, { field: 'out', cause })
    })
  }
  const written: string[] = []
  return {
    wrote: (file) => written.push(file),
    undo: async () => {
      for (const file of written) await removeLeftover(file)
      if (there === null) await rmdir(path).catch(() => undefined) // others may have put theirs in
    },
  }
}

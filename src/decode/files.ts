import { randomUUID } from 'node:crypto'
import type { Stats } from 'node:fs'
import { type FileHandle, link, lstat, open, realpath, rename, stat } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { Failure, isFailure } from '../core/failure.ts'
import type { ByteSink } from '../formats/bytes.ts'
import { keepLeftover, rememberLeftover, removeLeftover } from './leftovers.ts'
import { named, systemCode } from './named.ts'

export type Overwriting = Readonly<{
  /** Replace a file that is there. */
  force: boolean
  /** Files the work reads: an output must not be one of them, forced or not. */
  inputs?: readonly string[]
}>

/**
 * Refuses an output before work begins: a file that is there without `force`, one of the inputs,
 * a folder, a folder that is not there.
 *
 * @throws Failure 'already there', 'wrong input' or 'cannot write'
 */
export async function refuseExisting(path: string, overwriting: Overwriting): Promise<void> {
  await finalPlace(path, overwriting)
}

/** @throws Failure 'wrong input' when two outputs of one command are one file */
export function refuseSamePlace(paths: readonly string[]): void {
  const places = new Set(paths.map((path) => resolve(path)))
  if (places.size === paths.length) return
  const message = `${named(paths[0] ?? '')} is asked for twice; give each output a name of its own.`
  throw new Failure('wrong input', message)
}

/**
 * Writes a file that appears under its name only when whole: beside it first, flushed to the disk,
 * then renamed. After a failure nothing is left.
 *
 * @throws Failure as `refuseExisting`; 'cannot write' where the place refuses; what `write` throws
 */
export async function writeWhole(
  path: string,
  overwriting: Overwriting,
  write: (sink: ByteSink) => Promise<void>,
): Promise<void> {
  const final = await finalPlace(path, overwriting)
  const part = join(dirname(final), `.yellowroom-${randomUUID()}.part`)
  rememberLeftover(part)
  try {
    const file = await open(part, 'wx').catch(refusedBy(path))
    try {
      await write(sinkTo(file, path))
      await file.sync().catch(refusedBy(path))
    } finally {
      await file.close()
    }
    await appear({ part, final, path, force: overwriting.force })
    keepLeftover(part)
  } finally {
    await removeLeftover(part)
  }
}

function sinkTo(file: FileHandle, path: string): ByteSink {
  let at = 0
  return {
    write: async (bytes) => {
      await writeAt(file, bytes, at).catch(refusedBy(path))
      at += bytes.length
    },
    rewrite: async (offset, bytes) => {
      if (offset + bytes.length > at) throw new RangeError('rewrite: past what was written')
      await writeAt(file, bytes, offset).catch(refusedBy(path))
    },
  }
}

async function writeAt(file: FileHandle, bytes: Uint8Array, offset: number): Promise<void> {
  for (let done = 0; done < bytes.length; ) {
    const { bytesWritten } = await file.write(bytes, done, bytes.length - done, offset + done)
    done += bytesWritten
  }
}

/** Without force a file that came meanwhile wins: a link refuses where a rename would replace. */
async function appear({
  part,
  final,
  path,
  force,
}: Readonly<{ part: string; final: string; path: string; force: boolean }>): Promise<void> {
  if (!force) {
    try {
      await link(part, final)
      await removeLeftover(part)
      await syncFolder(dirname(final))
      return
    } catch (error) {
      if (systemCode(error) === 'EEXIST') throw alreadyThere(path)
      // This file system knows no links: rename below.
    }
  }
  await rename(part, final).catch(refusedBy(path))
  await syncFolder(dirname(final))
}

/** The name survives a power cut only once its folder is on the disk; not every system can. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r')
    try {
      await handle.sync()
    } finally {
      await handle.close()
    }
  } catch {
    // The file itself is flushed.
  }
}

/** Where the file will stand, links followed, so that a link is written through, not replaced. */
async function finalPlace(path: string, { force, inputs = [] }: Overwriting): Promise<string> {
  const folder = await statOrNull(dirname(resolve(path)))
  if (folder === null || !folder.isDirectory()) {
    const message = `There is no folder ${named(dirname(path))} to write into; make it first.`
    throw new Failure('cannot write', message)
  }
  const there = await lstat(path).catch(nullIfMissing(path))
  if (there === null) return resolve(path)
  const target = await statOrNull(path)
  if (target?.isDirectory()) {
    throw new Failure('wrong input', `${named(path)} is a folder; name the file to write in it.`)
  }
  for (const input of inputs) {
    const source = await statOrNull(input)
    if (target !== null && source?.ino === target.ino && source.dev === target.dev) {
      const message = `${named(path)} is the file being read; write to another name.`
      throw new Failure('wrong input', message)
    }
  }
  if (!force) throw alreadyThere(path)
  if (target !== null && !target.isFile()) {
    throw new Failure('cannot write', `${named(path)} is no plain file; write to another name.`)
  }
  return target === null ? resolve(path) : await realpath(path)
}

async function statOrNull(path: string): Promise<Stats | null> {
  return stat(path).catch(nullIfMissing(path))
}

function nullIfMissing(path: string): (error: unknown) => null {
  return (error) => {
    if (systemCode(error) === 'ENOENT') return null
    return refusedBy(path)(error)
  }
}

function alreadyThere(path: string): Failure {
  const message = `${named(path)} is already there; write to another name, or add --force.`
  return new Failure('already there', message)
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'the system refuses to write there; choose another folder or its permissions',
  EPERM: 'the system refuses to write there; choose another folder or its permissions',
  EROFS: 'that disk is read-only; choose another folder',
  ENOSPC: 'the disk is full; make room or choose another disk',
  EDQUOT: 'your share of the disk is used up; make room or choose another disk',
  ENOTDIR: 'part of the path is a file, not a folder; check the path',
  ENAMETOOLONG: 'the name is too long for this disk; choose a shorter one',
  EFBIG: 'the file would be larger than this disk allows; choose another disk',
}

function refusedBy(path: string): (error: unknown) => never {
  return (error) => {
    if (isFailure(error)) throw error
    const code = systemCode(error)
    const reason = REASONS[code] ?? `the disk failed (${code || 'no reason given'}); try another`
    throw new Failure('cannot write', `Cannot write ${named(path)}: ${reason}.`, { cause: error })
  }
}

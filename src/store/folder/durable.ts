import { randomBytes } from 'node:crypto'
import { type FileHandle, open, readdir, rename, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { systemCode } from './refused.ts'

/**
 * Writes a file that is there whole or not at all, also after a power cut: a file of another name,
 * flushed, given its name, the folder flushed.
 *
 * @param mode who may read it; 0o600 is the owner alone
 * @throws the system's error, with nothing left behind
 */
export async function writeWhole(
  path: string,
  { content, mode = 0o644 }: Readonly<{ content: string | Uint8Array; mode?: number }>,
): Promise<void> {
  const draft = `${path}.${randomBytes(6).toString('hex')}.new`
  try {
    const file = await open(draft, 'wx', mode)
    try {
      await file.writeFile(content)
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(draft, path)
  } catch (cause) {
    await rm(draft, { force: true })
    throw cause
  }
  await syncFolder(dirname(path))
}

/** Removes a file so that it stays removed after a power cut. */
export async function removeForGood(path: string): Promise<void> {
  await rm(path, { force: true })
  await syncFolder(dirname(path))
}

/** Flushes the names in a folder; systems that cannot do that keep them by themselves. */
export async function syncFolder(folder: string): Promise<void> {
  let handle: FileHandle
  try {
    handle = await open(folder, 'r')
  } catch (cause) {
    if (systemCode(cause) === 'EISDIR' || process.platform === 'win32') return
    throw cause
  }
  try {
    await handle.sync()
  } catch (cause) {
    if (process.platform !== 'win32' && systemCode(cause) !== 'EINVAL') throw cause
  } finally {
    await handle.close()
  }
}

/** Flushes every file and folder below, then the folder itself. */
export async function syncTree(folder: string): Promise<void> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name)
    if (entry.isDirectory()) await syncTree(path)
    else if (entry.isFile()) await syncFile(path)
  }
  await syncFolder(folder)
}

async function syncFile(path: string): Promise<void> {
  const file = await open(path, 'r+')
  try {
    await file.sync()
  } finally {
    await file.close()
  }
}

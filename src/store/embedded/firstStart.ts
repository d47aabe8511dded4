import { access, mkdir, readdir, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { Failure } from '../../core/failure.ts'
import { removeForGood, syncTree, writeWhole } from '../folder/durable.ts'
import { named, systemCode } from '../folder/refused.ts'
import type { ShopFolder } from '../folder/shopFolder.ts'

/** The version of the database's files, as its own file PG_VERSION says it. */
const FILES_VERSION = '18'

/**
 * Sees whether a database has to be made, and if so begins: a note says that what is there is not
 * yet one, so that a start that was interrupted is begun anew. Nothing that was ever whole is
 * removed.
 *
 * @returns true when the database is made by this start, to be ended by `endFirstStart`
 */
export async function beginFirstStart(folder: ShopFolder): Promise<boolean> {
  if (await isThere(folder.unfinished)) await rm(folder.database, { recursive: true, force: true })
  else if (await holdsSomething(folder.database)) return false
  await writeWhole(folder.unfinished, { content: 'The database is being made.\n' })
  await mkdir(folder.database, { recursive: true, mode: 0o700 })
  return true
}

/** The new database is flushed to the disk, every file and folder; then the note goes. */
export async function endFirstStart(folder: ShopFolder): Promise<void> {
  await syncTree(folder.database)
  await removeForGood(folder.unfinished)
}

/**
 * @throws Failure 'world failed' for files that another version of the database wrote, and for a
 * folder without the file that says so
 */
export async function expectWhole(folder: ShopFolder): Promise<void> {
  const version = await readFile(join(folder.database, 'PG_VERSION'), 'utf8').catch(() => '')
  if (version.trim() === FILES_VERSION) return
  if (/^\d+\s*$/.test(version)) {
    const message = `The database in ${named(folder.path)} is of version ${version.trim()} and this Yellowroom reads ${FILES_VERSION}: start the Yellowroom that wrote it, make a backup, and restore that here. Nothing was changed.`
    throw new Failure('world failed', message)
  }
  const message = `The database in ${named(folder.path)} is damaged (it does not say its version): restore the newest backup into an empty folder.`
  throw new Failure('world failed', message)
}

async function isThere(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  )
}

async function holdsSomething(path: string): Promise<boolean> {
  try {
    return (await readdir(path)).length > 0
  } catch (cause) {
    if (systemCode(cause) === 'ENOENT') return false
    throw cause
  }
}

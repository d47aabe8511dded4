import { spawnSync } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { ShopFolder } from '../folder/shopFolder.ts'

/** Where the database's control file says how it was left, and what it says when that was in order. */
const STATE_AT = 16
const SHUT_DOWN = 1

/**
 * Flushes everything that a process which was killed may have left on its way to the disk. The
 * database does that itself after an unclean stop, file by file, which takes seconds; Linux can do
 * it at once (`sync -f`, the call syncfs, as PostgreSQL's own recovery_init_sync_method=syncfs).
 *
 * @returns true when all is on the disk, so that only what is written from now on needs flushing;
 * false when the database has to see to it
 */
export async function settle(folder: ShopFolder): Promise<boolean> {
  if (process.platform !== 'linux' || (await wasShutDown(folder))) return false
  const { status, error } = spawnSync('sync', ['-f', folder.database], { stdio: 'ignore' })
  return error === undefined && status === 0
}

async function wasShutDown(folder: ShopFolder): Promise<boolean> {
  try {
    const control = await readFile(join(folder.database, 'global/pg_control'))
    return control.readUInt32LE(STATE_AT) === SHUT_DOWN
  } catch {
    return true // it will say itself what is wrong with it
  }
}

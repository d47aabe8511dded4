import { readFile, rm } from 'node:fs/promises'
import { writeWhole } from './durable.ts'
import { refusedBy } from './refused.ts'
import { placesIn, type ShopFolder } from './shopFolder.ts'

/** Where the server is that has a shop open, and the word by which it knows commands as friends. */
export type RunningServer = Readonly<{ url: string; token: string }>

/**
 * Writes down where the server of this shop is, for its owner's eyes only. To be called by whoever
 * has the folder's lock.
 */
export async function announceServer(folder: ShopFolder, server: RunningServer): Promise<void> {
  const content = `${JSON.stringify(server)}\n`
  try {
    await writeWhole(folder.server, { content, mode: 0o600 })
  } catch (cause) {
    throw refusedBy(folder.path, cause)
  }
}

/** After it no command looks for a server here. */
export async function withdrawServer(folder: ShopFolder): Promise<void> {
  await rm(folder.server, { force: true })
}

/**
 * The server that has the shop in this folder open, as it said itself; null when none said so. A
 * server that was killed leaves its note behind until the next start: only the lock tells.
 */
export async function runningServer(path: string): Promise<RunningServer | null> {
  try {
    const { url, token } = JSON.parse(
      await readFile(placesIn(path).server, 'utf8'),
    ) as RunningServer
    return typeof url === 'string' && typeof token === 'string' ? { url, token } : null
  } catch {
    return null
  }
}

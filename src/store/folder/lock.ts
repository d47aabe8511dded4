import { createHash } from 'node:crypto'
import { createServer } from 'node:net'
import { Failure } from '../../core/failure.ts'
import { pidLock } from './pidLock.ts'
import { named, refusedBy, systemCode } from './refused.ts'
import { runningServer } from './runningServer.ts'
import type { ShopFolder } from './shopFolder.ts'

/** The right to open a shop's database: one process at a time has it. */
export type Lock = Readonly<{ release: () => Promise<void> }>

/**
 * Takes the folder for this process. On Linux the lock is a socket without a file, named after the
 * folder's real path: the system frees it when the process ends, however it ends. Elsewhere it is
 * a file with the process's number, never taken from a process that lives.
 *
 * @throws Failure 'shop in use' when another process has it
 */
export async function lockFolder(
  folder: ShopFolder,
  { platform = process.platform }: Readonly<{ platform?: NodeJS.Platform }> = {},
): Promise<Lock> {
  const lock = platform === 'linux' ? await socketLock(folder) : await pidLock(folder)
  if (lock === null) throw await inUse(folder)
  return lock
}

async function socketLock({ path }: ShopFolder): Promise<Lock | null> {
  const name = `\0yellowroom-shop-${createHash('sha256').update(path).digest('hex')}`
  const server = createServer((visitor) => visitor.destroy())
  try {
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject)
      server.listen(name, resolve)
    })
  } catch (cause) {
    if (systemCode(cause) === 'EADDRINUSE') return null
    throw refusedBy(path, cause)
  }
  server.unref()
  return { release: () => new Promise((resolve) => server.close(() => resolve())) }
}

async function inUse(folder: ShopFolder): Promise<Failure> {
  const running = await runningServer(folder.path)
  const where = running === null ? '' : ` at ${running.url}`
  const message = `Another Yellowroom has the shop in ${named(folder.path)} open${where}: use that one, or stop it first.`
  return new Failure('shop in use', message)
}

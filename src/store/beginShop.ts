import type { Step } from './embedded/openDatabase.ts'
import { readyThread } from './embedded/readyThread.ts'
import { ThreadDatabase } from './embedded/threadDatabase.ts'
import { type Lock, lockFolder } from './folder/lock.ts'
import { withdrawServer } from './folder/runningServer.ts'
import { claimFolder, madeFolder, type ShopFolder } from './folder/shopFolder.ts'

/**
 * A shop whose folder this process has for itself and whose database is being opened in its thread.
 * Where a database server has the records there is neither lock nor thread.
 */
export type BegunShop = Readonly<{
  folder: ShopFolder
  lock: Lock | null
  database: Promise<ThreadDatabase> | null
  databaseUrl: string | undefined
}>

export type BeginOptions = Readonly<{
  /** A PostgreSQL server in place of the embedded database; the folder then holds files alone. */
  databaseUrl?: string | undefined
  /** Hears what takes its time. */
  onStep?: (step: Step) => void
}>

/**
 * Takes the folder, making it where there is none, and begins to open its database: what takes
 * longest at a start goes on in a thread of its own while the rest is loaded. Needs little code
 * itself for that reason.
 *
 * @throws Failure 'shop in use' when another process has it open; 'wrong input' for a folder of
 * other things; 'cannot write' for one that is full or refuses. What the database refuses is thrown
 * by whoever opens the shop
 */
export async function beginShop(
  path: string,
  { databaseUrl, onStep }: BeginOptions = {},
): Promise<BegunShop> {
  const folder = await madeFolder(path)
  if (databaseUrl !== undefined) {
    await claimFolder(folder, { alone: false })
    return { folder, lock: null, database: null, databaseUrl }
  }
  const lock = await lockFolder(folder)
  const thread = readyThread()
  try {
    await claimFolder(folder, { alone: true })
    await withdrawServer(folder)
  } catch (cause) {
    await Promise.all([thread.terminate(), lock.release()])
    throw cause
  }
  const database = ThreadDatabase.start(folder.path, { onStep, thread })
  database.catch(() => undefined) // whoever opens the shop hears of it
  return { folder, lock, database, databaseUrl }
}

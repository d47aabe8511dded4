import { randomBytes } from 'node:crypto'
import { type BeginOptions, type BegunShop, beginShop } from './beginShop.ts'
import { type BlobPlace } from './blobs/blobStore.ts'
import { turns } from './blobs/turns.ts'
import { type Database, databaseOver } from './database/database.ts'
import { type Engine, embeddedEngine, serverEngine } from './database/engine.ts'
import { maintain } from './database/maintenance.ts'
import { migrate } from './database/migrate.ts'
import type { Lock } from './folder/lock.ts'
import { announceServer, type RunningServer, withdrawServer } from './folder/runningServer.ts'
import type { ShopFolder } from './folder/shopFolder.ts'
import { freeJobs } from './jobLease.ts'

/** A shop that is open: its database, its files, and what keeps both well. */
export type OpenShop = Readonly<{
  database: Database
  blobs: BlobPlace
  folder: ShopFolder
  engine: Engine['kind']
  /** Times that the embedded database's disk was flushed. */
  syncs: () => number
  /** Writes down where the server of this shop is; commands find it there. */
  announce: (url: string) => Promise<RunningServer>
  /** What upkeep is due; runs by itself every five minutes. */
  maintenance: () => Promise<void>
  close: () => Promise<void>
}>

export type ShopOptions = Readonly<{
  /** Hears what failed in upkeep. */
  onTrouble?: (cause: unknown) => void
  now?: () => Date
}>

/**
 * Opens the shop that lives in a folder, making it in an empty one. The folder is locked until the
 * shop is closed or the process ends; with a database server it is not, as several may share that.
 *
 * @throws Failure 'shop in use' when another process has it open; 'wrong input' for a folder of
 * other things; 'cannot write' for one that is full or refuses; 'world failed' when the database is
 * damaged, newer than this program, or cannot be reached
 */
export async function openShop(
  path: string,
  options: ShopOptions & BeginOptions = {},
): Promise<OpenShop> {
  return openBegun(await beginShop(path, options), options)
}

/**
 * The same for one that was begun before.
 *
 * @throws Failure 'world failed' when the database is damaged, newer than this program, or cannot be
 * reached; 'wrong input' for an address that is none
 */
export async function openBegun(begun: BegunShop, options: ShopOptions = {}): Promise<OpenShop> {
  const { folder, lock, database, databaseUrl = '' } = begun
  try {
    const engine =
      database === null ? await serverEngine(databaseUrl) : embeddedEngine(await database)
    return await shopOver(engine, { folder, lock, options })
  } catch (cause) {
    await lock?.release()
    throw cause
  }
}

async function shopOver(
  engine: Engine,
  {
    folder,
    lock,
    options,
  }: Readonly<{ folder: ShopFolder; lock: Lock | null; options: ShopOptions }>,
): Promise<OpenShop> {
  const { now = () => new Date() } = options
  const database = databaseOver(engine.pool)
  const shut = async (): Promise<void> => {
    await database.destroy()
    await engine.close()
  }
  try {
    await migrate(database)
    if (lock !== null) await freeJobs(database, { at: now() })
  } catch (cause) {
    await shut().catch(() => undefined)
    throw cause
  }
  const blobs = { database, folder, turns: turns() }
  const maintenance = maintain({ engine, database, blobs }, { ...options, now })
  return {
    database,
    blobs,
    folder,
    engine: engine.kind,
    syncs: engine.syncs,
    announce: async (url) => {
      const server = { url, token: randomBytes(32).toString('base64url') }
      await announceServer(folder, server)
      return server
    },
    maintenance: maintenance.round,
    close: async () => {
      await maintenance.stop()
      await shut()
      await withdrawServer(folder)
      await lock?.release()
    },
  }
}

import { rm } from 'node:fs/promises'
import { sql } from 'kysely'
import { Failure, isFailure } from '../../core/failure.ts'
import { putBlobFile } from '../blobs/blobStore.ts'
import { type Database, databaseOver, inTransaction } from '../database/database.ts'
import { embeddedEngine, serverEngine } from '../database/engine.ts'
import { migrate } from '../database/migrate.ts'
import { ThreadDatabase } from '../embedded/threadDatabase.ts'
import { lockFolder } from '../folder/lock.ts'
import { named } from '../folder/refused.ts'
import {
  isEmptyFolder,
  madeFolder,
  makePlaces,
  type ShopFolder,
  writeMark,
} from '../folder/shopFolder.ts'
import { blobOfEntry, tableOfEntry } from './contents.ts'
import {
  type BackupCover,
  damagedBackup,
  entriesIn,
  linesOf,
  textOf,
  verifyBackup,
} from './readBackup.ts'
import { tablesInOrder } from './tablesInOrder.ts'

/** What came out of a backup; files that were damaged or missing in it are told. */
export type RestoreSummary = Readonly<{
  /** When the backup was made. */
  backupAt: Date
  rows: number
  blobs: number
  damaged: readonly string[]
  missing: readonly string[]
}>

/**
 * Makes a shop of a backup, in an empty folder (and an empty database, where a server is named):
 * the whole of it, checked against its sums, or nothing.
 *
 * @throws Failure 'missing file' or 'unreadable file' for the backup; 'already there' for a folder
 * or database that holds something; 'cannot write'; 'world failed' for a backup of a newer program
 */
export async function restoreShop(
  backup: string,
  { folder: path, databaseUrl }: Readonly<{ folder: string; databaseUrl?: string }>,
): Promise<RestoreSummary> {
  const cover = await verifyBackup(backup)
  await refuseFilledFolder(path)
  const folder = await madeFolder(path)
  const lock = await lockFolder(folder)
  try {
    await refuseFilledFolder(path) // somebody may have been faster
  } catch (cause) {
    await lock.release()
    throw cause
  }
  try {
    await writeMark(folder, 'being restored')
    await makePlaces(folder)
    const engine =
      databaseUrl === undefined
        ? embeddedEngine(await ThreadDatabase.start(folder.path))
        : await serverEngine(databaseUrl)
    const database = databaseOver(engine.pool)
    try {
      await migrate(database, { upTo: cover.head.migrations.at(-1) ?? '' })
      await refuseFilled(database)
      await inTransaction(database, (inner) => fill(inner, { backup, folder, cover }))
      await migrate(database)
      if (engine.kind === 'embedded') await sql`checkpoint`.execute(database)
      await writeMark(folder, 'open')
      return summaryOf(cover)
    } finally {
      await database.destroy()
      await engine.close()
    }
  } catch (cause) {
    await emptied(folder)
    throw cause
  } finally {
    await lock.release()
  }
}

async function refuseFilledFolder(path: string): Promise<void> {
  if (await isEmptyFolder(path)) return
  const message = `${named(path)} holds something already: restore into an empty folder.`
  throw new Failure('already there', message)
}

function summaryOf({ head, end }: BackupCover): RestoreSummary {
  return {
    backupAt: new Date(head.at),
    rows: Object.values(end.rows).reduce((sum, count) => sum + count, 0),
    blobs: end.blobs,
    damaged: end.damaged,
    missing: end.missing,
  }
}

async function refuseFilled(database: Database): Promise<void> {
  for (const table of await tablesInOrder(database)) {
    const { rows } = await sql`select 1 from ${sql.table(table)} limit 1`.execute(database)
    if (rows.length === 0) continue
    const message = 'The database holds a shop already: name an empty one in DATABASE_URL.'
    throw new Failure('already there', message, { field: 'DATABASE_URL' })
  }
}

async function fill(
  database: Database,
  { backup, folder, cover }: Readonly<{ backup: string; folder: ShopFolder; cover: BackupCover }>,
): Promise<void> {
  const tables = new Set(await tablesInOrder(database))
  const at = new Date(cover.head.at)
  for await (const entry of entriesIn(backup)) {
    const table = tableOfEntry(entry.name)
    const sha256 = blobOfEntry(entry.name)
    if (table !== null && tables.has(table)) {
      await insertRows(database, { table, text: await textOf(entry, backup), backup })
    } else if (table !== null) {
      throw damagedBackup(backup, `it holds rows of ${named(table)}`)
    } else if (sha256 !== null) {
      const isSound = await putBlobFile(folder, entry.content, { sha256, at })
      if (!isSound && !cover.end.damaged.includes(sha256)) {
        throw damagedBackup(backup, 'it changed while it was read')
      }
    }
  }
}

async function insertRows(
  database: Database,
  { table, text, backup }: Readonly<{ table: string; text: string; backup: string }>,
): Promise<void> {
  const list = `[${linesOf(text).join(',')}]`
  const into = sql.table(table)
  try {
    await sql`
      insert into ${into}
      select * from json_populate_recordset(null::${into}, cast(${list} as json))`.execute(database)
  } catch (cause) {
    const isTheirs = cause instanceof RangeError || isFailure(cause, 'conflict')
    if (isTheirs || isFailure(cause, 'not found')) {
      throw damagedBackup(backup, `its rows of ${table} do not fit`, cause)
    }
    throw cause
  }
}

/** The folder was empty, and is again. */
async function emptied(folder: ShopFolder): Promise<void> {
  for (const place of [
    folder.database,
    folder.unfinished,
    folder.blobs,
    folder.incoming,
    folder.mark,
  ]) {
    await rm(place, { recursive: true, force: true })
  }
}

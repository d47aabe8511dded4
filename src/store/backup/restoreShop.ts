import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { rm } from 'node:fs/promises'
import { sql } from 'kysely'
import { Failure, isFailure } from '../../core/failure.ts'
import { putBlobFile } from '../blobs/blobStore.ts'
import { type Database, databaseOver, inTransaction } from '../database/database.ts'
import { embeddedEngine, serverEngine } from '../database/engine.ts'
import { migrate, refuseNewer } from '../database/migrate.ts'
import { lockFolder } from '../folder/lock.ts'
import { named, systemCode } from '../folder/refused.ts'
import {
  isEmptyFolder,
  madeFolder,
  makePlaces,
  type ShopFolder,
  writeMark,
} from '../folder/shopFolder.ts'
import {
  BACKUP_LAYOUT,
  type BackupEnd,
  type BackupHead,
  blobOfEntry,
  FIRST_ENTRY,
  LAST_ENTRY,
  tableOfEntry,
} from './contents.ts'
import { tablesInOrder } from './tablesInOrder.ts'
import { entriesOf, type TarEntry } from './tar.ts'

/** What came out of a backup; files that were damaged or missing in it are told. */
export type RestoreSummary = Readonly<{
  /** When the backup was made. */
  backupAt: Date
  rows: number
  blobs: number
  damaged: readonly string[]
  missing: readonly string[]
}>

/** Far more than a megabyte of rows and one more row. */
const MOST_TEXT_BYTES = 256 * 2 ** 20

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
  const head = await headOf(backup)
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
        ? await embeddedEngine(folder.path)
        : await serverEngine(databaseUrl)
    const database = databaseOver(engine.pool)
    try {
      await migrate(database, { upTo: head.migrations.at(-1) ?? '' })
      await refuseFilled(database)
      const summary = await inTransaction(database, (inner) =>
        fill(inner, { backup, folder, head }),
      )
      await migrate(database)
      if (engine.kind === 'embedded') await sql`checkpoint`.execute(database)
      await writeMark(folder, 'open')
      return summary
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

/** What the backup says of itself. @throws as `restoreShop`, before anything is made */
async function headOf(backup: string): Promise<BackupHead> {
  for await (const entry of entriesIn(backup)) {
    if (entry.name !== FIRST_ENTRY) break
    const head = await jsonOf<BackupHead>(entry, backup)
    if (head.kind !== 'yellowroom backup') break
    if (head.layout > BACKUP_LAYOUT) {
      const message = `${named(backup)} was made by a newer Yellowroom: restore it with that one.`
      throw new Failure('world failed', message)
    }
    await refuseNewer(head.migrations)
    if (head.migrations.length > 0) return head
    break
  }
  const message = `${named(backup)} is no backup of a shop: name the file that 'backup' wrote.`
  throw new Failure('unreadable file', message)
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
  { backup, folder, head }: Readonly<{ backup: string; folder: ShopFolder; head: BackupHead }>,
): Promise<RestoreSummary> {
  const tables = new Set(await tablesInOrder(database))
  const hash = createHash('sha256')
  const rows: Record<string, number> = Object.fromEntries([...tables].map((table) => [table, 0]))
  const damaged: string[] = []
  let blobs = 0
  let end: BackupEnd | null = null
  for await (const entry of entriesIn(backup)) {
    const table = tableOfEntry(entry.name)
    const sha256 = blobOfEntry(entry.name)
    if (table !== null && tables.has(table)) {
      const text = await textOf(entry, backup)
      hash.update(text)
      rows[table] = (rows[table] ?? 0) + (await insertRows(database, { table, text, backup }))
    } else if (sha256 !== null) {
      if (!(await putBlobFile(folder, entry.content, { sha256 }))) damaged.push(sha256)
      blobs++
    } else if (entry.name === LAST_ENTRY) {
      end = await jsonOf<BackupEnd>(entry, backup)
    } else if (entry.name !== FIRST_ENTRY) {
      throw damagedBackup(backup, `it holds ${named(entry.name)}`)
    }
  }
  if (end === null) throw damagedBackup(backup, 'its end is missing')
  const agrees =
    hash.digest('hex') === end.rowsSha256 &&
    JSON.stringify(rows) === JSON.stringify({ ...rows, ...end.rows }) &&
    blobs === end.blobs &&
    damaged.join() === end.damaged.join()
  if (!agrees) throw damagedBackup(backup, 'its sums do not agree')
  return {
    backupAt: new Date(head.at),
    rows: Object.values(rows).reduce((sum, count) => sum + count, 0),
    blobs,
    damaged,
    missing: end.missing,
  }
}

async function insertRows(
  database: Database,
  { table, text, backup }: Readonly<{ table: string; text: string; backup: string }>,
): Promise<number> {
  const lines = text.split('\n').filter((line) => line !== '')
  const list = `[${lines.join(',')}]`
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
  return lines.length
}

async function* entriesIn(backup: string): AsyncIterable<TarEntry> {
  const bytes = createReadStream(backup) as AsyncIterable<Uint8Array>
  for await (const entry of worded(backup, entriesOf(bytes))) {
    yield { ...entry, content: worded(backup, entry.content) }
  }
}

/** What comes out of a file, with a sentence where it fails. */
async function* worded<Part>(backup: string, parts: AsyncIterable<Part>): AsyncIterable<Part> {
  try {
    yield* parts
  } catch (cause) {
    if (isFailure(cause)) throw cause
    const code = systemCode(cause)
    if (code === 'ENOENT') {
      const message = `There is no file ${named(backup)}; check its name and folder.`
      throw new Failure('missing file', message, { cause })
    }
    throw damagedBackup(backup, code === '' ? 'it is cut off or no backup' : code, cause)
  }
}

async function textOf({ sizeBytes, content }: TarEntry, backup: string): Promise<string> {
  if (sizeBytes > MOST_TEXT_BYTES) throw damagedBackup(backup, 'it holds too long a text')
  const parts: Uint8Array[] = []
  for await (const bytes of content) parts.push(bytes.slice())
  return new TextDecoder().decode(Buffer.concat(parts))
}

async function jsonOf<Value>(entry: TarEntry, backup: string): Promise<Value> {
  const text = await textOf(entry, backup)
  try {
    return JSON.parse(text) as Value
  } catch (cause) {
    throw damagedBackup(backup, `${entry.name} cannot be read`, cause)
  }
}

function damagedBackup(backup: string, why: string, cause?: unknown): Failure {
  const message = `The backup ${named(backup)} is damaged (${why}): restore another one.`
  return new Failure('unreadable file', message, { cause })
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

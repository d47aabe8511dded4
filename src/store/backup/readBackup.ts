import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { Failure, isFailure } from '../../core/failure.ts'
import { refuseNewer } from '../database/migrate.ts'
import { named, systemCode } from '../folder/refused.ts'
import {
  BACKUP_LAYOUT,
  type BackupEnd,
  type BackupHead,
  blobOfEntry,
  FIRST_ENTRY,
  LAST_ENTRY,
  tableOfEntry,
} from './contents.ts'
import { entriesOf, type TarEntry } from './tar.ts'

/** What a sound backup says of itself. */
export type BackupCover = Readonly<{ head: BackupHead; end: BackupEnd }>

/** Far more than a megabyte of rows and one more row. */
const MOST_TEXT_BYTES = 256 * 2 ** 20

/**
 * Reads a backup through and holds it to its own sums, files and all.
 *
 * @throws Failure 'missing file'; 'unreadable file' when it is damaged, cut off or no backup;
 * 'world failed' when a newer program made it
 */
export async function verifyBackup(backup: string): Promise<BackupCover> {
  let head: BackupHead | null = null
  let end: BackupEnd | null = null
  const hash = createHash('sha256')
  const rows: Record<string, number> = {}
  const damaged: string[] = []
  let blobs = 0
  for await (const entry of entriesIn(backup)) {
    const table = tableOfEntry(entry.name)
    const sha256 = blobOfEntry(entry.name)
    if (head === null) {
      head = await headFrom(entry, backup)
    } else if (table !== null) {
      const text = await textOf(entry, backup)
      hash.update(text)
      rows[table] = (rows[table] ?? 0) + linesOf(text).length
    } else if (sha256 !== null) {
      if ((await digestOf(entry)) !== sha256) damaged.push(sha256)
      blobs++
    } else if (entry.name === LAST_ENTRY) {
      end = await jsonOf<BackupEnd>(entry, backup)
    } else {
      throw damagedBackup(backup, `it holds ${named(entry.name)}`)
    }
  }
  if (head === null) throw noBackup(backup)
  if (end === null) throw damagedBackup(backup, 'its end is missing')
  const agrees =
    hash.digest('hex') === end.rowsSha256 &&
    Object.entries(end.rows).every(([table, count]) => (rows[table] ?? 0) === count) &&
    blobs === end.blobs &&
    damaged.join() === end.damaged.join()
  if (!agrees) throw damagedBackup(backup, 'its sums do not agree')
  return { head, end }
}

/** The files of a backup, one after another; to be read to its end or left. */
export async function* entriesIn(backup: string): AsyncIterable<TarEntry> {
  const bytes = createReadStream(backup) as AsyncIterable<Uint8Array>
  for await (const entry of worded(backup, entriesOf(bytes))) {
    yield { ...entry, content: worded(backup, entry.content) }
  }
}

export async function textOf({ sizeBytes, content }: TarEntry, backup: string): Promise<string> {
  if (sizeBytes > MOST_TEXT_BYTES) throw damagedBackup(backup, 'it holds too long a text')
  const parts: Uint8Array[] = []
  for await (const bytes of content) parts.push(bytes.slice())
  return new TextDecoder().decode(Buffer.concat(parts))
}

/** Rows stand one in a line. */
export function linesOf(text: string): readonly string[] {
  return text.split('\n').filter((line) => line !== '')
}

export function damagedBackup(backup: string, why: string, cause?: unknown): Failure {
  const message = `The backup ${named(backup)} is damaged (${why}): restore another one.`
  return new Failure('unreadable file', message, { cause })
}

async function headFrom(entry: TarEntry, backup: string): Promise<BackupHead> {
  if (entry.name !== FIRST_ENTRY) throw noBackup(backup)
  const head = await jsonOf<BackupHead>(entry, backup)
  if (head.kind !== 'yellowroom backup' || !Array.isArray(head.migrations)) throw noBackup(backup)
  if (head.layout > BACKUP_LAYOUT) {
    const message = `${named(backup)} was made by a newer Yellowroom: restore it with that one.`
    throw new Failure('world failed', message)
  }
  await refuseNewer(head.migrations)
  return head
}

async function digestOf({ content }: TarEntry): Promise<string> {
  const hash = createHash('sha256')
  for await (const bytes of content) hash.update(bytes)
  return hash.digest('hex')
}

async function jsonOf<Value>(entry: TarEntry, backup: string): Promise<Value> {
  const text = await textOf(entry, backup)
  try {
    return JSON.parse(text) as Value
  } catch (cause) {
    throw damagedBackup(backup, `${entry.name} cannot be read`, cause)
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

function noBackup(backup: string): Failure {
  const message = `${named(backup)} is no backup of a shop: name the file that 'backup' wrote.`
  return new Failure('unreadable file', message)
}

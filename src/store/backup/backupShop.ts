import { createHash, randomBytes } from 'node:crypto'
import { open, rename, rm, stat } from 'node:fs/promises'
import { dirname } from 'node:path'
import { Failure } from '../../core/failure.ts'
import { blobFile, readBlob } from '../blobs/blobStore.ts'
import { atOneMoment, type Database } from '../database/database.ts'
import { migrationsDone } from '../database/migrate.ts'
import type { At } from '../database/record.ts'
import { syncFolder } from '../folder/durable.ts'
import { diskFull, named, systemCode } from '../folder/refused.ts'
import type { OpenShop } from '../openShop.ts'
import { noteUpkeep } from '../upkeep.ts'
import {
  BACKUP_LAYOUT,
  type BackupEnd,
  type BackupHead,
  blobEntry,
  FIRST_ENTRY,
  LAST_ENTRY,
  rowsEntry,
} from './contents.ts'
import { heldBack } from './heldBack.ts'
import { rowPartsOf } from './rowParts.ts'
import { tablesInOrder } from './tablesInOrder.ts'
import { endTar, type Sink, writeEntry } from './tar.ts'

type Shop = Pick<OpenShop, 'database' | 'blobs'>

/** What a backup holds; damaged and missing files are told, not passed over. */
export type BackupSummary = Readonly<{
  rows: number
  blobs: number
  bytes: number
  damaged: readonly string[]
  missing: readonly string[]
}>

/**
 * Writes a backup of the whole shop into one file, which appears under its name when it is whole.
 *
 * @throws Failure 'already there' unless `force`; 'cannot write' when the place refuses
 */
export async function backupShop(
  shop: Shop,
  { path, force = false }: Readonly<{ path: string; force?: boolean }>,
  { at }: At,
): Promise<BackupSummary> {
  if (!force && (await isThere(path))) {
    const message = `${named(path)} is there already: name another file, or replace it with --force.`
    throw new Failure('already there', message)
  }
  const draft = `${path}.${randomBytes(6).toString('hex')}.new`
  try {
    const file = await open(draft, 'wx', 0o600)
    let summary: BackupSummary
    try {
      summary = await backupTo(shop, async (bytes) => await file.appendFile(bytes), { at })
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(draft, path)
    await syncFolder(dirname(path))
    return summary
  } catch (cause) {
    await rm(draft, { force: true })
    throw cause instanceof Failure || cause instanceof RangeError ? cause : refused(path, cause)
  }
}

/** The same as a stream of bytes, for whoever writes it elsewhere. */
export async function backupTo(
  { database, blobs }: Shop,
  sink: Sink,
  { at }: At,
): Promise<BackupSummary> {
  let bytes = 0
  const counted: Sink = (part) => {
    bytes += part.byteLength
    return sink(part)
  }
  return blobs.turns.whileKept(async () => {
    const { rows, rowsSha256, addresses } = await heldBack(
      blobs.folder,
      { sink: counted, at },
      (file) => writeRows(database, file, { at }),
    )
    const files = await writeBlobs(blobs, counted, { addresses, at })
    const end: BackupEnd = { rowsSha256, rows, ...files }
    await writeText(counted, { name: LAST_ENTRY, text: JSON.stringify(end), at })
    await endTar(counted)
    await noteUpkeep(database, 'backup', { at })
    return { ...files, bytes, rows: Object.values(rows).reduce((sum, count) => sum + count, 0) }
  })
}

type Rows = Readonly<{
  rows: Record<string, number>
  rowsSha256: string
  /** Of the files that the rows name. */
  addresses: readonly string[]
}>

/** All rows as they stood at one moment. */
async function writeRows(database: Database, sink: Sink, { at }: At): Promise<Rows> {
  return atOneMoment(database, async (inner) => {
    const migrations = await migrationsDone(inner)
    const head: BackupHead = {
      kind: 'yellowroom backup',
      layout: BACKUP_LAYOUT,
      at: at.toISOString(),
      migrations,
    }
    await writeText(sink, { name: FIRST_ENTRY, text: JSON.stringify(head), at })
    const hash = createHash('sha256')
    const rows: Record<string, number> = {}
    let part = 0
    for (const table of await tablesInOrder(inner)) {
      rows[table] = 0
      for await (const { text, count } of rowPartsOf(inner, table)) {
        hash.update(text)
        rows[table] += count
        await writeText(sink, { name: rowsEntry(table, ++part), text, at })
      }
    }
    const noted = await inner.selectFrom('blob').select('sha256').orderBy('sha256').execute()
    return {
      rows,
      rowsSha256: hash.digest('hex'),
      addresses: noted.map(({ sha256 }) => sha256),
    }
  })
}

type Files = Pick<BackupEnd, 'blobs' | 'damaged' | 'missing'>

async function writeBlobs(
  place: Shop['blobs'],
  sink: Sink,
  { addresses, at }: Readonly<{ addresses: readonly string[]; at: Date }>,
): Promise<Files> {
  const damaged: string[] = []
  const missing: string[] = []
  for (const sha256 of addresses) {
    const file = await blobFile(place, sha256).catch((cause: unknown) => {
      if (cause instanceof Failure && cause.kind === 'not found') return null
      throw cause
    })
    if (file === null) {
      missing.push(sha256)
      continue
    }
    const hash = createHash('sha256')
    const stream = (await readBlob(place, sha256)) as AsyncIterable<Uint8Array>
    const content = (async function* () {
      for await (const bytes of stream) {
        hash.update(bytes)
        yield bytes
      }
    })()
    await writeEntry(sink, { name: blobEntry(sha256), sizeBytes: file.sizeBytes, content }, { at })
    if (hash.digest('hex') !== sha256) damaged.push(sha256)
  }
  return { blobs: addresses.length - missing.length, damaged, missing }
}

async function writeText(
  sink: Sink,
  { name, text, at }: Readonly<{ name: string; text: string; at: Date }>,
): Promise<void> {
  const bytes = new TextEncoder().encode(text)
  const content = (async function* () {
    yield bytes
  })()
  await writeEntry(sink, { name, sizeBytes: bytes.byteLength, content }, { at })
}

async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  )
}

function refused(path: string, cause: unknown): Failure {
  const code = systemCode(cause)
  if (code === 'ENOSPC' || code === 'EDQUOT' || code === 'EFBIG')
    return diskFull(named(path), cause)
  const message = `The backup cannot be written to ${named(path)} (${code || String(cause)}): name a folder that is there and may be written.`
  return new Failure('cannot write', message, { cause })
}

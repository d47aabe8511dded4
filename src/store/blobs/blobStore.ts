import { createHash, type Hash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { type FileHandle, mkdir, open, rename, rm, stat, utimes } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import type { Readable } from 'node:stream'
import { Failure } from '../../core/failure.ts'
import type { Database } from '../database/database.ts'
import type { At } from '../database/record.ts'
import { syncFolder } from '../folder/durable.ts'
import { refusedBy, systemCode } from '../folder/refused.ts'
import type { ShopFolder } from '../folder/shopFolder.ts'
import { sortableId } from '../ids.ts'
import { blobPath, noSuchFile } from './blobPlace.ts'
import type { BlobRecord } from './blobRecord.ts'
import type { Turns } from './turns.ts'

/** Where a shop keeps files, and the turns that keeping and clearing them take. */
export type BlobPlace = Readonly<{ database: Database; folder: ShopFolder; turns: Turns }>

export type BlobWanted = Readonly<{
  mediaType: string
  /** More bytes than this are refused, at the first one over. */
  limitBytes: number
}>

/**
 * Keeps a file under its content's address: streamed, flushed, named and noted, or not at all.
 * Once this has answered the file is there after any crash or power cut. The same content is kept
 * once.
 *
 * @throws Failure 'too large', or 'cannot write' when the disk is full or refuses; what the source
 * throws. Nothing is left behind.
 */
export async function storeBlob(
  { database, folder, turns }: BlobPlace,
  source: AsyncIterable<Uint8Array>,
  { mediaType, limitBytes }: BlobWanted,
  { at }: At,
): Promise<BlobRecord> {
  const draft = join(folder.incoming, sortableId(at))
  try {
    const { sha256, sizeBytes } = await written(draft, source, { limitBytes, folder })
    return await turns.take(async () => {
      await settle(draft, blobPath(folder, sha256), at).catch((cause: unknown) => {
        throw refusedBy(folder.path, cause)
      })
      return noteBlob(database, { sha256, sizeBytes, mediaType, storedAt: at })
    })
  } finally {
    await rm(draft, { force: true })
  }
}

/**
 * Puts a file of a backup back in its place, without a note.
 *
 * @returns false when its content is not what its address says; then nothing was put anywhere
 */
export async function putBlobFile(
  folder: ShopFolder,
  source: AsyncIterable<Uint8Array>,
  { sha256, at }: Readonly<{ sha256: string; at: Date }>,
): Promise<boolean> {
  const draft = join(folder.incoming, sha256)
  try {
    const limitBytes = Number.POSITIVE_INFINITY
    const put = await written(draft, source, { limitBytes, folder })
    if (put.sha256 !== sha256) return false
    await settle(draft, blobPath(folder, sha256), at).catch((cause: unknown) => {
      throw refusedBy(folder.path, cause)
    })
    return true
  } finally {
    await rm(draft, { force: true })
  }
}

/** The path of a kept file, to be read and never written. @throws Failure 'not found' */
export async function blobFile(
  { folder }: Pick<BlobPlace, 'folder'>,
  sha256: string,
): Promise<Readonly<{ path: string; sizeBytes: number }>> {
  const path = blobPath(folder, sha256)
  try {
    return { path, sizeBytes: (await stat(path)).size }
  } catch (cause) {
    throw systemCode(cause) === 'ENOENT' ? noSuchFile(cause) : refusedBy(folder.path, cause)
  }
}

/** A kept file as a stream; of its bytes from … to, both included, when they are given. */
export async function readBlob(
  place: Pick<BlobPlace, 'folder'>,
  sha256: string,
  range: Readonly<{ from?: number; to?: number }> = {},
): Promise<Readable> {
  const { path } = await blobFile(place, sha256)
  const start = range.from === undefined ? {} : { start: range.from }
  const end = range.to === undefined ? {} : { end: range.to }
  return createReadStream(path, { ...start, ...end })
}

/** What is noted of a kept file. @throws Failure 'not found' */
export async function blobOf(database: Database, sha256: string): Promise<BlobRecord> {
  const row = await database
    .selectFrom('blob')
    .selectAll()
    .where('sha256', '=', sha256)
    .executeTakeFirst()
  if (row === undefined) throw noSuchFile()
  return row
}

/** The address of a file's content. */
export async function sha256Of(path: string): Promise<string> {
  const hash = createHash('sha256')
  for await (const bytes of createReadStream(path) as AsyncIterable<Uint8Array>) hash.update(bytes)
  return hash.digest('hex')
}

async function written(
  draft: string,
  source: AsyncIterable<Uint8Array>,
  { limitBytes, folder }: Readonly<{ limitBytes: number; folder: ShopFolder }>,
): Promise<Readonly<{ sha256: string; sizeBytes: number }>> {
  const refused = (cause: unknown): never => {
    throw refusedBy(folder.path, cause)
  }
  const hash = createHash('sha256')
  const file = await open(draft, 'wx', 0o644).catch(refused)
  try {
    let sizeBytes = 0
    for await (const bytes of source) {
      sizeBytes += bytes.byteLength
      if (sizeBytes > limitBytes) throw tooLarge(limitBytes)
      await append(file, bytes, hash).catch(refused)
    }
    await file.sync().catch(refused)
    return { sha256: hash.digest('hex'), sizeBytes }
  } finally {
    await file.close()
  }
}

async function append(file: FileHandle, bytes: Uint8Array, hash: Hash): Promise<void> {
  hash.update(bytes)
  let done = 0
  while (done < bytes.byteLength) {
    const { bytesWritten } = await file.write(bytes, done, bytes.byteLength - done)
    done += bytesWritten
  }
}

/**
 * Gives the draft its name. A file of the same content that is there already stays, and counts as
 * new, so that it is not cleared away before it is noted.
 */
async function settle(draft: string, path: string, at: Date): Promise<void> {
  const parent = dirname(path)
  await mkdir(parent, { recursive: true })
  const isThere = await utimes(path, at, at).then(
    () => true,
    (cause: unknown) => {
      if (systemCode(cause) === 'ENOENT') return false
      throw cause
    },
  )
  if (!isThere) {
    await utimes(draft, at, at)
    await rename(draft, path)
  }
  await syncFolder(parent)
  await syncFolder(dirname(parent))
}

function noteBlob(database: Database, blob: BlobRecord): Promise<BlobRecord> {
  return database
    .insertInto('blob')
    .values(blob)
    .onConflict((conflict) => conflict.column('sha256').doUpdateSet({ storedAt: blob.storedAt }))
    .returningAll()
    .executeTakeFirstOrThrow()
}

function tooLarge(limitBytes: number): Failure {
  const most =
    limitBytes >= 2 ** 20 ? `${Math.floor(limitBytes / 2 ** 20)} MB` : `${limitBytes} bytes`
  return new Failure(
    'too large',
    `The file has more than ${most}, and that is the most that is taken: make it smaller, or send it in parts.`,
  )
}

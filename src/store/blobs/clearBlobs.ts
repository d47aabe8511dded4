import { readdir, stat, unlink } from 'node:fs/promises'
import { join } from 'node:path'
import { sql } from 'kysely'
import { type Database, inTransaction } from '../database/database.ts'
import type { At } from '../database/record.ts'
import { refusedBy, systemCode } from '../folder/refused.ts'
import type { ShopFolder } from '../folder/shopFolder.ts'
import { isSha256 } from './blobPlace.ts'
import type { BlobPlace } from './blobStore.ts'

/** What lies about unused for less than this may be somebody's who is about to use it. */
const GRACE_MS = 24 * 3600_000

/** Files that were cleared away, and their bytes. */
export type Cleared = Readonly<{ files: number; bytes: number }>

/**
 * Clears away the files that no record names: first the notes of them, then what has no note.
 * Only what has lain for a day, so that a file that was just sent is not lost before its film is
 * written down; and nothing while a backup is being made.
 */
export async function clearBlobs(
  { database, folder, turns }: BlobPlace,
  { at }: At,
): Promise<Cleared> {
  const before = new Date(at.getTime() - GRACE_MS)
  return turns.take(async () => {
    if (turns.isKept()) return { files: 0, bytes: 0 }
    await forgetUnnamed(database, before)
    const noted = await database.selectFrom('blob').select('sha256').execute()
    const kept = new Set(noted.map(({ sha256 }) => sha256))
    let cleared: Cleared = { files: 0, bytes: 0 }
    for await (const { path, sha256 } of blobFiles(folder)) {
      if (kept.has(sha256)) continue
      const { mtime, size } = await stat(path)
      if (mtime >= before) continue
      await unlink(path)
      cleared = { files: cleared.files + 1, bytes: cleared.bytes + size }
    }
    return cleared
  })
}

/** Every file under the blobs that lies where its name says. */
export async function* blobFiles(
  folder: ShopFolder,
): AsyncIterable<Readonly<{ path: string; sha256: string }>> {
  for (const part of await namesIn(folder.blobs)) {
    for (const rest of await namesIn(join(folder.blobs, part))) {
      const sha256 = `${part}${rest}`
      if (part.length === 2 && isSha256(sha256))
        yield { path: join(folder.blobs, part, rest), sha256 }
    }
  }
}

async function namesIn(path: string): Promise<readonly string[]> {
  try {
    return (await readdir(path)).sort()
  } catch (cause) {
    if (systemCode(cause) === 'ENOTDIR' || systemCode(cause) === 'ENOENT') return []
    throw refusedBy(path, cause)
  }
}

/** Whatever column refers to a blob is looked up in the schema, so a new one is never forgotten. */
async function forgetUnnamed(database: Database, before: Date): Promise<void> {
  await inTransaction(database, async (inner) => {
    const { rows } = await sql<{ tableName: string; columnName: string }>`
      select c.conrelid::regclass::text as table_name, a.attname as column_name
      from pg_constraint c
      join pg_attribute a on a.attrelid = c.conrelid and a.attnum = c.conkey[1]
      where c.contype = 'f' and c.confrelid = 'blob'::regclass`.execute(inner)
    const named = rows.map(
      ({ tableName, columnName }) =>
        sql`exists (select 1 from ${sql.table(tableName)} t where t.${sql.ref(columnName)} = blob.sha256)`,
    )
    await sql`
      delete from blob where stored_at < ${before}
      and not (${named.length === 0 ? sql`false` : sql.join(named, sql` or `)})`.execute(inner)
  })
}

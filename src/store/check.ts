import { sql } from 'kysely'
import { Failure } from '../core/failure.ts'
import { referencesOf, tablesInOrder } from './backup/tablesInOrder.ts'
import { blobFile, sha256Of } from './blobs/blobStore.ts'
import type { Database } from './database/database.ts'
import type { At } from './database/record.ts'
import type { OpenShop } from './openShop.ts'
import { noteUpkeep } from './upkeep.ts'

/** How well a shop's data is. */
export type Health = Readonly<{
  kind: 'check'
  verdict: 'sound' | 'damaged'
  /** Rows by table; null for a table that cannot be read through. */
  rows: Readonly<Record<string, number | null>>
  blobs: Readonly<{
    count: number
    bytes: number
    /** Files whose content is not what their address says. */
    damaged: readonly string[]
    missing: readonly string[]
  }>
  /** References to rows that are not there. */
  dangling: readonly Readonly<{ table: string; column: string; count: number }>[]
  /** Whether what is saved reaches the disk; null on a server, which does not say. */
  durable: boolean | null
}>

/**
 * Reads everything through: every table (the database checks its pages' sums), every reference,
 * every file against its address; and proves that saving reaches the disk.
 *
 * @param onFile hears of each file that was read, for a bar
 */
export async function checkShop(
  shop: OpenShop,
  { at }: At,
  onFile: (done: number, all: number) => void = () => undefined,
): Promise<Health> {
  const { database } = shop
  const rows: Record<string, number | null> = {}
  for (const table of await tablesInOrder(database)) rows[table] = await countIn(database, table)
  const dangling = await danglingIn(database, rows)
  const blobs = await checkBlobs(shop, onFile)
  const before = shop.syncs()
  await noteUpkeep(database, 'check', { at })
  const durable = shop.engine === 'server' ? null : shop.syncs() > before
  const isSound =
    Object.values(rows).every((count) => count !== null) &&
    dangling.length + blobs.damaged.length + blobs.missing.length === 0 &&
    durable !== false
  const verdict = isSound ? 'sound' : 'damaged'
  return { kind: 'check', verdict, rows, blobs, dangling, durable }
}

/** Damaged data and damaged indexes have these codes. */
const DAMAGED = new Set(['XX000', 'XX001', 'XX002', '58P01', '58030'])

async function countIn(database: Database, table: string): Promise<number | null> {
  try {
    // the text of every row, so that every page and every long value is read
    const { rows } = await sql<{ count: number }>`
      select count(t::text) as count from ${sql.table(table)} t`.execute(database)
    return rows[0]?.count ?? 0
  } catch (cause) {
    const code = cause instanceof Error && 'code' in cause ? String(cause.code) : ''
    if (DAMAGED.has(code)) return null
    throw cause
  }
}

async function danglingIn(
  database: Database,
  readable: Readonly<Record<string, number | null>>,
): Promise<Health['dangling']> {
  const dangling: { table: string; column: string; count: number }[] = []
  for (const { table, column, refersTo, key } of await referencesOf(database)) {
    if (readable[table] === null || readable[refersTo] === null) continue
    const { rows } = await sql<{ count: number }>`
      select count(*) as count from ${sql.table(table)} child
      where child.${sql.ref(column)} is not null and not exists (
        select 1 from ${sql.table(refersTo)} parent
        where parent.${sql.ref(key)} = child.${sql.ref(column)})`.execute(database)
    const count = rows[0]?.count ?? 0
    if (count > 0) dangling.push({ table, column, count })
  }
  return dangling
}

async function checkBlobs(
  { database, blobs }: OpenShop,
  onFile: (done: number, all: number) => void,
): Promise<Health['blobs']> {
  const noted = await database.selectFrom('blob').selectAll().orderBy('sha256').execute()
  const damaged: string[] = []
  const missing: string[] = []
  let bytes = 0
  for (const [index, { sha256 }] of noted.entries()) {
    try {
      const { path, sizeBytes } = await blobFile(blobs, sha256)
      bytes += sizeBytes
      if ((await sha256Of(path)) !== sha256) damaged.push(sha256)
    } catch (cause) {
      if (!(cause instanceof Failure) || cause.kind !== 'not found') throw cause
      missing.push(sha256)
    }
    onFile(index + 1, noted.length)
  }
  return { count: noted.length, bytes, damaged, missing }
}

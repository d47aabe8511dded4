/** How a backup is laid out; a program of another number refuses it. */
export const BACKUP_LAYOUT = 1

/** The names of a backup's files, in their order. */
export const FIRST_ENTRY = 'yellowroom-backup.json'
export const LAST_ENTRY = 'end.json'

/** What a backup says first: what it is, and which schema its rows are of. */
export type BackupHead = Readonly<{
  kind: 'yellowroom backup'
  layout: number
  /** When it was made, as ISO 8601. */
  at: string
  migrations: readonly string[]
}>

/** What a backup says last: a backup without it is cut off. */
export type BackupEnd = Readonly<{
  /** Of the rows' files, one after another. */
  rowsSha256: string
  rows: Readonly<Record<string, number>>
  blobs: number
  /** Files that were noted in the shop, but damaged or not there when the backup was made. */
  damaged: readonly string[]
  missing: readonly string[]
}>

/** Rows of one table, one JSON object a line; `part` counts through the whole backup. */
export function rowsEntry(table: string, part: number): string {
  return `rows/${String(part).padStart(6, '0')}-${table}.jsonl`
}

/** The table whose rows a file holds; null for another file. */
export function tableOfEntry(name: string): string | null {
  return /^rows\/\d{6}-([a-z_]{1,60})\.jsonl$/.exec(name)?.[1] ?? null
}

export function blobEntry(sha256: string): string {
  return `blobs/${sha256}`
}

/** The address of the file that an entry holds; null for another entry. */
export function blobOfEntry(name: string): string | null {
  return /^blobs\/([0-9a-f]{64})$/.exec(name)?.[1] ?? null
}

import { sql } from 'kysely'
import type { Database } from '../database/database.ts'

/** Some rows of a table as JSON, one in a line, and how many they are. */
export type RowPart = Readonly<{ text: string; count: number }>

const ROWS_AT_ONCE = 500
const PART_BYTES = 2 ** 20

/**
 * All rows of a table as JSON, one in a line, in an order that does not change, about a megabyte at
 * a time; to be read to its end within one transaction.
 */
export async function* rowPartsOf(database: Database, table: string): AsyncIterable<RowPart> {
  await sql`
    declare backup_rows cursor for
    select row_to_json(t)::text as line from ${sql.table(table)} t
    order by (row_to_json(t)::text) collate "C"`.execute(database)
  let text = ''
  let count = 0
  for (;;) {
    const { rows } = await sql<{ line: string }>`
      fetch ${sql.lit(ROWS_AT_ONCE)} from backup_rows`.execute(database)
    for (const { line } of rows) {
      text += `${line}\n`
      count++
      if (text.length < PART_BYTES) continue
      yield { text, count }
      text = ''
      count = 0
    }
    if (rows.length < ROWS_AT_ONCE) break
  }
  await sql`close backup_rows`.execute(database)
  if (count > 0) yield { text, count }
}

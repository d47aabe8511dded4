import { sql } from 'kysely'
import type { Database } from '../database/database.ts'

/** A column that refers to a row of another table. */
export type Reference = Readonly<{ table: string; column: string; refersTo: string; key: string }>

/** The migrator keeps its own books, which a backup says otherwise. */
const NOT_OURS = /^kysely_/

/** All tables of the shop, each after those that it refers to, as they are named in SQL. */
export async function tablesInOrder(database: Database): Promise<readonly string[]> {
  const { rows } = await sql<{ name: string }>`
    select relname as name from pg_class
    where relkind = 'r' and relnamespace = current_schema()::regnamespace order by relname`.execute(
    database,
  )
  const waiting = new Set(rows.map(({ name }) => name).filter((name) => !NOT_OURS.test(name)))
  const references = await referencesOf(database)
  const ordered: string[] = []
  while (waiting.size > 0) {
    const next = [...waiting].find((table) =>
      references.every(
        (one) => one.table !== table || one.refersTo === table || !waiting.has(one.refersTo),
      ),
    )
    if (next === undefined) throw new RangeError(`tables: ${[...waiting].join()} refer in a circle`)
    waiting.delete(next)
    ordered.push(next)
  }
  return ordered
}

/** Every reference between tables, from the schema itself. */
export async function referencesOf(database: Database): Promise<readonly Reference[]> {
  const { rows } = await sql<Reference>`
    select child.relname as table, own.attname as column,
      parent.relname as refers_to, their.attname as key
    from pg_constraint c
    join pg_class child on child.oid = c.conrelid
    join pg_class parent on parent.oid = c.confrelid
    join pg_attribute own on own.attrelid = c.conrelid and own.attnum = c.conkey[1]
    join pg_attribute their on their.attrelid = c.confrelid and their.attnum = c.confkey[1]
    where c.contype = 'f' and child.relnamespace = current_schema()::regnamespace
    order by 1, 2`.execute(database)
  return rows
}

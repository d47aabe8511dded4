import { type RawBuilder, sql } from 'kysely'
import { Failure } from '../../core/failure.ts'

/** Any JSON value, for what the database keeps without looking into it. */
export type Json =
  | null
  | boolean
  | number
  | string
  | readonly Json[]
  | Readonly<{ [key: string]: Json }>

/** When it happens: time comes in as an argument. */
export type At = Readonly<{ at: Date }>

/** What may be null may be left out of a new record. */
type Nullable<Record> = {
  [Key in keyof Record]: null extends Record[Key] ? Key : never
}[keyof Record]

/** A record before the store gave it its name and day, and what else the store fills in. */
export type New<Record, Filled extends keyof Record = never> = Omit<
  Record,
  'id' | 'createdAt' | Filled | Nullable<Record>
> &
  Partial<Pick<Record, Exclude<Nullable<Record>, Filled>>>

/** @throws Failure 'not found' when there was no row */
export function found<Row>(row: Row | undefined, what: string): Row {
  if (row !== undefined) return row
  const message = `There is no such ${what} in this shop; it may have been removed since the page was drawn.`
  throw new Failure('not found', message)
}

/** A value for a jsonb column; the driver would take a list for an array of the database. */
export function asJson(value: Json): RawBuilder<null> {
  return sql`cast(${JSON.stringify(value)} as jsonb)`
}

/** The same where nothing may stand. */
export function asJsonOrNull(value: Json | undefined): RawBuilder<null> | null {
  return value === undefined || value === null ? null : asJson(value)
}

/** How many of a long list, and from where on: the id of the last one that was seen. */
export type Page = Readonly<{ limit: number; before?: string }>

/** True when there is something to change: an empty change is no statement. */
export function isChange(changes: object): boolean {
  return Object.values(changes).some((value) => value !== undefined)
}

import { AsyncLocalStorage } from 'node:async_hooks'
import {
  CamelCasePlugin,
  Kysely,
  PostgresDialect,
  type PostgresPool,
  type PostgresPoolClient,
} from 'kysely'
import { sqlFailure } from './sqlFailure.ts'
import type { Tables } from './tables.ts'

/** The shop's database, or one open transaction of it: every function of the store takes either. */
export type Database = Kysely<Tables>

/** Set while the function given to `inTransaction` runs. */
const inside = new AsyncLocalStorage<true>()

/** The database over an engine's pool; errors come out as `sqlFailure` words them. */
export function databaseOver(pool: PostgresPool): Database {
  return new Kysely<Tables>({
    dialect: new PostgresDialect({
      pool: {
        connect: async () => {
          if (inside.getStore() !== undefined) throw new RangeError(OUTSIDE)
          return guarded(await pool.connect().catch(throwWorded))
        },
        end: () => pool.end(),
      },
    }),
    plugins: [new CamelCasePlugin({ maintainNestedObjectKeys: true })],
  })
}

const OUTSIDE =
  'database: inside a transaction only its own handle may be used; the outer one would wait for ever'

/**
 * All of it or nothing. Inside, only the handle that `work` is given may be used, and nothing is
 * waited for but the database: everybody else waits for this transaction.
 *
 * @throws whatever `work` throws, after everything was undone
 */
export function inTransaction<Result>(
  database: Database,
  work: (inner: Database) => Promise<Result>,
): Promise<Result> {
  if (database.isTransaction) return work(database)
  return database.transaction().execute((transaction) => inside.run(true, () => work(transaction)))
}

/** What is read in it belongs together, whatever is taken down meanwhile. */
export function atOneMoment<Result>(
  database: Database,
  read: (inner: Database) => Promise<Result>,
): Promise<Result> {
  return database
    .transaction()
    .setIsolationLevel('repeatable read')
    .setAccessMode('read only')
    .execute(read)
}

function guarded(client: PostgresPoolClient): PostgresPoolClient {
  const query = (sql: string, parameters: readonly unknown[]): Promise<unknown> =>
    client.query(sql, parameters).catch((error: unknown) => {
      throw sqlFailure(error, sql)
    })
  return {
    query: query as PostgresPoolClient['query'],
    release: (destroy) => client.release(destroy),
  }
}

function throwWorded(error: unknown): never {
  throw sqlFailure(error)
}

import { readdir, readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { type Migration, type MigrationProvider, Migrator, sql } from 'kysely'
import { Failure } from '../../core/failure.ts'
import type { Database } from './database.ts'

/** The migrations are read as they stand in the sources, also by what is compiled of these. */
const FOLDER = fileURLToPath(new URL('../../../src/store/migrations/', import.meta.url))

/** The names of all migrations, in their order. */
export async function migrationNames(): Promise<readonly string[]> {
  const files = await readdir(FOLDER)
  return files
    .filter((name) => /^\d{4}_\w+\.sql$/.test(name))
    .map((name) => name.replace(/\.sql$/, ''))
    .sort()
}

/** The migrations that this database went through, in their order; none when it is new. */
export async function migrationsDone(database: Database): Promise<readonly string[]> {
  const { rows } = await sql<{ there: boolean }>`
    select to_regclass('kysely_migration') is not null as there`.execute(database)
  if (rows[0]?.there !== true) return []
  const done = await sql<{ name: string }>`
    select name from kysely_migration order by name`.execute(database)
  return done.rows.map(({ name }) => name)
}

/**
 * Brings the database to the newest schema, or to the one after `upTo`: all steps or none.
 *
 * @throws Failure 'world failed' for data of a newer program, which is left as it is
 */
export async function migrate(
  database: Database,
  { upTo }: Readonly<{ upTo?: string }> = {},
): Promise<void> {
  const done = await migrationsDone(database)
  await refuseNewer(done)
  if (upTo === undefined && done.length === (await migrationNames()).length) return
  const migrator = new Migrator({ db: database, provider: { getMigrations } })
  const { error } = await (upTo === undefined
    ? migrator.migrateToLatest()
    : migrator.migrateTo(upTo))
  if (error instanceof Error) throw error
}

/** @throws Failure 'world failed' when one of them is not ours */
export async function refuseNewer(done: readonly string[]): Promise<void> {
  const ours = await migrationNames()
  const strange = done.find((name, index) => ours[index] !== name)
  if (strange === undefined) return
  const message = `This shop's data was last opened by a newer Yellowroom (it went through '${strange}'): start that one. Nothing was changed.`
  throw new Failure('world failed', message)
}

const getMigrations: MigrationProvider['getMigrations'] = async () => {
  const migrations: Record<string, Migration> = {}
  for (const name of await migrationNames()) {
    const text = await readFile(`${FOLDER}${name}.sql`, 'utf8')
    migrations[name] = { up: async (database) => void (await sql.raw(text).execute(database)) }
  }
  return migrations
}

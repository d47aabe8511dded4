import { readdir, readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { sql } from 'kysely'
import { afterEach, expect, test } from 'vitest'
import { isFailure } from '../../../src/core/failure.ts'
import { tablesInOrder } from '../../../src/store/backup/tablesInOrder.ts'
import { type Database, databaseOver, inTransaction } from '../../../src/store/database/database.ts'
import { embeddedEngine, serverEngine } from '../../../src/store/database/engine.ts'
import { migrate, migrationNames, migrationsDone } from '../../../src/store/database/migrate.ts'
import { ThreadDatabase } from '../../../src/store/embedded/threadDatabase.ts'
import { openShop } from '../../../src/store/openShop.ts'
import { theShop } from '../../../src/store/shop.ts'
import { signOffs } from '../../../src/store/signOffs.ts'
import { minute } from '../sampleRoom.ts'
import { emptyShopIn } from '../scratch.ts'
import type { Bench } from './bench.ts'
import { CASES } from './migrationCases.ts'

/** What shops held after each migration; written down once and never changed. */
const OLD = fileURLToPath(new URL('../old/', import.meta.url))

/** Each migration from the data of the one before; newer data is refused and left as it is. */
export function migrationSuite({ kind, shop, another }: Bench): void {
  const emptySchema = async (): Promise<void> => {
    await sql`drop schema public cascade`.execute(shop().database)
    await sql`create schema public`.execute(shop().database)
  }
  afterEach(async () => {
    await emptySchema()
    await migrate(shop().database)
  })

  test('each migration keeps what a shop held before it, and the newest data is held for the next', async () => {
    const { database } = shop()
    await emptySchema()
    const names = await migrationNames()
    expect(Object.keys(CASES)).toEqual(names)
    expect((await readdir(OLD)).sort()).toEqual(names.map((name) => `${name}.sql`))
    for (const name of names) {
      const held = await rowsIn(database)
      await migrate(database, { upTo: name })
      expect(await migrationsDone(database)).toEqual(names.slice(0, names.indexOf(name) + 1))
      const now = await rowsIn(database)
      for (const [table, rows] of Object.entries(held)) {
        const kept = (now[table] ?? []).map(columnsOf(rows))
        expect([name, table, kept]).toEqual([name, table, rows.map(read)])
      }
      await undone(database, async (inner) => CASES[name]?.holds(inner))
      await sql.raw(await readFile(`${OLD}${name}.sql`, 'utf8')).execute(database)
    }
    const empty = Object.entries(await rowsIn(database)).filter(([, rows]) => rows.length === 0)
    expect(empty.map(([table]) => table)).toEqual([])
  }, 60_000)

  test('who was shown booth and pressure washer as one keeps both, and is asked for both', async () => {
    const { database } = shop()
    await emptySchema()
    for (const name of (await migrationNames()).filter((each) => each < '0028')) {
      await migrate(database, { upTo: name })
      await sql.raw(await readFile(`${OLD}${name}.sql`, 'utf8')).execute(database)
    }
    await sql`update sign_off set machine = 'water', unit_id = null`.execute(database)
    await sql`update shop set shown_first = '["light", "water"]'`.execute(database)
    await migrate(database)
    const shown = (await signOffs(database)).map((signOff) => ({ ...signOff, id: '' }))
    expect(shown.map(({ machine }) => machine)).toEqual(['pressure washing', 'water'])
    const [pressure, water] = shown
    expect(pressure).toEqual({ ...water, machine: 'pressure washing' })
    const { shownFirst } = await theShop(database)
    expect(shownFirst).toEqual(['light', 'water', 'pressure washing'])
  }, 60_000)

  test('a second run changes nothing', async () => {
    const { database } = shop()
    const before = await sql`select * from kysely_migration`.execute(database)
    await migrate(database)
    expect((await sql`select * from kysely_migration`.execute(database)).rows).toEqual(before.rows)
  })

  test('newer data is refused in one sentence and not touched', async () => {
    const there = await another('newer')
    const { folder, ...options } = there
    if (kind === 'embedded') await emptyShopIn(folder)
    const open = await openShop(folder, options)
    await open.database
      .insertInto('person')
      .values({ id: '0'.repeat(26), name: 'Demo Tam', role: 'lead', createdAt: minute(1) })
      .execute()
    await sql`insert into kysely_migration values ('0999_from_the_future', '2031-01-01')`.execute(
      open.database,
    )
    await sql`alter table person add column shoe_size integer default 43`.execute(open.database)
    await open.close()
    for (let tries = 0; tries < 2; tries++) {
      const refused = await openShop(folder, options).catch((cause: unknown) => cause)
      expect(isFailure(refused, 'world failed') && refused.message).toMatch(
        /was last opened by a newer Yellowroom .*'0999_from_the_future'.*: start that one[.] Nothing was changed[.]/,
      )
    }
    const { databaseUrl } = there
    const engine =
      databaseUrl === undefined
        ? embeddedEngine(await ThreadDatabase.start(folder))
        : await serverEngine(databaseUrl)
    const untouched = databaseOver(engine.pool)
    expect((await rowsIn(untouched))['person']).toEqual([
      expect.stringContaining('"name":"Demo Tam"'),
    ])
    expect((await rowsIn(untouched))['person']?.[0]).toContain('"shoe_size":43')
    expect(await migrationsDone(untouched)).toContain('0999_from_the_future')
    await untouched.destroy()
    await engine.close()
  })
}

/** Work in a transaction that is taken back: the next migration meets what shops held. */
async function undone(
  database: Database,
  work: (inner: Database) => Promise<void> | undefined,
): Promise<void> {
  const back = new Error('taken back')
  const ended = inTransaction(database, async (inner) => {
    await work(inner)
    throw back
  })
  await expect(ended).rejects.toBe(back)
}

const read = (line: string): Readonly<Record<string, unknown>> =>
  JSON.parse(line) as Readonly<Record<string, unknown>>

/** Of a row only the columns that there were before: a migration may add others. */
function columnsOf(before: readonly string[]): (line: string) => Readonly<Record<string, unknown>> {
  const names = new Set(before.flatMap((line) => Object.keys(read(line))))
  return (line) =>
    Object.fromEntries(Object.entries(read(line)).filter(([name]) => names.has(name)))
}

async function rowsIn(database: Database): Promise<Record<string, readonly string[]>> {
  const all: Record<string, readonly string[]> = {}
  for (const table of await tablesInOrder(database)) {
    const { rows } = await sql<{ line: string }>`
      select row_to_json(t)::text as line from ${sql.table(table)} t order by 1`.execute(database)
    all[table] = rows.map(({ line }) => line)
  }
  return all
}

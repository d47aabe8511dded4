import { join } from 'node:path'
import { sql } from 'kysely'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { tablesInOrder } from '../../src/store/backup/tablesInOrder.ts'
import { type OpenShop, openShop } from '../../src/store/openShop.ts'
import { type PostgresServer, startPostgres } from './postgresServer.ts'
import { emptyShopIn, scratch } from './scratch.ts'
import { backupSuite } from './suites/backup.ts'
import type { Bench } from './suites/bench.ts'
import { blobSuite } from './suites/blobs.ts'
import { constraintSuite } from './suites/constraints.ts'
import { jobSuite } from './suites/jobs.ts'
import { migrationSuite } from './suites/migrations.ts'
import { recordSuite } from './suites/records.ts'
import { registerSuite } from './suites/register.ts'
import { runSuite } from './suites/runs.ts'
import { ticketSuite } from './suites/tickets.ts'
import { transactionSuite } from './suites/transactions.ts'
import { workSuite } from './suites/work.ts'

const folder = scratch()

let server: PostgresServer

beforeAll(async () => {
  server = await startPostgres()
})
afterAll(() => server.stop())

describe.each(['embedded', 'server'] as const)('%s', (kind) => {
  let shop: OpenShop

  const another: Bench['another'] = async (name) => ({
    folder: join(folder, `${kind}-${name}`),
    ...(kind === 'server' && { databaseUrl: await server.newDatabase() }),
  })

  beforeAll(async () => {
    const { folder: path, ...options } = await another('suite')
    if (kind === 'embedded') await emptyShopIn(path)
    shop = await openShop(path, options)
  })
  afterAll(() => shop.close())
  beforeEach(async () => {
    // to truncate would make new files of forty tables each time
    const tables = [...(await tablesInOrder(shop.database))].reverse()
    const emptied = tables.map((table) => `delete from "${table}"`).join('; ')
    await sql.raw(emptied).execute(shop.database)
  })

  test('is the engine that it says', async () => {
    expect(shop.engine).toBe(kind)
    const { rows } = await sql<{ version: string }>`select version()`.execute(shop.database)
    expect(rows[0]?.version.includes('wasm32')).toBe(kind === 'embedded')
  })

  const bench: Bench = { kind, shop: () => shop, another }
  describe('records', () => recordSuite(bench))
  describe('work', () => workSuite(bench))
  describe('tickets', () => ticketSuite(bench))
  describe('runs', () => runSuite(bench))
  describe('register', () => registerSuite(bench))
  describe('constraints', () => constraintSuite(bench))
  describe('transactions', () => transactionSuite(bench))
  describe('jobs', () => jobSuite(bench))
  describe('files', () => blobSuite(bench))
  describe('backup', () => backupSuite(bench))
  describe('migrations', () => migrationSuite(bench))
})

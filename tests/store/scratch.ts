import { createHash } from 'node:crypto'
import { accessSync, constants, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { access, cp, mkdir, rename, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll } from 'vitest'
import { migrationNames } from '../../src/store/database/migrate.ts'
import { openShop } from '../../src/store/openShop.ts'
import { startQuickly } from './quickStart.ts'

const ROOT = fileURLToPath(new URL('../../', import.meta.url))
const CACHE = join(ROOT, 'node_modules/.cache/yellowroom-store')

/** A folder in memory where there is one: a killed process loses nothing there either. */
export function scratch(): string {
  startQuickly()
  const folder = mkdtempSync(join(memory() ?? tmpdir(), 'yellowroom-store-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

function memory(): string | null {
  try {
    accessSync('/dev/shm', constants.W_OK)
    return '/dev/shm'
  } catch {
    return null
  }
}

/**
 * Fills a folder with a shop that was just made and closed, with no record in it. Making the first
 * one takes seconds; the rest are copies of it, kept for the next run until a migration changes.
 */
export async function emptyShopIn(folder: string): Promise<string> {
  const made = join(CACHE, await stateOfTheSchema())
  if (!(await isWhole(made))) {
    const draft = `${made}.${process.pid}`
    await mkdir(draft, { recursive: true })
    await (await openShop(draft)).close()
    await rename(draft, made).catch(() => rm(draft, { recursive: true }))
  }
  await cp(made, folder, { recursive: true })
  return folder
}

async function isWhole(folder: string): Promise<boolean> {
  return access(join(folder, 'yellowroom.json')).then(
    () => true,
    () => false,
  )
}

async function stateOfTheSchema(): Promise<string> {
  const hash = createHash('sha256')
  for (const name of await migrationNames()) {
    hash.update(readFileSync(join(ROOT, 'src/store/migrations', `${name}.sql`)))
  }
  hash.update(readFileSync(join(ROOT, 'node_modules/@electric-sql/pglite/package.json')))
  return hash.digest('hex').slice(0, 16)
}

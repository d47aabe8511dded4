import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const ROOT = fileURLToPath(new URL('..', import.meta.url))

type Package = Readonly<{
  name?: string
  license?: string
  dependencies?: Readonly<Record<string, string>>
  devDependencies?: Readonly<Record<string, string>>
}>

type Locked = Readonly<{ version?: string; resolved?: string; license?: string; dev?: boolean }>

const text = (path: string): Promise<string> => readFile(join(ROOT, path), 'utf8')

async function locked(): Promise<readonly (readonly [string, Locked])[]> {
  const lock = JSON.parse(await text('package-lock.json')) as { packages: Record<string, Locked> }
  return Object.entries(lock.packages).filter(([path]) => path !== '')
}

/** Licences under which a package may stand here; each is free to use, change and pass on. */
const FREE = new Set([
  'MIT',
  'MIT-0',
  'ISC',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '0BSD',
  'MPL-2.0',
  'OFL-1.1',
  'Zlib',
  'Python-2.0',
  'BlueOak-1.0.0',
  'CC0-1.0',
  'Unlicense',
])

/** A library of its own beside ours, which anybody may exchange: libvips, inside sharp's packages. */
const LESSER = /^node_modules\/@img\/sharp-(libvips|win32|wasm32)/

/** Whether a licence text like `(MIT OR Apache-2.0)` or `Apache-2.0 AND LGPL-3.0-or-later` will do. */
function isFree(license: string, path: string): boolean {
  const words = license.replace(/[()]/g, ' ').trim()
  if (/ OR /.test(words)) return words.split(/ OR /).some((one) => isFree(one, path))
  if (/ AND /.test(words)) return words.split(/ AND /).every((one) => isFree(one, path))
  return FREE.has(words.trim()) || (words.trim() === 'LGPL-3.0-or-later' && LESSER.test(path))
}

test('every dependency is pinned to one version', async () => {
  const { dependencies = {}, devDependencies = {} } = JSON.parse(
    await text('package.json'),
  ) as Package
  const all = Object.entries({ ...dependencies, ...devDependencies })
  expect(all.length).toBeGreaterThan(5)
  expect(all.filter(([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([])
  const both = Object.keys(dependencies).filter((name) => name in devDependencies)
  expect(both).toEqual([])
})

test('the README names each dependency with its version and its licence, and no other', async () => {
  const { dependencies = {}, devDependencies = {} } = JSON.parse(
    await text('package.json'),
  ) as Package
  const row = /^\| *`((?:@[\w.-]+\/)?[\w.-]+)` +([\d.]+\S*) *\| *([^|]+?) *\|/gm
  const said = [...(await text('README.md')).matchAll(row)]
    .map(([, name, version, license]) => `${name} ${version} ${license}`)
    .sort()
  const licenses = new Map((await locked()).map(([path, { license }]) => [path, license]))
  const asked = Object.entries({ ...dependencies, ...devDependencies })
  expect(said).toEqual(
    asked
      .map(([name, version]) => `${name} ${version} ${licenses.get(`node_modules/${name}`)}`)
      .sort(),
  )
})

test('every package that is installed is free to use, and none under the GPL', async () => {
  const packages = await locked()
  const refused = packages.filter(([path, { license = '' }]) => !isFree(license, path))
  expect(refused.map(([path, { license }]) => `${path}: ${license}`)).toEqual([])
})

test('what the lockfile says of licences is what the packages say themselves', async () => {
  const differing: string[] = []
  for (const [path, { license }] of await locked()) {
    const own = await text(join(path, 'package.json')).catch(() => null) // for another system
    if (own === null) continue
    const said = (JSON.parse(own) as Package).license
    if (said !== license) differing.push(`${path}: ${said} and not ${license}`)
  }
  expect(differing).toEqual([])
})

test('the check of licences bites', () => {
  expect(isFree('(MIT OR GPL-3.0-only)', 'node_modules/x')).toBe(true)
  expect(isFree('MIT AND GPL-3.0-only', 'node_modules/x')).toBe(false)
  expect(isFree('AGPL-3.0-only', 'node_modules/x')).toBe(false)
  expect(isFree('LGPL-3.0-or-later', 'node_modules/x')).toBe(false)
  expect(isFree('LGPL-3.0-or-later', 'node_modules/@img/sharp-libvips-linux-x64')).toBe(true)
  expect(isFree('', 'node_modules/x')).toBe(false)
})

test('no lockfile names a registry', async () => {
  const folders = ['.', 'tools']
  for (const folder of folders) {
    const lock = await text(join(folder, 'package-lock.json'))
    expect(lock).not.toMatch(/"resolved"|https?:\/\/registry/)
  }
  expect(await readdir(join(ROOT, 'tools'))).toContain('package.json')
})

import { spawn } from 'node:child_process'
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'

const ROOT = fileURLToPath(new URL('..', import.meta.url))

/**
 * A small house in an empty folder with our own bin/ in it. In place of npm, which would need the
 * network, stands a script that notes how it was called and lays the compiler in node_modules.
 */
let house = ''

const NPM = `
import { appendFileSync, cpSync, mkdirSync, rmSync, symlinkSync } from 'node:fs'
const dev = !process.argv.includes('--omit=dev')
appendFileSync('npm-calls', process.argv.slice(2).join(' ') + '\\n')
if (process.env.NPM_SAYS) { console.error(process.env.NPM_SAYS); process.exit(1) }
await new Promise((resolve) => setTimeout(resolve, 300))
rmSync('node_modules', { recursive: true, force: true })
mkdirSync('node_modules')
for (const name of ['typescript', '@typescript', 'rolldown']) {
  symlinkSync(${JSON.stringify(join(ROOT, 'node_modules'))} + '/' + name, 'node_modules/' + name, 'junction')
}
cpSync('bundler', 'node_modules/vite', { recursive: true, force: true })
cpSync(dev ? 'package-lock.json' : 'start-lock.json', 'node_modules/.package-lock.json')
`

/** In place of the bundler: notes that it ran, and lays a page and a script down. */
const BUNDLER = `
import { appendFileSync, mkdirSync, writeFileSync } from 'node:fs'
appendFileSync('bundler-calls', 'ran\\n')
if (process.env.BUNDLER_SAYS) { console.error(process.env.BUNDLER_SAYS); process.exit(1) }
mkdirSync('dist/web-app/assets', { recursive: true })
writeFileSync('dist/web-app/index.html', '<!doctype html>')
writeFileSync('dist/web-app/assets/page-1.js', '1')
`

const MAIN = `export async function main(args: string[], io: { stdout: { write: (text: string) => void } }): Promise<number> {
  io.stdout.write('ran ' + args.join(' ') + '\\n')
  return 0
}
`

function lock(...packages: readonly (readonly [string, string, boolean])[]): string {
  const listed = packages.map(([name, version, dev]) => [
    `node_modules/${name}`,
    { version, integrity: `${name}-${version}`, ...(dev ? { dev } : {}) },
  ])
  return JSON.stringify({ packages: { '': {}, ...Object.fromEntries(listed) } })
}

beforeEach(async () => {
  house = await mkdtemp(join(tmpdir(), 'yellowroom-house-'))
  await cp(join(ROOT, 'bin'), join(house, 'bin'), { recursive: true })
  await mkdir(join(house, 'src/cli'), { recursive: true })
  await mkdir(join(house, 'bundler/bin'), { recursive: true })
  const files: Readonly<Record<string, string>> = {
    'package.json': '{ "type": "module" }',
    'package-lock.json': lock(['runs', '1.0.0', false], ['tests', '2.0.0', true]),
    'start-lock.json': lock(['runs', '1.0.0', false]),
    'npm-cli.mjs': NPM,
    'bundler/bin/vite.js': BUNDLER,
    'vite.config.ts': '',
    'tsconfig.json': '{ "files": [], "references": [{ "path": "src/cli" }] }',
    'tsconfig.base.json':
      '{ "compilerOptions": { "composite": true, "module": "NodeNext", "target": "ES2023", "types": [] } }',
    'src/cli/tsconfig.json':
      '{ "extends": "../../tsconfig.base.json", "compilerOptions": { "rootDir": ".", "outDir": "../../dist/cli" }, "include": ["**/*.ts"] }',
    'src/cli/main.ts': MAIN,
  }
  for (const [name, text] of Object.entries(files)) await writeFile(join(house, name), text)
})

afterEach(() => rm(house, { recursive: true, force: true }))

type Ended = Readonly<{ code: number | null; out: string; err: string }>

function run(
  script: string,
  args: readonly string[] = [],
  env: Readonly<Record<string, string>> = {},
): Promise<Ended> {
  const child = spawn(process.execPath, [join(house, 'bin', script), ...args], {
    cwd: house,
    env: { ...process.env, npm_execpath: join(house, 'npm-cli.mjs'), ...env },
  })
  let [out, err] = ['', '']
  child.stdout.on('data', (part: Buffer) => (out += part.toString()))
  child.stderr.on('data', (part: Buffer) => (err += part.toString()))
  return new Promise((resolve) => child.on('close', (code) => resolve({ code, out, err })))
}

const calls = async (): Promise<readonly string[]> =>
  (await readFile(join(house, 'npm-calls'), 'utf8').catch(() => '')).split('\n').filter(Boolean)

describe('the first command in a fresh clone', () => {
  test('installs what running needs, builds, says so on stderr, runs; the second is silent', async () => {
    const first = await run('yellowroom.mjs', ['hello'])
    expect(first).toMatchObject({ code: 0, out: 'ran hello\n' })
    expect(first.err).toMatch(
      /^Installing 1 packages to run …\n {2}done in [\d.]+ s\nBuilding …\n {2}done in [\d.]+ s\n$/,
    )
    expect(await calls()).toEqual([expect.stringContaining('ci')])
    expect(await calls()).toEqual([expect.stringContaining('--omit=dev')])
    expect(await run('yellowroom.mjs', ['again'])).toEqual({ code: 0, out: 'ran again\n', err: '' })
  })

  test('two at once install and build once, and both answer', async () => {
    const both = await Promise.all([run('yellowroom.mjs', ['a']), run('yellowroom.mjs', ['b'])])
    expect(both.map(({ code, out }) => [code, out])).toEqual([
      [0, 'ran a\n'],
      [0, 'ran b\n'],
    ])
    expect(await calls()).toHaveLength(1)
    expect(both.map(({ err }) => err).join('')).toContain(
      'Another Yellowroom command is installing',
    )
    expect((await readdir(join(house, 'dist'))).filter((name) => name.includes('lock'))).toEqual([])
  })

  test('tests ask for the whole set, and get it even after a start', async () => {
    await run('prepare.mjs')
    expect((await run('prepare.mjs', ['--tests'])).err).toContain(
      'Installing 2 packages to run and test',
    )
    expect((await calls()).at(-1)).toContain('--include=dev')
    expect(await run('prepare.mjs', ['--tests'])).toEqual({ code: 0, out: '', err: '' })
  })
})

describe('the pages', () => {
  const bundled = async (): Promise<number> =>
    (await readFile(join(house, 'bundler-calls'), 'utf8').catch(() => '')).length / 4
  const page = (): string => join(house, 'src/web/index.html')

  beforeEach(async () => {
    await mkdir(join(house, 'src/web'), { recursive: true })
    await writeFile(page(), '<!doctype html>')
  })

  test('are built once, after the sources, and said so; a changed one is built again', async () => {
    const first = await run('prepare.mjs')
    expect(first.err).toMatch(
      /Building …\n {2}done in [\d.]+ s\nBuilding the pages …\n {2}done in [\d.]+ s\n$/,
    )
    expect(await run('prepare.mjs')).toEqual({ code: 0, out: '', err: '' })
    expect(await bundled()).toBe(1)
    await writeFile(page(), '<!doctype html><p>')
    expect((await run('prepare.mjs')).err).toMatch(/^Building the pages …\n {2}done in [\d.]+ s\n$/)
    expect(await bundled()).toBe(2)
  })

  test('stay when the sources are built again, for the compiler sweeps only its own', async () => {
    await run('prepare.mjs')
    await writeFile(join(house, 'src/cli/extra.ts'), 'export const x: number = 1\n')
    await run('prepare.mjs')
    expect(await readdir(join(house, 'dist/web-app/assets'))).toEqual(['page-1.js'])
  })

  test('that cannot be built stop the start, with the reason', async () => {
    const { code, err } = await run('prepare.mjs', [], { BUNDLER_SAYS: 'no such import' })
    expect(code).toBe(1)
    expect(err).toContain('no such import\nThe pages could not be built')
  })
})

describe('what changed is made again', () => {
  test('a newer lockfile is installed, with the set that was there', async () => {
    await run('prepare.mjs', ['--tests'])
    await writeFile(
      join(house, 'package-lock.json'),
      lock(['runs', '1.0.1', false], ['tests', '2.0.0', true]),
    )
    await run('prepare.mjs')
    expect(await calls()).toHaveLength(2)
    expect((await calls()).at(-1)).toContain('--include=dev')
  })

  test('packages somebody installed by hand are taken as they are', async () => {
    await run('prepare.mjs', ['--tests'])
    await rm(join(house, 'node_modules/.yellowroom-installed'))
    await run('prepare.mjs', ['--tests'])
    expect(await calls()).toHaveLength(1)
  })

  test('a changed source is built, and what a removed one left is swept away', async () => {
    const extra = join(house, 'src/cli/extra.ts')
    await writeFile(extra, 'export const extra = 1\n')
    await run('prepare.mjs')
    expect(await readdir(join(house, 'dist/cli'))).toContain('extra.js')
    await rm(extra)
    await writeFile(join(house, 'src/cli/main.ts'), MAIN.replace("'ran '", "'ran newly '"))
    expect((await run('yellowroom.mjs', ['x'])).out).toBe('ran newly x\n')
    expect((await readdir(join(house, 'dist/cli'))).join()).not.toContain('extra')
  })

  test('an emptied dist is built again', async () => {
    await run('prepare.mjs')
    await rm(join(house, 'dist'), { recursive: true })
    expect(await run('yellowroom.mjs', ['x'])).toMatchObject({ code: 0, out: 'ran x\n' })
    expect(await calls()).toHaveLength(1)
  })

  test('the lock of a process that died is taken over', async () => {
    await mkdir(join(house, 'dist'))
    // no system gives out process numbers this high
    const holder = { pid: 2 ** 30, host: hostname(), name: 'dead' }
    await writeFile(join(house, 'dist/preparing.lock'), JSON.stringify(holder))
    expect(await run('yellowroom.mjs', ['x'])).toMatchObject({ code: 0, out: 'ran x\n' })
    expect((await readdir(join(house, 'dist'))).filter((name) => name.includes('lock'))).toEqual([])
  })
})

describe('what stands in the way is one sentence', () => {
  test.each([
    [
      'npm error code ENOTFOUND\nnpm error network request failed',
      'connect this computer to the network',
    ],
    ['npm error code EACCES', "npm may not write here: run this once as the folder's owner"],
    ['npm error code ENOSPC', 'The disk is full'],
    [
      'npm error code EINTEGRITY\nnpm error sha512-x',
      'npm ci stopped with code 1: code EINTEGRITY sha512-x',
    ],
  ])('%s', async (NPM_SAYS, words) => {
    const { code, out, err } = await run('yellowroom.mjs', ['x', '--json'], { NPM_SAYS })
    expect(code).toBe(3)
    expect(err).toContain(words)
    expect(JSON.parse(out)).toMatchObject({
      error: { kind: 'world failed', message: expect.stringContaining(words) },
    })
  })

  test('sources that do not compile are exit 1, after the compiler’s own lines', async () => {
    await writeFile(join(house, 'src/cli/main.ts'), 'export const main: number = "one"\n')
    const { code, err } = await run('yellowroom.mjs', ['x'])
    expect(code).toBe(1)
    expect(err).toContain('src/cli/main.ts(1,14): error TS2322')
    expect(err).toContain('The sources do not compile; the lines above say where.')
  })

  test('an old Node.js is told which one is needed', async () => {
    const { refuseOldNode } = (await import(
      new URL('../bin/prepare.mjs', import.meta.url).href
    )) as {
      refuseOldNode: (version: string) => void
    }
    for (const version of ['18.20.4', '20.18.3', '16.0.0']) {
      expect(() => refuseOldNode(version)).toThrow(
        `needs Node.js 20.19 or later and this is ${version}`,
      )
    }
    for (const version of ['20.19.0', '20.20.2', '22.0.0', '24.1.0']) refuseOldNode(version)
  })
})

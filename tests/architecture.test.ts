import { execFile } from 'node:child_process'
import { cp, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { breachesIn, importsOf, LAYERS } from './architecture.ts'

const ROOT = fileURLToPath(new URL('..', import.meta.url))

async function sources(): Promise<readonly { path: string; text: string }[]> {
  const names = await readdir(join(ROOT, 'src'), { recursive: true })
  const paths = names.filter((name) => /\.tsx?$/.test(name) && !/\.(test|testing)\.ts$/.test(name))
  return Promise.all(
    paths.map(async (name) => ({
      path: name.split(sep).join('/'),
      text: await readFile(join(ROOT, 'src', name), 'utf8'),
    })),
  )
}

test('every source keeps the rules of the house', async () => {
  const all = await sources()
  expect(all.length).toBeGreaterThan(20)
  expect(all.flatMap((source) => breachesIn(source))).toEqual([])
})

test('the compiler is given no arrow that is not in the table', async () => {
  const folders = await readdir(join(ROOT, 'src'), { withFileTypes: true })
  for (const { name: layer } of folders.filter((entry) => entry.isDirectory())) {
    const path = join(ROOT, 'src', layer, 'tsconfig.json')
    const text = await readFile(path, 'utf8').catch(() => null)
    if (text === null) continue // no TypeScript in it
    const config = JSON.parse(text) as {
      references: { path: string }[]
      compilerOptions: { types?: string[]; lib?: string[] }
    }
    const { layers, node, browser } = LAYERS[layer] ?? { layers: [], node: false }
    const arrows = config.references.map((reference) => reference.path.replace('../', ''))
    expect([layer, arrows.filter((arrow) => !layers.includes(arrow))]).toEqual([layer, []])
    expect([layer, config.compilerOptions.types ?? []]).toEqual([layer, node ? ['node'] : []])
    const lib = browser === true ? ['ES2023', 'DOM', 'DOM.Iterable'] : undefined
    expect([layer, config.compilerOptions.lib]).toEqual([layer, lib])
  }
})

describe('the checker bites: a planted breach of each kind is found', () => {
  test.each([
    ['core/a.ts', 'core imports workflow', "import { x } from '../workflow/a.ts'"],
    ['core/light/a.ts', 'core imports raster', "import type { X } from '../../raster/a.ts'"],
    ['raster/a.ts', 'raster imports formats', "import { x } from '../formats/a.ts'"],
    ['formats/a.ts', 'formats imports decode', "export const x = import('../decode/a.ts')"],
    ['workflow/a.ts', 'workflow imports cli', "import '../cli/a.ts'"],
    ['server/a.ts', 'server imports raster', "import { x } from '../raster/a.ts'"],
    ['decode/a.ts', 'decode imports workflow', 'import { x } from "../workflow/a.ts"'],
    ['core/a.ts', 'outside src', "import { x } from '../../tests/a.ts'"],
    ['core/a.ts', 'without the ending .ts', "import { x } from './b'"],
    ['core/a.ts', 'imports node:path', "import { join } from 'node:path'"],
    ['core/a.ts', 'the package zod', "import { z } from 'zod'"],
    ['cli/a.ts', 'the package sharp', "import sharp from 'sharp'"],
    ['server/a.ts', 'the package hono-evil', "import { x } from 'hono-evil'"],
    ['core/a.ts', 'the clock', 'export const x = new Date()'],
    ['raster/a.ts', 'the clock', 'const x = performance.now()'],
    ['workflow/a.ts', 'randomness', 'const x = Math.random()'],
    ['formats/a.ts', 'process', 'const x = process.env'],
    ['core/a.ts', 'require', 'const x = require(name)'],
    ['core/a.ts', 'a global of all', 'const x = globalThis'],
    ['core/a.ts', 'randomness', 'const x = `${Math.random()}`'],
    ['cli/a.ts', 'a default export', 'export default function run() {}'],
    ['cli/a.ts', 'a default export', 'export { run as default }'],
    ['core/a.ts', 'a barrel', "export * from './b.ts'"],
    ['core/a.ts', 'a barrel', "export { x,\n y } from './b.ts'"],
    ['core/a.ts', '301 lines', 'const x = 1\n'.repeat(301)],
    ['utils/a.ts', 'utils is no layer', ''],
  ])('%s: %s', (path, breach, text) => {
    expect(breachesIn({ path, text }).join()).toContain(breach)
  })

  test('what only looks like a breach is none', () => {
    const text = `
      // import { x } from '../cli/a.ts', Math.random(), new Date()
      /** Date of the newest input; see process.env and export default. */
      export const words = 'Math.random() of a Date' + "export * from './b.ts'"
      export type Entry = Readonly<{ Date: string; process: number }>
      export const day = entry.Date
      const quote = /['"]/
      const later = 'it'
    `
    expect(breachesIn({ path: 'core/a.ts', text })).toEqual([])
    expect(breachesIn({ path: 'core/a.ts', text: 'x\n'.repeat(300) })).toEqual([])
  })

  test('every way of naming a module is seen', () => {
    const code = `import a from 'a'; import type { B } from "b"; import 'c'; import('d')
      export { e } from 'e'; export * from 'f'; import {\n g,\n} from 'g'; require('h'); import(\`i\`)`
    expect(importsOf(code)).toEqual(['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i'])
  })
})

describe('the compiler itself refuses an arrow that is not drawn', () => {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'yellowroom-arrows-'))
    for (const name of ['tsconfig.base.json', 'package.json']) {
      await cp(join(ROOT, name), join(folder, name))
    }
    for (const layer of ['core', 'kernels', 'raster']) {
      await cp(join(ROOT, 'src', layer), join(folder, 'src', layer), { recursive: true })
    }
    await symlink(join(ROOT, 'node_modules'), join(folder, 'node_modules'), 'junction')
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  async function compile(layer: string): Promise<string> {
    const tsc = join(ROOT, 'node_modules/typescript/bin/tsc')
    return promisify(execFile)(process.execPath, [tsc, '-b', join('src', layer)], { cwd: folder })
      .then(({ stdout }) => stdout)
      .catch(({ stdout }: { stdout: string }) => stdout)
  }

  test('core cannot import raster, nor the clock of Node.js', async () => {
    expect(await compile('raster')).toBe('')
    await writeFile(
      join(folder, 'src/core/planted.ts'),
      "import type { Film } from '../raster/film.ts'\nexport const width = (film: Film): number => film.widthPx\nexport const home: string = process.cwd()\n",
    )
    const said = await compile('core')
    expect(said).toMatch(/src\/core\/planted\.ts\(1,\d+\): error TS6059|not under 'rootDir'/)
    expect(said).toMatch(/planted\.ts\(3,\d+\): error TS2\d+: Cannot find name 'process'/)
  })
})

import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'

const ROOT = fileURLToPath(new URL('..', import.meta.url))
const FOLDERS = ['src', 'tests', 'gallery', 'fixtures', 'bench']

/** Keys that the page of sources defines: a heading `## key` each. */
function definedIn(page: string): readonly string[] {
  return [...page.matchAll(/^## (\S+)\s*$/gm)].map(([, key = '']) => key)
}

/** Keys that a source file names: `@source a, b` in a comment, `oracle key:` in a test's title. */
function namedIn(code: string): readonly string[] {
  const cited = [...code.matchAll(/^\s*(?:\/\*)?\*+ @source (.+)$/gm)].flatMap(([, keys = '']) =>
    keys
      .replace(/\*\/\s*$/, '')
      .split(/\s*\(|,\s*/)
      .filter((part) => /^[\w-]+\s*$/.test(part))
      .map((part) => part.trim()),
  )
  const titles = [...code.matchAll(/['"`]oracle ([\w-]+)[^:'"`\n]*:/g)].map(([, key = '']) => key)
  return [...cited, ...titles]
}

async function namedInCode(): Promise<ReadonlyMap<string, string>> {
  const named = new Map<string, string>()
  for (const folder of FOLDERS) {
    const names = await readdir(join(ROOT, folder), { recursive: true }).catch(() => [])
    for (const name of names.filter((path) => /\.(ts|mjs)$/.test(path))) {
      if (folder === 'tests' && name === 'sources.test.ts') continue
      const code = await readFile(join(ROOT, folder, name), 'utf8')
      for (const key of namedIn(code)) named.set(key, `${folder}/${name}`)
    }
  }
  return named
}

describe('docs/sources.md and the code name the same sources', () => {
  test('each key in the code has its entry', async () => {
    const defined = definedIn(await readFile(join(ROOT, 'docs/sources.md'), 'utf8'))
    const without = [...(await namedInCode())].filter(([key]) => !defined.includes(key))
    expect(without).toEqual([])
  })

  test('each entry is used, and stands once', async () => {
    const defined = definedIn(await readFile(join(ROOT, 'docs/sources.md'), 'utf8'))
    const named = await namedInCode()
    expect(defined.filter((key) => !named.has(key))).toEqual([])
    expect(defined.filter((key, at) => defined.indexOf(key) !== at)).toEqual([])
  })
})

test('the reader of keys sees both forms, and one key it does not know would fail', () => {
  const code = `
/** @source one */
/**
 * @source jacobs1992, dill1975
 * @source iso5-1 (D = −log10 T)
 * A sentence that says @source nothing.
 */
test('oracle half-stop-wedge: two steps', () => {})
test(\`oracle fabric-rows: \${name}\`, () => {})
test('oracle: none', () => {})`
  expect(namedIn(code)).toEqual([
    'one',
    'jacobs1992',
    'dill1975',
    'iso5-1',
    'half-stop-wedge',
    'fabric-rows',
  ])
  expect(definedIn('# Sources\n\n## one\ntext ## two\n## two-b\n')).toEqual(['one', 'two-b'])
})

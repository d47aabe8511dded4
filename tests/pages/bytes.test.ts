import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'

const APP = fileURLToPath(new URL('../../dist/web-app', import.meta.url))

/** Most bytes of a phone's first load, gzip, without fonts: a budget of the project. */
const PHONE_BYTES = 120_000
const FONT_BYTES = 60_000

/** What a browser fetches before the first page stands: the page, and what it names. */
async function firstLoad(): Promise<readonly Readonly<{ name: string; bytes: Buffer }>[]> {
  const page = await readFile(join(APP, 'index.html'))
  const named = [...page.toString().matchAll(/(?:src|href)="\/([^"]+)"/g)].map(
    ([, name]) => name ?? '',
  )
  const files = await Promise.all(
    named.map(async (name) => ({ name, bytes: await readFile(join(APP, name)) })),
  )
  return [{ name: 'index.html', bytes: page }, ...files]
}

test('the first load of a phone stays within its bytes', async () => {
  const files = await firstLoad()
  expect(
    files.map(({ name }) => name).filter((name) => name.endsWith('.js')).length,
  ).toBeGreaterThan(0)
  const sizes = files.map(
    ({ name, bytes }) => [name, gzipSync(bytes, { level: 9 }).length] as const,
  )
  const whole = sizes.reduce((sum, [, size]) => sum + size, 0)
  console.info(`first load: ${whole} bytes gzip`, Object.fromEntries(sizes))
  expect(whole).toBeLessThanOrEqual(PHONE_BYTES)
})

test('the letters stay within theirs', async () => {
  const styles = (await firstLoad()).filter(({ name }) => name.endsWith('.css'))
  const fonts = styles.flatMap(({ bytes }) =>
    [...bytes.toString().matchAll(/url\(\/?(assets\/[^)]+\.woff2)\)/g)].map(
      ([, name]) => name ?? '',
    ),
  )
  expect(fonts).toHaveLength(2)
  const sizes = await Promise.all(
    fonts.map(async (name) => (await readFile(join(APP, name))).length),
  )
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(FONT_BYTES)
})

test('nothing is loaded from elsewhere, and no page brings script or style of its own', async () => {
  const [page] = await firstLoad()
  const html = page?.bytes.toString() ?? ''
  expect(html).not.toMatch(/(?:src|href)="(?!\/[^/])/)
  expect(html).not.toMatch(/<style|<script(?![^>]*\bsrc=)|\son\w+=|\sstyle=/)
})

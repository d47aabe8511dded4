import { describe, expect, test } from 'vitest'
import { yellowroomApp } from './app.ts'
import { SERVED } from './files.ts'

const app = yellowroomApp([
  {
    name: 'fabric',
    summary: 'what a <fabric> lets through',
    line: 'node x fabric',
    prints: 'a & b\nc',
  },
])

test('the first page shows each command with its example, and nothing of it is taken for HTML', async () => {
  const response = await app.request('/')
  expect(response.status).toBe(200)
  const page = await response.text()
  expect(page).toMatch(/^<!doctype html>\s*<html lang="en">/)
  expect(page).toContain('<h3>fabric</h3>')
  expect(page).toContain('what a &lt;fabric&gt; lets through')
  expect(page).toContain('a &amp; b')
  expect(page.match(/<h1/g)).toHaveLength(1)
})

test('pages bring no script and no style of their own, and may load nothing from elsewhere', async () => {
  for (const path of ['/', '/nothing-here']) {
    const response = await app.request(path)
    const page = await response.text()
    expect(page).not.toMatch(/<script|<style|\sstyle=|\son\w+=|javascript:/i)
    expect(page).not.toMatch(/(src|href)="(?!\/[^/]|\/")/)
    const policy = response.headers.get('content-security-policy') ?? ''
    expect(policy).toContain("default-src 'none'")
    expect(policy).not.toContain('unsafe')
    expect(response.headers.get('x-content-type-options')).toBe('nosniff')
    expect(response.headers.get('strict-transport-security')).toBeNull()
  }
})

describe('files', () => {
  test('everything a page or a stylesheet names is served', async () => {
    const page = await (await app.request('/')).text()
    const tokens = await (await app.request('/tokens.css')).text()
    const named = [
      ...[...page.matchAll(/(?:src|href)="(\/[^"]+)"/g)].map(([, path]) => path),
      ...[...tokens.matchAll(/url\(([^)]+)\)/g)].map(([, path]) => path),
    ]
    expect(named.length).toBeGreaterThanOrEqual(5)
    for (const path of named) expect([path, (await app.request(path)).status]).toEqual([path, 200])
  })

  test('fonts are fonts, and ours', async () => {
    for (const path of SERVED.filter((address) => address.endsWith('.woff2'))) {
      const response = await app.request(path)
      expect(response.headers.get('content-type')).toBe('font/woff2')
      const bytes = new Uint8Array(await response.arrayBuffer())
      expect(new TextDecoder().decode(bytes.slice(0, 4))).toBe('wOF2')
    }
  })

  test.each([
    '/../package.json',
    '/%2e%2e/package.json',
    '/src/web/page.css',
    '/toString',
    '/__proto__',
    '/page.css/',
    '//page.css',
  ])('%s leads nowhere', async (path) => {
    const response = await app.request(`http://127.0.0.1${path}`)
    expect(response.status).toBe(404)
    expect(await response.text()).toContain('There is no such page')
  })
})

test('health says that it is ready', async () => {
  const response = await app.request('/api/health')
  expect(response.status).toBe(200)
  expect(await response.json()).toEqual({ kind: 'health', status: 'ready' })
})

test('a page is read, not written to', async () => {
  for (const method of ['POST', 'PUT', 'DELETE']) {
    expect((await app.request('/', { method })).status).toBe(404)
  }
})

import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { brotliDecompressSync, gunzipSync } from 'node:zlib'
import { Validator } from '@seriousme/openapi-schema-validator'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { health, refusal } from '../../src/api/shop.ts'
import { Failure } from '../../src/core/failure.ts'
import { yellowroomApp } from '../../src/server/app.ts'
import { shopDoor } from '../../src/server/door.ts'
import { ROUTES } from '../../src/web/router.tsx'

const TOKEN = 'a token of this start'
const SCRIPT = `console.log(${JSON.stringify('long enough to be pressed '.repeat(100))})`

let pages = ''
beforeAll(async () => {
  pages = await mkdtemp(join(tmpdir(), 'yellowroom-pages-'))
  await mkdir(join(pages, 'assets'))
  await writeFile(join(pages, 'index.html'), '<!doctype html><title>Yellowroom</title>')
  await writeFile(join(pages, 'assets', 'main-abc123.js'), SCRIPT)
})
afterAll(() => rm(pages, { recursive: true }))

const never = () => new Promise<never>(() => undefined)
const opening = () =>
  yellowroomApp(shopDoor(never, { patienceMs: 1 }), { token: TOKEN, pagesFolder: pages })
const json = { 'content-type': 'application/json' }

describe('before the shop is open', () => {
  test('health says so, and every other question is put off with a time to come again', async () => {
    const app = opening()
    const answer = health.parse(await (await app.request(PATHS.health)).json())
    expect(answer).toEqual({ kind: 'health', status: 'opening', message: null })
    for (const path of [PATHS.shop, PATHS.light, PATHS.choices, PATHS.films]) {
      const response = await app.request(path)
      expect([path, response.status, response.headers.get('retry-after')]).toEqual([path, 503, '1'])
      expect(refusal.parse(await response.json()).error.message).toContain('being opened')
    }
  })

  test('a question that comes just before waits, and is answered', async () => {
    let open: (cause: Failure) => void = () => undefined
    const door = shopDoor(() => new Promise<never>((_, reject) => (open = reject)))
    const app = yellowroomApp(door, { token: null, pagesFolder: pages })
    const answered = app.request(PATHS.shop)
    const health = await (await app.request(PATHS.health)).json()
    expect(health).toMatchObject({ status: 'opening' })
    open(new Failure('cannot write', 'The disk is full.'))
    expect(refusal.parse(await (await answered).json()).error.message).toBe('The disk is full.')
  })

  test('a shop that cannot be opened says why, in health and to whoever asks', async () => {
    const door = shopDoor(() => Promise.reject(new Failure('cannot write', 'The disk is full.')))
    await door.settled
    const app = yellowroomApp(door, { token: null, pagesFolder: pages })
    const answer = health.parse(await (await app.request(PATHS.health)).json())
    expect(answer).toEqual({ kind: 'health', status: 'failed', message: 'The disk is full.' })
    const response = await app.request(PATHS.light)
    expect(response.status).toBe(503)
    expect(refusal.parse(await response.json()).error.message).toBe('The disk is full.')
  })

  test('pages are there at once', async () => {
    const app = opening()
    for (const path of [...Object.values(ROUTES), '/film/01abc']) {
      const response = await app.request(path)
      expect([path, response.status]).toEqual([path, 200])
      expect(await response.text()).toContain('<title>Yellowroom</title>')
    }
  })
})

describe('who may ask', () => {
  const demo = (headers: Record<string, string>) =>
    opening().request(`http://127.0.0.1:4680${PATHS.demoShop}`, { method: 'POST', headers })

  test('a page of another site may change nothing, our own and programs may', async () => {
    for (const headers of [
      { origin: 'http://evil.example' },
      { origin: 'http://127.0.0.1:4681' },
      { origin: 'null' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
    ]) {
      const response = await demo(headers as never)
      expect([headers, response.status]).toEqual([headers, 403])
      expect(refusal.parse(await response.json()).error.kind).toBe('foreign page')
    }
    for (const headers of [{ origin: 'http://127.0.0.1:4680' }, {}]) {
      expect((await demo(headers as never)).status).toBe(503)
    }
  })

  test('another name that leads here is none of ours while only this computer may ask', async () => {
    const at = (host: string) => opening().request(PATHS.health, { headers: { host } })
    expect((await at('rebound.example:4680')).status).toBe(403)
    for (const host of ['127.0.0.1:4680', 'localhost:4680', '[::1]:4680']) {
      expect((await at(host)).status).toBe(200)
    }
  })

  test('on a network it goes by addresses and the names of its own net, and by others that it was told', async () => {
    const networked = (names: readonly string[]) =>
      yellowroomApp(shopDoor(never, { patienceMs: 1 }), {
        token: TOKEN,
        onlyHere: false,
        names,
        pagesFolder: pages,
      })
    // RFC 6762 (.local), RFC 8375 (.home.arpa), RFC 3849 and RFC 5737 (addresses of documents)
    const ofTheRoom = ['192.0.2.7', '[2001:db8::7]', 'printroom', 'press.local', 'a.home.arpa']
    for (const host of ofTheRoom) {
      const headers = { host: `${host}:4680`, origin: `http://${host}:4680` }
      const response = await networked([]).request(PATHS.demoShop, { method: 'POST', headers })
      expect([host, response.status]).toEqual([host, 503])
    }
    // a page of another site whose name was led here: all it sends looks like our own
    const rebound = { host: 'rebound.example:4680', origin: 'http://rebound.example:4680' }
    for (const [method, path] of [
      ['POST', PATHS.demoShop],
      ['GET', PATHS.health],
      ['GET', '/'],
    ] as const) {
      const refused = await networked(['other.example']).request(path, { method, headers: rebound })
      expect([path, refused.status]).toEqual([path, 403])
      expect(refusal.parse(await refused.json()).error.message).toContain(
        'YELLOWROOM_NAMES=rebound.example',
      )
    }
    const told = await networked(['Rebound.example']).request(PATHS.health, { headers: rebound })
    expect(told.status).toBe(200)
  })

  test('whoever knows the token is let in from anywhere, and a wrong one is told so', async () => {
    const from = { origin: 'http://elsewhere.example' }
    expect((await demo({ ...from, authorization: `Bearer ${TOKEN}` })).status).toBe(503)
    const wrong = await demo({ ...from, authorization: `Bearer ${TOKEN}x` })
    expect(wrong.status).toBe(401)
    expect(refusal.parse(await wrong.json()).error.kind).toBe('wrong token')
  })
})

describe('what stands on an answer', () => {
  test('a policy that lets nothing in from elsewhere and allows no code in the page', async () => {
    for (const path of ['/', PATHS.health, '/nothing-here']) {
      const { headers } = await opening().request(path)
      const policy = headers.get('content-security-policy') ?? ''
      expect(policy).toContain("default-src 'none'")
      expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'")
      expect(policy).not.toMatch(/unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|\*|https?:/)
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('strict-transport-security')).toBeNull()
    }
  })

  test('files with their hash in the name may be kept for ever, the page must be asked for', async () => {
    const app = opening()
    const script = await app.request('/assets/main-abc123.js')
    expect(script.headers.get('cache-control')).toContain('immutable')
    const page = await app.request('/')
    expect(page.headers.get('cache-control')).toBe('no-cache')
    const again = await app.request('/', {
      headers: { 'if-none-match': page.headers.get('etag') ?? '' },
    })
    expect([again.status, await again.text()]).toEqual([304, ''])
  })

  test('long files come pressed, by what the browser takes, and unpack to themselves', async () => {
    const get = (accepted: string) =>
      opening().request('/assets/main-abc123.js', { headers: { 'accept-encoding': accepted } })
    const br = await get('gzip, deflate, br')
    expect(br.headers.get('content-encoding')).toBe('br')
    expect(brotliDecompressSync(await br.arrayBuffer()).toString()).toBe(SCRIPT)
    const gzip = await get('gzip')
    expect(gunzipSync(await gzip.arrayBuffer()).toString()).toBe(SCRIPT)
    expect(await (await get('')).text()).toBe(SCRIPT)
  })
})

describe('what leads nowhere', () => {
  test.each([
    '/../package.json',
    '/%2e%2e/package.json',
    '/assets/../../package.json',
    '/toString',
  ])('%s is no page, and nothing else of the disk', async (path) => {
    const response = await opening().request(`http://127.0.0.1${path}`)
    expect(response.status).toBe(404)
    expect(await response.text()).not.toContain('"dependencies"')
  })

  test('a file that is not there is no page', async () => {
    const response = await opening().request('/assets/gone.js')
    expect(response.status).toBe(404)
    expect(response.headers.get('content-type')).toContain('text/plain')
  })

  test('an unknown question is refused in a sentence', async () => {
    const response = await opening().request('/api/nothing')
    expect(response.status).toBe(404)
    expect(refusal.parse(await response.json()).error.message).toContain(PATHS.openapi)
  })
})

describe('what cannot be meant', () => {
  const post = (body: string, headers: Record<string, string> = json) =>
    opening().request(PATHS.firstDose, { method: 'POST', headers, body })
  const cases: readonly (readonly [string, string, string | undefined, string])[] = [
    ['no JSON', '{"countsIn":', undefined, 'is no JSON'],
    ['no UTF-8', '"\\ud800', undefined, 'is no JSON'],
    ['a list', '[]', undefined, 'must be a JSON object'],
    ['an unknown field', '{"colours":"white"}', 'colours', '“colours” is nothing that is asked'],
    ['another word', '{"colour":"pink"}', 'colour', 'one of “white”, “dyed”; it is “pink”'],
    ['a text for a number', lastTime('"70"'), 'lastTime.doseLu', 'must be a number; it is “70”'],
    ['a number too large', lastTime('1e9'), 'lastTime.doseLu', 'must be at most 100000'],
    [
      'nothing',
      '{"lastTime":{"medium":"ink","outcome":"good"}}',
      'lastTime.doseLu',
      'it is missing',
    ],
    ['no name', '{"shopName":"  "}', 'shopName', 'a text of at least one letter'],
  ]
  function lastTime(doseLu: string): string {
    return `{"lastTime":{"medium":"ink","outcome":"good","doseLu":${doseLu}}}`
  }
  test.each(cases)('%s', async (_, body, field, words) => {
    const response = await post(body)
    expect(response.status).toBe(422)
    const { error } = refusal.parse(await response.json())
    expect([error.kind, error.field]).toEqual(['wrong input', field])
    expect(error.message).toContain(words)
    expect(error.message).toMatch(/^[^\n]+\.$/)
  })

  test('another content type, and more than a megabyte', async () => {
    expect((await post('{}', { 'content-type': 'text/plain' })).status).toBe(422)
    expect((await post(`"${'x'.repeat(2 ** 20)}"`)).status).toBe(413)
  })
})

type Operation = Readonly<{
  summary?: string
  parameters?: readonly Readonly<{ name: string; in: string }>[]
  requestBody?: Readonly<{ content: Record<string, unknown> }>
  responses: Record<string, Readonly<{ description?: string; content?: Record<string, unknown> }>>
}>

/** A route of the server as the document has it: `:name{[01]}` is `{name}`. */
const asWritten = (path: string): string =>
  path.replaceAll(/:(\w+)(\{[^/]*\})?/g, (_, name: string, shape = '') => {
    const [end = ''] = /\.\w+(?=\}$)/.exec(shape) ?? []
    return `{${name}}${end}`
  })
const nameless = (path: string): string => path.replaceAll(/\{\w+\}/g, '{}')

test('the OpenAPI document and the server have the same routes, each with its schema', async () => {
  const app = opening()
  const document = (await (await app.request(PATHS.openapi)).json()) as {
    paths: Record<string, Record<string, Operation>>
  }
  const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  )
  const told = operations.map(({ path, method }) => `${method.toUpperCase()} ${nameless(path)}`)
  const real = app.routes.flatMap(({ method, path }) =>
    method === 'ALL' || path === '/*' ? [] : `${method} ${nameless(asWritten(path))}`,
  )
  expect(told.toSorted()).toEqual([...new Set(real)].toSorted())
  const amiss = operations.flatMap(({ path, method, operation }) => {
    const { summary = '', parameters = [], requestBody, responses } = operation
    const inPath = parameters.filter((each) => each.in === 'path').map(({ name }) => name)
    const named = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name)
    const good = Object.entries(responses).filter(([status]) => status.startsWith('2'))
    const isWhole =
      summary.length > 8 &&
      JSON.stringify(inPath.toSorted()) === JSON.stringify(named.toSorted()) &&
      (requestBody === undefined || Object.keys(requestBody.content).length > 0) &&
      good.length > 0 &&
      good.every(
        ([status, { content = {} }]) => status === '204' || Object.keys(content).length > 0,
      )
    return isWhole ? [] : [`${method} ${path}`]
  })
  expect(amiss).toEqual([])
})

test('oracle openapi31: the document is a whole one by the schema of OpenAPI 3.1, and a broken one is not', async () => {
  const document = (await (await opening().request(PATHS.openapi)).json()) as Record<
    string,
    unknown
  >
  const { valid, errors } = await new Validator().validate(structuredClone(document))
  expect([valid, errors]).toEqual([true, undefined])
  const broken = { ...document, info: { title: 'Yellowroom' } }
  expect((await new Validator().validate(broken)).valid).toBe(false)
})

test('the OpenAPI document lists every path of the contract with schemas that resolve', async () => {
  const document = (await (await opening().request(PATHS.openapi)).json()) as {
    openapi: string
    paths: Record<string, Record<string, unknown>>
  }
  expect(document.openapi).toMatch(/^3\.1\./)
  for (const path of Object.values(PATHS)) expect(Object.keys(document.paths)).toContain(path)
  expect(Object.keys(document.paths[PATHS.films] ?? {}).sort()).toEqual(['get', 'post'])
  const references = [...JSON.stringify(document).matchAll(/"\$ref":"([^"]+)"/g)]
  expect(new Set(references.map(([, to]) => to))).toEqual(new Set(['#/components/schemas/refusal']))
})

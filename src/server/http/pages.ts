import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { extname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { brotliCompress, constants, gzip } from 'node:zlib'
import type { Context } from 'hono'

/** A file of the pages, read and pressed once. */
type PageFile = Readonly<{
  type: string
  etag: string
  /** Its name holds its content's hash: it never changes. */
  lasting: boolean
  plain: Uint8Array<ArrayBuffer>
  br: Uint8Array<ArrayBuffer> | null
  gzip: Uint8Array<ArrayBuffer> | null
}>

export type Pages = Readonly<{ answer: (context: Context) => Promise<Response> }>

/** Where `vite build` puts the pages. */
export const PAGES_FOLDER: string = fileURLToPath(new URL('../../../dist/web-app', import.meta.url))

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.txt': 'text/plain; charset=utf-8',
}
const PRESSED = /^(text\/|image\/svg|application\/(json|manifest|wasm))/
const LASTING = '/assets/'
/** Where a page of the app stands; the app itself knows what to show there. */
const PAGE_PATHS =
  /^\/(photo|check|bench(\/[^/]+)?|film(\/[^/]+)?|tickets(\/[^/]+)?|day|trouble(\/causes)?|place|films(\/[^/]+)?|tests(\/(strip|read|readings|lamp|evenness|notes))?|shop|steps|screens(\/[^/]+)?|people(\/sign-in)?|signs)?\/?$/
const NOT_BUILT =
  'Yellowroom’s pages are not built here. Stop it, then start it with “npm start”, which builds them.'

/** The pages from a folder, each file read when it is first asked for. Nothing else is ever read. */
export function pagesFrom(folder: string): Pages {
  const kept = new Map<string, Promise<PageFile | null>>()
  let names: Promise<ReadonlySet<string>> | null = null

  const file = async (path: string): Promise<PageFile | null> => {
    names ??= namesIn(folder)
    const known = await names
    if (known.size === 0) names = null // built meanwhile, perhaps
    if (!known.has(path)) return null
    const there = kept.get(path) ?? pageFile(folder, path)
    kept.set(path, there)
    return there
  }

  return {
    answer: async (context) => {
      const { path } = context.req
      if (path !== '/index.html') {
        const asset = await file(path)
        if (asset !== null) return send(context, asset, 200)
        if (path.startsWith(LASTING)) return context.text('There is no such file.', 404)
      }
      const page = await file('/index.html')
      if (page === null) return context.text(NOT_BUILT, 503)
      return send(context, page, PAGE_PATHS.test(path) ? 200 : 404)
    },
  }
}

async function namesIn(folder: string): Promise<ReadonlySet<string>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => [])
  const files = entries.filter((entry) => entry.isFile())
  const rest = (entry: (typeof entries)[number]): string =>
    join(entry.parentPath, entry.name).slice(folder.length).replaceAll('\\', '/')
  return new Set(files.map(rest))
}

async function pageFile(folder: string, path: string): Promise<PageFile | null> {
  const read = await readFile(join(folder, path)).catch(() => null)
  if (read === null) return null
  const plain = new Uint8Array(read)
  const type = TYPES[extname(path)] ?? 'application/octet-stream'
  const etag = `"${createHash('sha256').update(plain).digest('base64url').slice(0, 22)}"`
  const of = { type, etag, lasting: path.startsWith(LASTING), plain }
  if (!PRESSED.test(type) || plain.length < 512) return { ...of, br: null, gzip: null }
  const params = { [constants.BROTLI_PARAM_QUALITY]: 9 }
  const [br, zipped] = await Promise.all([
    promisify(brotliCompress)(plain, { params }),
    promisify(gzip)(plain, { level: 9 }),
  ])
  return { ...of, br: new Uint8Array(br), gzip: new Uint8Array(zipped) }
}

function send(context: Context, file: PageFile, status: 200 | 404): Response {
  const { type, etag, lasting, plain } = file
  const caching = lasting ? 'public, max-age=31536000, immutable' : 'no-cache'
  const known = { etag, 'cache-control': caching, vary: 'accept-encoding' }
  if (status === 200 && context.req.header('if-none-match') === etag) {
    return context.body(null, 304, known)
  }
  const accepted = context.req.header('accept-encoding') ?? ''
  for (const way of ['br', 'gzip'] as const) {
    const pressed = file[way]
    if (pressed !== null && new RegExp(`\\b${way}\\b`).test(accepted)) {
      const headers = { ...known, 'content-type': type, 'content-encoding': way }
      return context.body(pressed, status, headers)
    }
  }
  return context.body(plain, status, { ...known, 'content-type': type })
}

import { readFile } from 'node:fs/promises'
import { extname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'
import { deflateSync } from 'node:zlib'
import { serve } from '@hono/node-server'
import { Hono } from 'hono'
import { secureHeaders } from 'hono/secure-headers'
import type { Film, FilmChange, FilmForecast } from '../../src/api/films.ts'
import type { LightAnswer } from '../../src/api/light.ts'
import { PATHS } from '../../src/api/paths.ts'
import { DEMO_FILMS } from '../../src/demo/films.ts'
import { sourceOf } from '../../src/formats/bytes.ts'
import { memorySink } from '../../src/formats/sink.testing.ts'
import { openTileStore, type TileStore } from '../../src/formats/tileStore.ts'
import type { Film as FilmPixels } from '../../src/raster/film.ts'
import { drawBar, filmOf, seeded } from '../../src/raster/testFilms.testing.ts'
import { setupDoses } from '../../src/workflow/exposurePhysics.ts'
import { filmPicture } from '../../src/workflow/filmForecast.ts'
import { type FilmFindings, filmFindings } from '../../src/workflow/filmForecastFindings.ts'
import { DEFAULT_SETUP } from '../../src/workflow/setup.ts'

/**
 * A stand-in for the server that really computes two small films with the project's own code: the
 * demo pencil drawing at a low resolution, and ink strokes over faint underdrawing. What Light
 * answers beside them is invented.
 */
export type FilmFixture = Readonly<{
  url: string
  state: FilmState
  stop: () => Promise<void>
}>

export type FilmState = {
  /** How the film's forecast is met. */
  mood: 'answers' | 'reading' | 'picture first' | 'failed' | 'refuses' | 'cut off'
  answer: 'prints' | 'stays shut' | null
  /** What the next upload meets. */
  upload: 'taken' | 'refused' | 'unreadable'
  uploads: { name: string; query: Readonly<Record<string, string>>; bytes: number }[]
}

const APP = fileURLToPath(new URL('../../dist/web-app', import.meta.url))
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
}

export type Computed = Readonly<{
  name: string
  film: FilmPixels
  store: TileStore
  levels: FilmForecast['pyramid']
  findings: FilmFindings
}>

export async function computed(name: string, film: FilmPixels): Promise<Computed> {
  const { sink, bytes } = memorySink()
  const deflater = {
    whole: (block: Uint8Array) => Promise.resolve(deflateSync(block, { level: 1 })),
  }
  const { pyramid } = await filmPicture(film, DEFAULT_SETUP, { sink, deflater })
  const store = await openTileStore(sourceOf(bytes()))
  const findings = await filmFindings(film, DEFAULT_SETUP, { marksAbove: 0.3 })
  return { name, film, store, levels: { ...pyramid, levels: [...pyramid.levels] }, findings }
}

/** Ink strokes over faint thin lines. */
export function inkOverPencil(): FilmPixels {
  const [widthPx, heightPx] = [900, 640]
  const densities = new Float32Array(widthPx * heightPx)
  const next = seeded(12)
  for (let bar = 0; bar < 40; bar += 1) {
    const pale = bar >= 30
    drawBar(densities, widthPx, {
      x: 100 + next() * 700,
      y: 100 + next() * 440,
      turn: next() * Math.PI,
      length: 100 + next() * 160,
      width: pale ? 3 : 5 + next() * 12,
      density: pale ? 0.42 + 0.05 * next() : bar < 4 ? 0.85 : 1.9,
    })
  }
  return filmOf(densities, { widthPx, pixelUm: 127 })
}

export async function serveFilms(
  options: Readonly<{ app?: string; films?: ReadonlyMap<string, Computed>; port?: number }> = {},
): Promise<FilmFixture> {
  const films =
    options.films ??
    new Map([
      [
        'kettle',
        await computed(
          'Kettle and three pears',
          DEMO_FILMS.softPencil.draw({ resolutionDpi: 150 }),
        ),
      ],
      ['ink', await computed('Ink over pencil', inkOverPencil())],
    ])
  const state: FilmState = { mood: 'answers', answer: null, upload: 'taken', uploads: [] }
  const app = fixtureApp(state, films, options.app ?? APP)
  return new Promise((resolve) => {
    const door = { fetch: app.fetch, port: options.port ?? 0, hostname: '127.0.0.1' }
    const server = serve(door, ({ port }) => {
      resolve({
        url: `http://127.0.0.1:${port}`,
        state,
        stop: () =>
          new Promise((stopped) => {
            server.close(() => stopped())
            if ('closeAllConnections' in server) server.closeAllConnections()
          }),
      })
    })
  })
}

const UNREADABLE =
  'film.png says nothing of its resolution; give it in pixels per inch, like 720, or save it with one.'

function fixtureApp(state: FilmState, films: ReadonlyMap<string, Computed>, root: string): Hono {
  const app = new Hono()
  const refusal = (message: string, field?: string) => ({
    error: { kind: 'wrong input', message, field },
  })
  app.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", 'blob:'],
        fontSrc: ["'self'"],
        connectSrc: ["'self'"],
        workerSrc: ["'self'", 'blob:'],
      },
      strictTransportSecurity: false,
    }),
  )
  app.use('/api/*', async (_, next) =>
    state.mood === 'cut off' ? new Response(null, { status: 599 }) : next(),
  )
  app.get(PATHS.shop, (context) =>
    context.json({ kind: 'shop', state: 'demo', name: 'Quillfield Print Room', units: 'metric' }),
  )
  app.get(PATHS.films, (context) =>
    context.json({
      kind: 'films',
      films: [...films].map(([id, film]) => recordOf(id, film, state)),
    }),
  )
  app.post(PATHS.films, async (context) => {
    const bytes = await context.req.arrayBuffer()
    const name = decodeURIComponent(context.req.header('x-file-name') ?? '')
    state.uploads.push({ name, query: context.req.query(), bytes: bytes.byteLength })
    if (state.upload === 'refused')
      return context.json(refusal('The disk is full: make room and send it again.'), 507)
    const [film] = films.values()
    if (film === undefined) return context.notFound()
    return context.json({ ...recordOf('ink', film, state), id: 'new', status: 'waiting' }, 202)
  })
  app.get(`${PATHS.films}/:film`, (context) => {
    const id = context.req.param('film')
    const film = films.get(id === 'new' ? 'ink' : id)
    if (film === undefined) return context.json(refusal('There is no such film in this shop.'), 404)
    const record = recordOf(id, film, state)
    if (id === 'new' && state.upload === 'unreadable') {
      return context.json({ ...record, status: 'failed', message: UNREADABLE })
    }
    return context.json(record)
  })
  app.delete(`${PATHS.films}/:film`, (context) => context.body(null, 204))
  app.patch(`${PATHS.films}/:film`, async (context) => {
    const id = context.req.param('film')
    const film = films.get(id)
    if (film === undefined) return context.notFound()
    if (state.mood === 'refuses') return context.json(refusal('The shop is read only now.'), 409)
    const change = await context.req.json<FilmChange>()
    state.answer = change.underdrawing ?? state.answer
    return context.json(recordOf(id, film, state))
  })
  app.get(`${PATHS.films}/:film/forecast`, (context) => {
    const id = context.req.param('film')
    const film = films.get(id === 'new' ? 'ink' : id)
    return film === undefined
      ? context.json(refusal('There is no such film in this shop.'), 404)
      : context.json(forecastOf(id === 'new' ? 'ink' : id, film, state))
  })
  app.get('/api/forecasts/:id/tiles/:level/:x/:y', async (context) => {
    const { id, level, x, y } = context.req.param()
    const bytes = await films
      .get(id)
      ?.store.tile({ level: Number(level), x: Number(x), y: Number(y) })
    if (bytes === undefined || bytes === null) return context.body(null, 204)
    return context.body(new Uint8Array(bytes), 200, { 'content-type': 'application/octet-stream' })
  })
  app.get(PATHS.light, (context) =>
    context.json(lightOf(films.get(context.req.query('film') ?? ''))),
  )
  app.get('*', async (context) => {
    const path = normalize(context.req.path)
    const name = extname(path) === '' ? 'index.html' : path
    const bytes = await readFile(join(root, name)).catch(() => null)
    if (bytes === null) return context.notFound()
    return context.body(new Uint8Array(bytes), 200, {
      'content-type': TYPES[extname(name)] ?? 'application/octet-stream',
    })
  })
  return app
}

function recordOf(id: string, { name, film, findings }: Computed, state: FilmState): Film {
  const { widthPx, heightPx, pixelUm } = film
  const reading = state.mood === 'reading' || state.mood === 'picture first'
  return {
    kind: 'film',
    id,
    name,
    demo: true,
    status: state.mood === 'failed' ? 'failed' : reading ? 'reading' : 'ready',
    progressShare: reading ? 0.43 : 1,
    message: state.mood === 'failed' ? UNREADABLE : null,
    warnings: [],
    widthMm: (widthPx * pixelUm) / 1000,
    heightMm: (heightPx * pixelUm) / 1000,
    pixelUm,
    base: null,
    medium: null,
    marksAbove: null,
    underdrawing: findings.underdrawing && { ...findings.underdrawing, answer: state.answer },
  }
}

const DOSES = setupDoses(DEFAULT_SETUP)

function forecastOf(id: string, { levels, findings }: Computed, state: FilmState): FilmForecast {
  const isHere = state.mood !== 'reading' && state.mood !== 'failed'
  const isFound = isHere && state.mood !== 'picture first'
  return {
    kind: 'film forecast',
    id,
    status: isFound ? 'ready' : 'reading',
    progressShare: isFound ? 1 : 0.43,
    message: null,
    pyramid: isHere ? levels : null,
    ...DOSES,
    findings: isFound
      ? findings.findings.map(({ leakShare, ...found }, at) => ({
          ...found,
          number: at + 1,
          opensUpToLu: DOSES.gelDoseLu / leakShare,
        }))
      : [],
    along: isFound ? findings.alongLeakShares.map((leak) => DOSES.gelDoseLu / leak) : [],
  }
}

/** Invented: doses from 20 to 90, most likely good at 42. */
function lightOf(film: Computed | undefined): LightAnswer {
  const doses = Array.from({ length: 33 }, (_, at) => 22 * (78 / 22) ** (at / 32))
  const rise = (sds: number): number => 1 / (1 + Math.exp(-1.7 * sds))
  const holds = (doseLu: number): number => rise(Math.log10(doseLu / 33) / 0.03)
  return {
    kind: 'light',
    asked: {
      subject: { kind: 'film', id: 'kettle', name: film?.name ?? '' },
      base: { id: 'b', name: 'drafting film' },
      screen: null,
      unit: { id: 'u', name: 'the big lamp' },
    },
    verdict: 'works',
    countsIn: 'light units',
    dose: { value: 42, low: 36, high: 47, confidence: 0.8 },
    chance: { good: 0.7, open: 0.8, hold: 0.9, sound: 0.8 },
    lampTime: null,
    screensInTen: 7,
    word: 'fairly sure',
    cloth: {
      lowLu: 22,
      highLu: 78,
      along: [],
      across: doses.map((doseLu) => ({ doseLu, share: holds(doseLu) })),
      good: doses.map((doseLu) => ({
        doseLu,
        chance: 0.78 * holds(doseLu) * (1 - rise(Math.log10(doseLu / 52) / 0.05)),
      })),
      woven: doses.map((doseLu) => ({
        doseLu,
        chance: 0.78 * holds(doseLu) * (1 - rise(Math.log10(doseLu / 52) / 0.05)),
      })),
    },
    reasons: [],
    changed: null,
    advice: [],
  }
}

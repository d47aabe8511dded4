import { readFile } from 'node:fs/promises'
import { extname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'
import { serve } from '@hono/node-server'
import { Hono } from 'hono'
import { secureHeaders } from 'hono/secure-headers'
import type { FilmQueue } from '../../src/api/filmQueue.ts'
import type { Cloth, FirstDose, LightAnswer } from '../../src/api/light.ts'
import { PATHS } from '../../src/api/paths.ts'
import type { Choices, FirstFacts, Shop } from '../../src/api/shop.ts'
import { type LampState, mountLamp } from './lampFixture.testing.ts'
import { mountRoom } from './roomFixture.testing.ts'
import { calmTests, mountTests, type TestsState } from './testsFixture.testing.ts'

/**
 * A stand-in for the server, to see pages in states that a healthy server hardly ever shows. All
 * of it is invented demo data; no figure here is a result.
 */
/** A film still to be made, and one that is off its scale. */
const FILM_QUEUE: FilmQueue = {
  kind: 'film queue',
  films: [
    {
      id: 'wanted',
      what: 'Pear labels',
      layer: null,
      ticket: null,
      person: { id: 'demo', name: 'Tamsin Ore' },
      askedOn: '2026-11-28',
      madeOn: null,
      scale: null,
      crosses: null,
      liesIn: null,
      left: null,
    },
    {
      id: 'off',
      what: 'Night ferry, black',
      layer: { id: 'layer', name: 'N1-B, black' },
      ticket: 'ticket',
      person: null,
      askedOn: '2026-11-27',
      madeOn: '2026-11-28',
      scale: {
        barMm: 100,
        measuredMm: 99,
        across: { barMm: 80, measuredMm: 79.2 },
        is: 'off',
        says: ['1 in 100 too small.'],
      },
      crosses: { alongMm: 180, acrossMm: 80 },
      liesIn: 'drawer 2',
      left: null,
    },
  ],
  layers: [],
  people: [],
}

export type FixtureState = TestsState &
  LampState & {
    shop: 'none' | 'demo' | 'own'
    verdict: 'works' | 'no dose'
    word: LightAnswer['word']
    /** How the next questions for a dose are met. */
    mood: 'answers' | 'slow' | 'refuses' | 'opening' | 'cut off'
    countsIn: 'light units' | 'seconds'
  }

export const CALM: Readonly<Omit<FixtureState, keyof TestsState | keyof LampState>> = {
  shop: 'demo',
  verdict: 'works',
  word: 'fairly sure',
  mood: 'answers',
  countsIn: 'light units',
}

const APP = fileURLToPath(new URL('../../dist/web-app', import.meta.url))
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
}

export type Fixture = Readonly<{ url: string; state: FixtureState; stop: () => Promise<void> }>

export async function serveFixture(root: string = APP): Promise<Fixture> {
  const state: FixtureState = { ...CALM, ...calmTests(), lamp: 'known' }
  const app = fixtureApp(state, root)
  return new Promise((resolve) => {
    const server = serve({ fetch: app.fetch, port: 0, hostname: '127.0.0.1' }, ({ port }) => {
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

function fixtureApp(state: FixtureState, root: string): Hono {
  const app = new Hono()
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
        baseUri: ["'none'"],
        formAction: ["'none'"],
        frameAncestors: ["'none'"],
      },
      strictTransportSecurity: false,
    }),
  )
  app.use('/api/*', async (context, next) => {
    if (state.mood === 'cut off') return new Response(null, { status: 599 })
    if (state.mood === 'opening' && context.req.path !== PATHS.health) {
      return context.json({ error: { kind: 'opening', message: 'Opening.' } }, 503)
    }
    return next()
  })
  app.get(PATHS.health, (context) =>
    context.json({
      kind: 'health',
      status: state.mood === 'opening' ? 'opening' : 'ready',
      message: null,
    }),
  )
  app.get(PATHS.shop, (context) => context.json(shopOf(state)))
  app.post(PATHS.demoShop, (context) => {
    state.shop = 'demo'
    return context.json(shopOf(state))
  })
  app.post(PATHS.ownShop, (context) => {
    if (state.mood === 'refuses') return context.json(REFUSAL, 422)
    state.shop = 'own'
    return context.json(shopOf(state))
  })
  app.get(PATHS.me, (context) =>
    context.json({ kind: 'me', isOpen: true, person: null, role: 'lead' }),
  )
  mountRoom(app)
  app.get(PATHS.tickets, (context) =>
    context.json({ kind: 'tickets', tickets: [], people: [], inks: [] }),
  )
  app.get(PATHS.filmQueue, (context) => context.json(FILM_QUEUE))
  app.get(PATHS.choices, (context) => context.json(CHOICES))
  app.get(PATHS.light, async (context) => {
    if (state.mood === 'slow') await new Promise((later) => setTimeout(later, 3000))
    if (state.mood === 'refuses') return context.json(REFUSAL, 422)
    return context.json(lightOf(state, context.req.query()))
  })
  app.post(PATHS.firstDose, async (context) => {
    if (state.mood === 'slow') await new Promise((later) => setTimeout(later, 3000))
    if (state.mood === 'refuses') return context.json(REFUSAL, 422)
    return context.json(firstOf(await context.req.json<FirstFacts>()))
  })
  mountTests(app, state)
  mountLamp(app, state)
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

const REFUSAL = {
  error: { kind: 'wrong input', message: 'This screen was torn yesterday. Choose another one.' },
}

function shopOf({ shop }: FixtureState): Shop {
  switch (shop) {
    case 'none':
      return { kind: 'shop', state: 'none' }
    case 'demo':
      return { kind: 'shop', state: 'demo', name: 'Quillfield Print Room', units: 'metric' }
    case 'own':
      return { kind: 'shop', state: 'own', name: 'Our print room', units: 'metric' }
  }
}

const plain = (id: string, name: string, about: string | null = null) => ({
  id,
  name,
  about,
  not: null,
})

const CHOICES: Choices = {
  kind: 'choices',
  media: [
    plain('soft pencil', 'soft pencil'),
    plain('pen', 'fine pigment pen'),
    plain('ink', 'drawing ink'),
    plain('cut', 'cut masking film'),
  ],
  films: [plain('f1', 'Low water, pencil', 'demo'), plain('f2', 'Canal poster', 'demo')],
  bases: [plain('drafting', 'drafting film'), plain('clear', 'clear polyester')],
  screens: [
    plain('s14', 'screen 14', '90-48 yellow'),
    { id: 's15', name: 'screen 15', about: '77-55 white', not: 'torn' },
    plain('s6', 'screen 6', '43-80 white'),
  ],
  units: [plain('big', 'the big lamp'), plain('old', 'the old lamp', 'counts seconds')],
  usual: { medium: 'soft pencil', base: 'drafting', screen: 's14', unit: 'big' },
}

const CENTRES: Readonly<Record<string, readonly [hold: number, fog: number]>> = {
  'soft pencil': [36, 48],
  pen: [35, 47],
  ink: [36, 88],
  cut: [36, 135],
}

const TIMED = {
  coldSec: 49,
  hotSec: 42,
  says: 'A cold lamp in a hot one’s seconds would give the light of 36, 0.4 wedge steps too little.',
}

function lightOf(state: FixtureState, asked: Readonly<Record<string, string>>): LightAnswer {
  const subject = asked['film'] ?? asked['medium'] ?? 'soft pencil'
  const [hold, fog] = state.verdict === 'no dose' ? [52, 36] : (CENTRES[subject] ?? [36, 47])
  const guess = state.word === 'a first guess'
  const sd = guess ? 0.11 : 0.035
  const value = Math.round(state.verdict === 'no dose' ? fog * 0.95 : Math.sqrt(hold * fog))
  const named = (list: Choices['media'], id: string) =>
    list.find((one) => one.id === id) ?? plain(id, id)
  return {
    kind: 'light',
    asked: {
      subject: {
        kind: asked['film'] === undefined ? 'medium' : 'film',
        ...named([...CHOICES.media, ...CHOICES.films], subject),
      },
      base: named(CHOICES.bases, asked['base'] ?? 'drafting'),
      screen: named(CHOICES.screens, asked['screen'] ?? 's14'),
      unit: named(CHOICES.units, asked['unit'] ?? 'big'),
    },
    verdict: state.verdict,
    countsIn: state.countsIn,
    dose: { value, low: guess ? 30 : hold, high: guess ? 62 : fog - 1, confidence: 0.8 },
    chance: { good: 0.8, open: 0.9, hold: 0.9, sound: 0.85 },
    lampTime: state.countsIn === 'light units' ? null : TIMED,
    screensInTen: state.verdict === 'no dose' ? 1 : guess ? 5 : 8,
    word: state.verdict === 'no dose' ? 'in doubt' : state.word,
    cloth: clothOf({ hold, fog, sd }),
    reasons: [
      'Eleven screens in soft pencil came out under this lamp since July, and ten of them good.',
      'The wedge of 3 November held one step less than the one before: the new bucket wants more light.',
    ],
    changed: guess ? null : '3 more than in October: the new bucket wants more light.',
    advice:
      state.verdict === 'no dose'
        ? [
            'Go over the palest marks once more.',
            'Wash out gently.',
            'Expose again without the film.',
          ]
        : [],
  }
}

function firstOf(facts: FirstFacts): FirstDose {
  const known = Object.keys(facts).length
  const value = 44 + 2 * known + (facts.coats === 'more' ? 9 : 0)
  const spread = 1.55 - 0.05 * known
  return {
    kind: 'first dose',
    medium: 'soft pencil',
    countsIn: facts.countsIn ?? 'light units',
    dose: {
      value,
      low: Math.round(value / spread),
      high: Math.round(value * spread),
      confidence: 0.5,
    },
    screensInTen: Math.min(6, 4 + Math.floor(known / 2)),
    word: 'a first guess',
    cloth: clothOf({ hold: value * 0.78, fog: value * 1.25, sd: 0.13 - 0.008 * known }),
    afterStrip: { screensInTen: 8 },
  }
}

function clothOf({ hold, fog, sd }: Readonly<{ hold: number; fog: number; sd: number }>): Cloth {
  const [lowLu, highLu] = [Math.min(hold, fog) / 1.6, Math.max(hold, fog) * 1.45]
  const doses = Array.from({ length: 41 }, (_, at) => lowLu * (highLu / lowLu) ** (at / 40))
  const holds = (doseLu: number): number => rise(Math.log10(doseLu / hold) / sd)
  const opens = (doseLu: number): number => 1 - rise(Math.log10(doseLu / fog) / sd)
  return {
    lowLu,
    highLu,
    along: [-1.5, -0.8, -0.35, 0, 0.35, 0.8, 1.5].map((sds) => fog * 10 ** (sds * sd)),
    across: doses.map((doseLu) => ({ doseLu, share: holds(doseLu) })),
    good: doses.map((doseLu) => ({ doseLu, chance: holds(doseLu) * opens(doseLu) })),
    woven: doses.map((doseLu) => ({ doseLu, chance: holds(doseLu) * opens(doseLu) })),
  }
}

/** An S from 0 to 1, near enough to a normal curve for a picture. */
function rise(sds: number): number {
  return 1 / (1 + Math.exp(-1.7 * sds))
}

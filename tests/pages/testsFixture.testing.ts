import type { Hono } from 'hono'
import type { Cloth } from '../../src/api/light.ts'
import { PATHS } from '../../src/api/paths.ts'
import {
  designQuestion,
  gradePictures,
  newReading,
  notes,
  notesRead,
  type ReadingLine,
  readingList,
  readingsQuestion,
  readingTaken,
  strike,
  type Tests,
  testDesign,
  tests,
  testsQuestion,
} from '../../src/api/tests.ts'

/** What the Tests page meets; all of it invented demo data, no figure here is a result. */
export type TestsState = {
  tests: 'usual' | 'first guesses' | 'alarms' | 'no dose'
  /** How questions and tellings behind the door Tests are met. */
  testsMood: 'answers' | 'slow' | 'refuses'
  readings: ReadingLine[]
  /** What was told, as it came. */
  told: unknown[]
}

export function calmTests(): TestsState {
  return { tests: 'usual', testsMood: 'answers', readings: [...READINGS], told: [] }
}

const plain = (id: string, name: string, about: string | null = null) => ({
  id,
  name,
  about,
  not: null,
})
const FABRICS = [plain('f90', '90-48 yellow'), plain('f43', '43-80 white')]
const BATCHES = [
  plain('b2', 'the November bucket', 'open'),
  plain('b1', 'the July bucket', 'empty'),
]
const UNITS = [plain('big', 'the big lamp'), plain('old', 'the old lamp', 'counts seconds')]
const ABOUT = '90-48 yellow, the November bucket, the big lamp'

const MEDIA = [
  ['soft pencil', '11 screens, 2 strips', 42, 36, 47, 0.035, 'fairly sure', 7],
  ['fine pigment pen', '6 screens, 1 strip', 41, 36, 46, 0.035, 'fairly sure', 7],
  ['brush and drawing ink', '23 screens', 54, 36, 84, 0.025, 'sure', 9],
  ['grease marker', '2 screens', 50, 36, 74, 0.09, 'in doubt', 6],
  ['cut masking film', '31 screens, 3 strips', 70, 36, 125, 0.02, 'sure', 10],
  ['printed film', 'none yet', 52, 36, 95, 0.14, 'a first guess', 4],
] as const

const READINGS: readonly ReadingLine[] = [
  reading('r9', '2026-11-05', 'wedge', 'Wedge at 60: step 6 solid, step 8 clear'),
  reading('r8', '2026-11-04', 'outcome', 'Soft pencil at 42: good'),
  {
    ...reading('r7', '2026-11-03', 'outcome', 'Soft pencil at 38: soft'),
    doubts: ['The screen was washed hard: the reading may be of the washing.'],
  },
  {
    ...reading('r6', '2026-10-21', 'outcome', 'Soft pencil at 14: good'),
    struck: { on: '2026-10-22', reason: 'read from the wrong counter' },
  },
  reading('r5', '2026-10-12', 'strip', 'Soft pencil, six bands from 26 to 62: good from 35 to 46'),
]

function reading(id: string, on: string, kind: ReadingLine['kind'], says: string): ReadingLine {
  const medium = kind === 'wedge' ? null : { id: 'soft pencil', name: 'soft pencil' }
  return { id, on, kind, says, about: ABOUT, medium, struck: null, doubts: [] }
}

/** Puts what Tests asks for on an app. */
export function mountTests(app: Hono, state: TestsState): void {
  const refusal = (message: string, field?: string) => ({
    error: { kind: 'wrong input', message, ...(field === undefined ? {} : { field }) },
  })
  app.use('/api/tests/*', async (context, next) => {
    if (state.testsMood === 'slow') await new Promise((later) => setTimeout(later, 3000))
    return state.testsMood === 'refuses'
      ? context.json(refusal('The records are read only now: the disk is full. Make room.'), 409)
      : next()
  })
  app.get(PATHS.tests, (context) => {
    const asked = testsQuestion.parse(context.req.query())
    return context.json(tests.parse(testsOf(state, asked.on)))
  })
  app.get(PATHS.readings, (context) => {
    const { medium } = readingsQuestion.parse(context.req.query())
    const of = state.readings.filter(
      (line) => medium === undefined || line.medium === null || line.medium.id === medium,
    )
    return context.json(readingList.parse({ kind: 'readings', readings: of, alone: null }))
  })
  app.post(PATHS.readings, async (context) => {
    const parsed = newReading.safeParse(await context.req.json())
    if (!parsed.success) return context.json(refusal(parsed.error.message), 422)
    state.told.push(parsed.data)
    const told = parsed.data
    if (told.kind === 'outcome' && told.doseLu > 1000) {
      return context.json(
        refusal('The dose of the big lamp is at most 1000. You wrote 5000.', 'doseLu'),
        422,
      )
    }
    const says =
      told.kind === 'wedge'
        ? `Wedge at ${told.doseLu}: step ${told.lastSolidStep} solid`
        : told.kind === 'strip'
          ? `Strip of ${told.bands.length} bands`
          : `Soft pencil at ${told.doseLu}`
    const line = reading(`r${state.readings.length + 10}`, '2026-11-28', told.kind, says)
    state.readings.unshift(line)
    return context.json(
      readingTaken.parse({
        kind: 'reading taken',
        reading: line,
        moved: ['The ground holds from 36 to 37 now.', 'Soft pencil: 43, was 42.'],
      }),
      201,
    )
  })
  app.post(`${PATHS.readings}/:id/strike`, async (context) => {
    const { reason } = strike.parse(await context.req.json())
    const at = state.readings.findIndex(({ id }) => id === context.req.param('id'))
    const line = state.readings[at]
    if (line === undefined) return context.json(refusal('There is no such reading.'), 404)
    const struck = { ...line, struck: { on: '2026-11-28', reason } }
    state.readings[at] = struck
    return context.json(
      readingTaken.parse({
        kind: 'reading taken',
        reading: struck,
        moved: ['Soft pencil: 41, was 42.'],
      }),
    )
  })
  app.post(PATHS.reference, (context) =>
    context.json({ kind: 'accepted', acceptedOn: '2026-11-28' }),
  )
  app.post(PATHS.buckets, async (context) => {
    const { name } = await context.req.json<{ name: string }>()
    return context.json({ kind: 'bucket', batch: plain('b3', name) }, 201)
  })
  app.get(PATHS.testDesign, (context) => {
    const { bands, medium } = designQuestion.parse(context.req.query())
    return context.json(testDesign.parse(designOf(bands ?? 6, medium ?? 'soft pencil')))
  })
  app.get(PATHS.grades, (context) =>
    context.json(
      gradePictures.parse({
        kind: 'grades',
        grades: GRADES.map(([grade, words]) => ({ grade, words, picture: '/mark.svg' })),
      }),
    ),
  )
  app.post(PATHS.notes, async (context) => {
    const { text, dryRun } = notes.parse(await context.req.json())
    return context.json(notesRead.parse(notesOf(text, dryRun)))
  })
}

const GRADES = [
  ['washed off', 'The ground washed off in places.'],
  ['soft', 'It held, with slime inside.'],
  ['good', 'Sharp edges, all open.'],
  ['filling', 'Thin marks fill in.'],
  ['filled', 'Thin marks are shut.'],
] as const

function testsOf(state: TestsState, on: string | undefined): Tests {
  const guesses = state.tests === 'first guesses'
  return {
    kind: 'tests',
    asked: {
      fabric: { id: 'f90', name: '90-48 yellow' },
      batch: { id: 'b2', name: 'the November bucket' },
      unit: { id: 'big', name: 'the big lamp' },
    },
    choices: {
      fabrics: FABRICS,
      batches: BATCHES,
      units: UNITS,
      media: MEDIA.map(([name]) => plain(name, name)),
    },
    countsIn: 'light units',
    on: on ?? '2026-11-28',
    now: on === undefined,
    scale: { lowLu: 23.5, highLu: 155 },
    media: MEDIA.map(([name, heard, value, low, high, sd, word, inTen], at) => {
      const none = state.tests === 'no dose' && at === 0
      const fog = none ? 34 : high * 1.02
      return {
        medium: { id: name, name },
        heard: guesses ? 'none yet' : heard,
        verdict: none ? 'no dose' : 'works',
        dose: { value: none ? 32 : value, low, high, confidence: 0.8 },
        screensInTen: guesses ? 4 : inTen,
        word: guesses ? 'a first guess' : word,
        cloth: clothOf({
          hold: none ? 44 : 36,
          fog,
          sd: guesses ? 0.14 : 0.03,
          fogSd: guesses ? 0.16 : sd,
        }),
      }
    }),
    ground: groundOf(guesses),
    changed: guesses
      ? null
      : {
          headline: 'The new bucket wants more light.',
          sentence:
            'Since 3 November the ground needs 36, not 33: seen on one wedge and two screens.',
        },
    alarms:
      state.tests === 'alarms'
        ? [
            {
              since: '2026-11-03',
              cause: 'bucket',
              headline: 'The new bucket wants more light.',
              sentence: 'Since 3 November the ground needs 36, not 33.',
              others: ['the lamp has grown weaker', 'the screens were not quite dry'],
              test: 'one wedge on a screen from the July bucket, dried overnight.',
            },
            {
              since: '2026-11-04',
              cause: 'reading mistake',
              headline: 'One reading says something quite different.',
              sentence: 'Soft pencil at 14 came out good, where 42 is usual.',
              others: [],
              test: 'look at the counter’s setting again.',
            },
          ]
        : [],
    reference: guesses ? null : { acceptedOn: '2026-11-03' },
    next: {
      kind: 'strip',
      sentence: 'One strip today, six bands, 15 minutes, and we know it to within 2 light units.',
      medium: { id: 'soft pencil', name: 'soft pencil' },
      bands: 6,
      minutes: 15,
    },
    warnings: [],
  }
}

/** Believed day by day since July, with readings here and there; invented. */
function groundOf(guesses: boolean): Tests['ground'] {
  const dose = { value: 36, low: 34.8, high: 37.2, confidence: 0.8 }
  if (guesses) return { dose, days: [], readings: [], breaks: [] }
  const day = (number: number): string =>
    new Date(Date.UTC(2026, 6, 1) + number * 86_400_000).toISOString().slice(0, 10)
  const days = Array.from({ length: 51 }, (_, at) => at * 3).map((at) => {
    const middle = at < 125 ? 31.9 + at * 0.009 : 35.8
    const half = at < 125 ? 1.1 - at * 0.003 : 1.4 - (at - 125) * 0.02
    return { on: day(at), value: middle, low: middle - half, high: middle + half }
  })
  const at = [3, 14, 21, 32, 40, 51, 59, 70, 80, 87, 98, 109, 130, 137, 144]
  const middles = [
    32.3, 32.6, 32.4, 32.6, 32.5, 32.8, 33.4, 32.6, 32.9, 33.2, 33.3, 33.0, 36, 36.3, 36.2,
  ]
  const halves = [2.3, 1.6, 3.6, 1, 2.5, 2, 1.5, 1.1, 2.9, 1.6, 2.2, 1.2, 2.1, 2.7, 1.4]
  return {
    dose,
    days,
    readings: at.map((number, index) => {
      const [middle, half] = [middles[index], halves[index]]
      return {
        id: `g${index}`,
        on: day(number),
        value: middle,
        low: middle - half,
        high: middle + half,
        says: 'Wedge at 60: step 6 solid, step 8 clear',
      }
    }),
    breaks: [{ on: '2026-11-03', words: 'new bucket' }],
  }
}

function designOf(bands: number, medium: string): unknown {
  const doses = Array.from({ length: bands }, (_, at) =>
    Math.round(26 * (62 / 26) ** (at / (bands - 1))),
  )
  const falling = doses.toReversed()
  return {
    kind: 'test design',
    asked: {
      fabric: FABRICS[0],
      batch: BATCHES[0],
      unit: UNITS[0],
      medium: { id: medium, name: medium },
    },
    countsIn: 'light units',
    bands: doses.map((doseLu, at) => ({ number: at + 1, doseLu })),
    incrementsLu: falling.map((doseLu, at) => doseLu - (falling[at + 1] ?? 0)),
    coverMm: falling.map((_, at) => 86 + at * 24),
    before: { dose: { value: 42, low: 36, high: 47, confidence: 0.8 }, screensInTen: 7 },
    after: { lowLu: 39, highLu: 45, screensInTen: 9 },
    minutes: 15,
    twoFilms: { lowLu: 39, highLu: 50, screensInTen: 9, minutes: 20 },
    sentences: [
      'Six bands from 26 to 62, each a sixth less, tell where the ground begins to hold.',
    ],
    cautions: [
      'Do not look at the lamp. It lights only with the lid closed; leave that switch alone.',
      'The lid is heavy. Hold it until it rests.',
    ],
  }
}

function notesOf(text: string, dryRun: boolean): unknown {
  const lines = text.trim().split('\n').slice(1)
  const bad = lines.flatMap((line, at) =>
    /,\d+(\.\d+)?,/.test(line)
      ? []
      : [
          {
            line: at + 2,
            message: `The dose must be a number, like 70. It says “${line.split(',')[2] ?? ''}”.`,
          },
        ],
  )
  return {
    kind: 'notes',
    dryRun,
    lines: lines.length,
    taken: lines.length - bad.length,
    problems: bad,
    slashDatesUnclear: false,
    preview: [{ line: 2, says: '3 November 2025: soft pencil at 42, good' }],
  }
}

function clothOf({
  hold,
  fog,
  sd,
  fogSd,
}: Readonly<{ hold: number; fog: number; sd: number; fogSd: number }>): Cloth {
  const [lowLu, highLu] = [23.5, 155]
  const doses = Array.from({ length: 61 }, (_, at) => lowLu * (highLu / lowLu) ** (at / 60))
  const rise = (sds: number): number => 1 / (1 + Math.exp(-1.7 * sds))
  const holds = (doseLu: number): number => rise(Math.log10(doseLu / hold) / sd)
  const good = (doseLu: number): number =>
    holds(doseLu) * (1 - rise(Math.log10(doseLu / fog) / fogSd))
  return {
    lowLu,
    highLu,
    along: [-1.5, -0.8, -0.35, 0, 0.35, 0.8, 1.5].map((sds) => fog * 10 ** (sds * fogSd)),
    across: doses.map((doseLu) => ({ doseLu, share: holds(doseLu) })),
    good: doses.map((doseLu) => ({ doseLu, chance: good(doseLu) })),
    woven: doses.map((doseLu) => ({ doseLu, chance: good(doseLu) })),
  }
}

import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PATHS, strikePath } from '../../src/api/paths.ts'
import { refusal } from '../../src/api/shop.ts'
import {
  type NewReading,
  type NotesRead,
  notesRead,
  readingTaken,
  type Tests,
  tests,
} from '../../src/api/tests.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { type Room, room } from './room.ts'

/** Whatever is told, the shop answers in sentences and its belief stays whole. */

let own: Room
beforeAll(async () => {
  own = await room()
  expect((await post(PATHS.ownShop, { shopName: 'Shed press', fabric: '90-48' })).status).toBe(201)
})
afterAll(() => own.close())

function post(path: string, body: unknown): Promise<Response> {
  const headers = { 'content-type': 'application/json' }
  return own.ask(path, { method: 'POST', headers, body: JSON.stringify(body) })
}
async function told(reading: NewReading): Promise<string> {
  const response = await post(PATHS.readings, reading)
  return readingTaken.parse(await response.json()).reading.id
}
const struck = async (id: string): Promise<void> => {
  expect((await post(strikePath(id), { reason: 'another try' })).status).toBe(200)
}
const believed = async (): Promise<Tests> => tests.parse(await (await own.ask(PATHS.tests)).json())
const dosesOf = ({ media }: Tests): readonly number[] => media.flatMap(({ dose }) => dose.value)

describe('a reading that cannot be is refused in a sentence, and nothing of it is kept', () => {
  const wedge = { kind: 'wedge', doseLu: 60, lastSolidStep: 6 }
  const outcome = { kind: 'outcome', medium: 'soft pencil', doseLu: 40, is: { grade: 'good' } }
  const strip = { kind: 'strip', medium: 'soft pencil' }
  test.each<readonly [string, unknown, string]>([
    ['a dose of nothing', { ...outcome, doseLu: 0 }, 'doseLu'],
    ['a dose below nothing', { ...wedge, doseLu: -3 }, 'doseLu'],
    ['a dose of no lamp', { ...outcome, doseLu: 1e9 }, 'doseLu'],
    ['a day to come', { ...outcome, on: '2190-01-01' }, 'on'],
    ['a day of no calendar', { ...outcome, on: '2025-02-30' }, 'on'],
    ['a day before any shop', { ...outcome, on: '0190-01-01' }, 'on'],
    ['a step that the wedge has not', { ...wedge, lastSolidStep: 22 }, 'lastSolidStep'],
    ['a clear step before the last solid one', { ...wedge, firstClearStep: 4 }, 'firstClearStep'],
    ['no such grade', { ...outcome, is: { grade: 'fine' } }, 'is'],
    ['a strip of no bands', { ...strip, bands: [] }, 'bands'],
    ['a band of nothing', { ...strip, bands: bandsOf([0, 40]) }, 'bands'],
    [
      'ten thousand bands',
      { ...strip, bands: bandsOf(Array.from({ length: 10_000 }, () => 40)) },
      'bands',
    ],
  ])('%s', async (_, body, field) => {
    const before = await (await own.ask(PATHS.readings)).text()
    const response = await post(PATHS.readings, body)
    expect(response.status).toBeGreaterThanOrEqual(400)
    expect(response.status).toBeLessThan(500)
    const { error } = refusal.parse(await response.json())
    expect(error.message).toMatch(/^\w.{10,400}\.$/)
    expect(error.message).not.toMatch(/error|invalid|undefined|NaN|expected/i)
    expect(error.field ?? '').toContain(field)
    expect(await (await own.ask(PATHS.readings)).text()).toBe(before)
  })

  function bandsOf(doses: readonly number[]): readonly unknown[] {
    return doses.map((doseLu) => ({ doseLu, is: { grade: 'good' } }))
  }
})

test('readings of one day in another order give the same doses, and struck out they leave no trace', async () => {
  const before = dosesOf(await believed())
  const day: readonly NewReading[] = [
    { kind: 'wedge', doseLu: 60, lastSolidStep: 6, firstClearStep: 8 },
    { kind: 'outcome', medium: 'soft pencil', doseLu: 44, is: { grade: 'soft' } },
    { kind: 'outcome', medium: 'drawing ink', doseLu: 58, is: { grade: 'good' } },
    {
      kind: 'strip',
      medium: 'soft pencil',
      // the third contradicts its neighbours
      bands: [20, 30, 42, 60, 85].map((doseLu, at) => ({
        doseLu,
        is: { grade: (['soft', 'good', 'washed off', 'good', 'filled'] as const)[at] ?? 'good' },
      })),
    },
  ]
  const inOrder = async (all: readonly NewReading[]): Promise<readonly number[]> => {
    const ids: string[] = []
    for (const reading of all) ids.push(await told(reading))
    const doses = dosesOf(await believed())
    for (const id of ids) await struck(id)
    expect(dosesOf(await believed())).toEqual(before)
    return doses
  }
  const forwards = await inOrder(day)
  const backwards = await inOrder(day.toReversed())
  expect(forwards).not.toEqual(before)
  forwards.forEach((dose, at) => {
    near((backwards[at] ?? 0) / dose, 1, { within: 1e-9, because: 'a day has an order of its own' })
  })
})

describe('old notes', () => {
  const look = async (text: string, more: object = {}): Promise<NotesRead> =>
    notesRead.parse(await (await post(PATHS.notes, { text, dryRun: true, ...more })).json())
  const HEAD = 'date,medium,dose,outcome\n'

  test('ask which number is the month where nothing tells, and take the answer', async () => {
    const text = `${HEAD}03/04/2025,soft pencil,40,good\n`
    const asked = await look(text)
    expect(asked).toMatchObject({ taken: 0, slashDatesUnclear: true })
    expect(asked.problems[0]?.message).toMatch(
      /^Line 2: '03\/04\/2025' may be 2025-04-03 or 2025-03-04/,
    )
    const [day, month] = [
      await look(text, { slashDates: 'day first' }),
      await look(text, { slashDates: 'month first' }),
    ]
    expect([day.preview[0]?.says, month.preview[0]?.says]).toEqual([
      expect.stringContaining('2025-04-03'),
      expect.stringContaining('2025-03-04'),
    ])
    expect(await look(`${text}25/04/2025,soft pencil,41,good`)).toMatchObject({
      taken: 2,
      slashDatesUnclear: false,
    })
  })

  test('of ten thousand lines are looked through, each bad one with its sentence', async () => {
    const lines = Array.from({ length: 10_000 }, (_, at) => {
      const dose = at % 100 === 7 ? 0 : 30 + at / 1000
      return `2025-0${1 + (at % 9)}-${10 + (at % 18)},soft pencil,${dose},good`
    })
    const { taken, problems } = await look(HEAD + lines.join('\n'))
    expect([taken, problems.length]).toEqual([9900, 100])
    for (const { message } of problems) expect(message).toMatch(/^Line \d+: .{10,300}\.$/)
  })
})

/** Questions that cannot be, and the sentence that each gets: what is wrong, where, and what would do. */
const QUESTIONS: readonly (readonly [string, string])[] = [
  ['/api/screen-choice?rulingPerCm=abc', 'The ruling must be a number; it is “abc”.'],
  ['/api/screen-choice?rulingPerCm=NaN', 'The ruling must be a number; it is “NaN”.'],
  ['/api/screen-choice?rulingPerCm=1e9', 'The ruling must be at most 120 a cm; it is 1000000000.'],
  ['/api/place/plan.pdf', 'The list of films and where they lie must be a text; it is missing.'],
  ['/api/place?frameMm=', 'The distance from the frame must be a number; it is “”.'],
  [
    '/api/place/plan.pdf?laid=f:1:3&frameMm=wide',
    'The distance from the frame must be a number; it is “wide”.',
  ],
  [
    '/api/place/plan.pdf?laid=f:1:3&betweenMm=-2',
    'The distance between films must be at least 0 mm; it is -2.',
  ],
  [
    '/api/place/plan.pdf?laid=f:NaN:3',
    '“f:NaN:3” is no film with its place: write it like FILM:145:200, with :t behind it where it is turned.',
  ],
  [
    '/api/place/plan.pdf?laid=f:1:3&screenXMm=Infinity',
    'The screen’s place from the left must be a number; it is “Infinity”.',
  ],
  ['/api/tests/readings?limit=many', 'How many are asked for must be a number; it is “many”.'],
  ['/api/tests/readings?limit=2.5', 'How many are asked for must be a whole number; it is 2.5.'],
  ['/api/tests/design?bands=NaN', 'The number of bands must be a number; it is “NaN”.'],
  ['/api/tests/strip.pdf?resolutionDpi=fine', 'The resolution must be a number; it is “fine”.'],
  ['/api/tests/strip.pdf?resolutionDpi=9', 'The resolution must be at least 150 dpi; it is 9.'],
  ['/api/register/reclaim?graceDays=some', 'The days of grace must be a number; it is “some”.'],
  ['/api/register/reclaim?on=tomorrow', 'The day must be a day like 2026-11-28; it is “tomorrow”.'],
  [
    '/api/register/labels.pdf?say=hm',
    'What the labels say must be one of “screen”, “coat”; it is “hm”.',
  ],
  ['/api/light?place=NaN,NaN', 'The place must be like 420,310; it is “NaN,NaN”.'],
  [
    '/api/bench/run-sheet.pdf?from=warm',
    'How warm the lamp is must be one of “cold”, “hot”; it is “warm”.',
  ],
  [
    '/api/light?dose=42',
    '“dose” is nothing that is asked for here: leave it out, or check its name.',
  ],
]

/** Told to the shop: the path, what was sent, the sentence. */
const TOLD: readonly (readonly [string, unknown, string])[] = [
  ['/api/place', { films: [{ film: 'x' }] }, 'The screen must be a text; it is missing.'],
  ['/api/place', { screen: '9', films: [] }, 'Of films at least 1 are needed; here are 0.'],
  [
    '/api/place',
    { screen: '9', films: ['x'] },
    'Film 1 must be a JSON object, like {}; it is “x”.',
  ],
  ['/api/place', { screen: '9', films: 'x' }, 'The films must be a JSON list, like []; it is “x”.'],
  [
    '/api/place/check',
    { screen: '9', films: [{ film: 'x', xMm: 'left', yMm: 3 }] },
    'The place from the left of film 1 must be a number; it is “left”.',
  ],
  [
    '/api/tickets',
    { name: 'A', inks: [{ name: 'red', colour: 'reddish' }] },
    'The colour of ink 1 must be like #c3402f; it is “reddish”.',
  ],
  [
    '/api/film-queue',
    { key: 'a-key-of-nothing' },
    'What is meant is not right: say which film it is, or for which layer.',
  ],
  ['/api/bench/runs', { key: 'short' }, 'The key must be like pulled-7f3a09c2; it is “short”.'],
  ['/api/tickets', { name: '' }, 'The name must be a text of at least one letter; it is “”.'],
]

test.each(QUESTIONS)('%s is refused in a sentence that helps', async (path, sentence) => {
  const response = await own.ask(path)
  expect([response.status, refusal.parse(await response.json()).error.message]).toEqual([
    422,
    sentence,
  ])
})

test.each(TOLD)('%s with %j is refused in a sentence that helps', async (path, body, sentence) => {
  const response = await post(path, body)
  expect([response.status, refusal.parse(await response.json()).error.message]).toEqual([
    422,
    sentence,
  ])
})

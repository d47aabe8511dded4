import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { near } from '../../src/core/units/near.testing.ts'
import type { Doubtful } from '../../src/core/units/quantity.ts'
import { refused, run } from './run.ts'

type Piece = Readonly<Record<string, unknown>>
type Problem = Readonly<{ evidence?: readonly Piece[]; ask?: readonly Piece[] }>
type Answer = Readonly<{
  dose: Doubtful
  lowLu: number
  highLu: number
  chanceGood: number
  reasons: readonly string[]
}>
type Calibration = Readonly<{
  kind: string
  gelDoseLu: Doubtful
  holdDoseLu: Doubtful
  media: readonly Readonly<{
    name: string
    density: Doubtful
    dose: Doubtful
    chanceGood: number
  }>[]
  drift: readonly Readonly<{
    day: string | number
    kind: string
    reason: string
    steps: number
    test: string
  }>[]
  answers: readonly Answer[]
  warnings: readonly string[]
}>

let folder = ''
let file = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'yellowroom-calibrate-'))
  file = join(folder, 'readings.json')
})
afterAll(() => rm(folder, { recursive: true }))

async function bytes(problem: unknown, more: readonly string[] = []): Promise<string> {
  await writeFile(file, JSON.stringify(problem))
  const { exit, out } = await run(['calibrate', file, '--json', ...more])
  if (exit !== 0) throw new Error(out)
  return out
}

async function calibrated(problem: Problem, more: readonly string[] = []): Promise<Calibration> {
  return JSON.parse(await bytes(problem, more)) as Calibration
}

async function refusal(problem: unknown, more: readonly string[] = []): Promise<unknown> {
  await writeFile(file, JSON.stringify(problem))
  return refused(['calibrate', file, ...more])
}

const HOUSE = { unit: 'lamp', emulsion: 'A', fabric: '90-48' }
const wedge = (day: number, lastSolidStep: number, more: Piece = {}): Piece => ({
  kind: 'wedge',
  doseLu: 57,
  lastSolidStep,
  day,
  ...HOUSE,
  ...more,
})
const screen = (day: number, more: Piece = {}): Piece => ({
  kind: 'outcome',
  medium: 'soft pencil',
  doseLu: 39,
  grade: 'good',
  day,
  ...HOUSE,
  ...more,
})
const strip = (day: number, more: Piece = {}): Piece => ({
  kind: 'strip',
  medium: 'drawing ink',
  bands: [
    { doseLu: 15, grade: 'washed off' },
    { doseLu: 31, grade: 'soft' },
    { doseLu: 61, grade: 'good' },
    { doseLu: 121, grade: 'filling' },
  ],
  day,
  ...HOUSE,
  ...more,
})
const WEEKS = [
  wedge(1, 5, { firstClearStep: 7, screen: 's' }),
  strip(2),
  screen(3, { screen: 's' }),
  wedge(8, 5),
  screen(8),
]

type Three = Readonly<{ value: number; low: number; high: number }>
type Case = Readonly<{
  name: string
  problem: Problem
  expected: Readonly<{
    holdLog: Three
    gelLog?: Three
    media?: readonly Readonly<{ name: string; density: Three }>[]
    answers?: readonly Readonly<{
      doseLu: number
      lowLu: number
      highLu: number
      chanceGood: number
    }>[]
  }>
}>
const ORACLE = fileURLToPath(new URL('calibrationOracle.json', import.meta.url))
const { cases } = JSON.parse(await readFile(ORACLE, 'utf8')) as { cases: readonly Case[] }

describe('held to a reckoning apart', () => {
  const alone = cases.filter(({ expected }) => expected.gelLog === undefined)
  test.each(alone)(
    'oracle brute-force-shops: $name, by quadrature',
    async ({ problem, expected }) => {
      const { holdDoseLu } = await calibrated(problem)
      for (const end of ['low', 'value', 'high'] as const) {
        near(Math.log10(holdDoseLu[end]), expected.holdLog[end], {
          within: 0.002,
          because: 'a nearly normal curve is taken for one: half a per cent of the dose',
        })
      }
    },
  )

  const sampled = cases.filter(({ expected }) => expected.gelLog !== undefined)
  test.each(sampled)('oracle brute-force-shops: $name', async ({ problem, expected }) => {
    const { holdDoseLu, gelDoseLu, media, answers } = await calibrated(problem)
    const close = (found: Doubtful, three: Three, of: (value: number) => number): void => {
      const sd = (three.high - three.low) / 3.29
      for (const end of ['low', 'value', 'high'] as const) {
        near(of(found[end]), three[end], {
          within: 0.3 * sd,
          because: 'skewed curves are taken for normal ones, and lots were drawn',
        })
      }
    }
    close(holdDoseLu, expected.holdLog, Math.log10)
    if (expected.gelLog !== undefined) close(gelDoseLu, expected.gelLog, Math.log10)
    for (const { name, density } of expected.media ?? []) {
      const own = media.find((medium) => medium.name === name)
      expect(own).toBeDefined()
      if (own !== undefined) close(own.density, density, (value) => value)
    }
    for (const [at, { doseLu, lowLu, highLu, chanceGood }] of (expected.answers ?? []).entries()) {
      const { dose, ...found } = answers[at]
      near(dose.value / doseLu, 1, { within: 0.06, because: 'a flat top, and 60 000 lots' })
      near(found.lowLu / lowLu, 1, { within: 0.09, because: 'doses 2.3 % apart, and the same' })
      near(found.highLu / highLu, 1, { within: 0.09, because: 'doses 2.3 % apart, and the same' })
      near(found.chanceGood, chanceGood, { within: 0.06, because: 'skewed curves, and lots' })
    }
  })

  const PRIOR_ALONE = [
    ['soft pencil', 40],
    ['drawing ink', 53],
    ['cut masking film', 94],
  ] as const
  test.each(PRIOR_ALONE)(
    'oracle dose-rule: with no evidence %s gets %d lu',
    async (medium, doseLu) => {
      const { answers, media, gelDoseLu, holdDoseLu } = await calibrated({ ask: [{ medium }] })
      near(answers[0].dose.value / doseLu, 1, { within: 0.03, because: 'a flat top, whole units' })
      expect(media).toMatchObject([{ name: medium, dose: answers[0].dose }])
      near(holdDoseLu.value, 10.3, { within: 0.01, because: '10^1.013' })
      near(gelDoseLu.value, 6, { within: 0.01, because: '10^(1.013 - 0.235)' })
    },
  )

  test('oracle iso5-1: a base of 0.30 D more wants twice the light, to the last digit of the answer', async () => {
    const ask = [{ medium: 'drawing ink' }, { medium: 'drawing ink', baseDensity: 0.30103 }]
    const { answers } = await calibrated({ evidence: WEEKS, ask })
    near(answers[1].dose.value / answers[0].dose.value, 2, {
      within: 2e-3,
      because: 'doses are found to 0.1 %',
    })
  })
})

describe('the answer', () => {
  test('has the shape of the contract, answers in the order of the questions', async () => {
    const ask = ['cut masking film', 'soft pencil', 'Drawing Ink'].map((medium) => ({
      medium,
      ...HOUSE,
    }))
    const answer = await calibrated({ evidence: WEEKS, ask })
    const range = { value: expect.any(Number), low: expect.any(Number), high: expect.any(Number) }
    const doubtful = { ...range, confidence: 0.9 }
    expect(answer).toMatchObject({
      kind: 'calibration',
      gelDoseLu: doubtful,
      holdDoseLu: doubtful,
      drift: [],
      warnings: [],
    })
    expect(answer.media.map(({ name }) => name)).toEqual([
      'drawing ink',
      'soft pencil',
      'cut masking film',
    ])
    for (const { density, dose, chanceGood } of answer.media) {
      expect({ density, dose }).toMatchObject({ density: doubtful, dose: range })
      expect(chanceGood).toBeGreaterThan(0.3)
    }
    expect(answer.answers).toHaveLength(3)
    for (const { dose, lowLu, highLu, chanceGood } of answer.answers) {
      expect(dose).toMatchObject(range)
      expect(lowLu).toBeLessThan(dose.value)
      expect(highLu).toBeGreaterThan(dose.value)
      expect(chanceGood).toBeGreaterThan(0)
      expect(chanceGood).toBeLessThan(1)
    }
    const [cut, pencil, ink] = answer.answers.map(({ dose }) => dose.value)
    expect(cut).toBeGreaterThan(ink)
    expect(ink).toBeGreaterThan(pencil)
  })

  test('one problem in a list answers as it does alone, to the byte', async () => {
    const problems = [
      { evidence: WEEKS, ask: [{ medium: 'laser toner' }] },
      {},
      { evidence: [wedge(4, 7)] },
    ]
    const alone: string[] = []
    for (const problem of problems) alone.push((await bytes(problem)).trim())
    expect((await bytes(problems)).trim()).toBe(`[${alone.join()}]`)
    expect((await bytes([])).trim()).toBe('[]')
  })

  test('evidence in any order makes the same answer', async () => {
    const ask = [{ medium: 'soft pencil', day: 9, ...HOUSE }]
    const there = await bytes({ evidence: WEEKS, ask })
    expect(JSON.parse(await bytes({ evidence: WEEKS.toReversed(), ask }))).toEqual({
      ...JSON.parse(there),
      media: (JSON.parse(there) as Calibration).media.toReversed(),
    })
    const turned = [...WEEKS.slice(2), ...WEEKS.slice(0, 2)]
    const { answers, holdDoseLu } = await calibrated({ evidence: turned, ask })
    expect({ answers, holdDoseLu }).toEqual({
      answers: (JSON.parse(there) as Calibration).answers,
      holdDoseLu: (JSON.parse(there) as Calibration).holdDoseLu,
    })
  })

  test('what is struck out is as if it had never been', async () => {
    const odd = wedge(5, 11, { firstClearStep: 12 })
    const ask = [{ medium: 'soft pencil', ...HOUSE }]
    const without = await calibrated({ evidence: WEEKS, ask })
    const struck = await calibrated({ evidence: [...WEEKS, { ...odd, struckOut: true }], ask })
    expect(struck).toEqual(without)
    const kept = await calibrated({ evidence: [...WEEKS, { ...odd, struckOut: false }], ask })
    expect(kept.holdDoseLu.value).not.toBe(without.holdDoseLu.value)
  })

  test('a screen that nothing else is said of may have a name or none', async () => {
    const ask = [{ medium: 'soft pencil', ...HOUSE, film: 'reeds' }]
    const named = WEEKS.map((each, at) => ({
      ...each,
      screen: each['screen'] ?? `own ${at}`,
      film: `f${at}`,
    }))
    expect(await calibrated({ evidence: named, ask })).toEqual(
      await calibrated({ evidence: WEEKS, ask }),
    )
    const shared = await calibrated({
      evidence: WEEKS.map((each) => ({ ...each, film: 'reeds' })),
      ask,
    })
    expect(shared.answers[0].dose).not.toEqual(
      (await calibrated({ evidence: WEEKS, ask })).answers[0].dose,
    )
  })

  test('--until is what was known that evening', async () => {
    const early = WEEKS.filter(({ day }) => Number(day) <= 3)
    const ask = [{ medium: 'soft pencil', ...HOUSE, day: 9 }]
    expect(await calibrated({ evidence: WEEKS, ask }, ['--until', '3'])).toEqual({
      ...(await calibrated({ evidence: early, ask })),
    })
    expect(await refusal({ evidence: WEEKS }, ['--until', '2026-03-02'])).toMatchObject({
      exit: 2,
      field: 'until',
      message: expect.stringContaining('The days in the file are day numbers'),
    })
  })

  test('the estimates are for the set-up of the newest evidence, not for its screen', async () => {
    const slow = { ...HOUSE, unit: 'tubes' }
    const evidence = [wedge(1, 6), wedge(2, 6), wedge(3, 3, slow), wedge(4, 3, slow)]
    const newestSlow = await calibrated({ evidence })
    const newestFast = await calibrated({ evidence: [...evidence, wedge(5, 6)] })
    expect(newestSlow.holdDoseLu.value / newestFast.holdDoseLu.value).toBeGreaterThan(1.3)
    const named = await calibrated({ evidence: [wedge(1, 6, { screen: '4' })] })
    expect(named.holdDoseLu).toEqual((await calibrated({ evidence: [wedge(1, 6)] })).holdDoseLu)
  })

  test('dates and day numbers that are as far apart say the same', async () => {
    const dates = { 1: '2024-02-28', 2: '2024-02-29', 3: '2024-03-01', 8: '2024-03-06' } as const
    const dated = WEEKS.map((each) => ({ ...each, day: dates[each['day'] as 1] }))
    const { answers, holdDoseLu } = await calibrated({
      evidence: dated,
      ask: [{ medium: 'soft pencil', day: '2024-03-10' }],
    })
    const numbered = await calibrated({
      evidence: WEEKS,
      ask: [{ medium: 'soft pencil', day: 12 }],
    })
    expect({ answers, holdDoseLu }).toEqual({
      answers: numbered.answers,
      holdDoseLu: numbered.holdDoseLu,
    })
  })
})

describe('what the answer does with what it hears', () => {
  test('more light through, less light wanted: the hold dose follows the last solid step', async () => {
    const holds: number[] = []
    for (const step of [2, 5, 8, 11]) {
      holds.push(
        (await calibrated({ evidence: [wedge(1, step), wedge(1, step)] })).holdDoseLu.value,
      )
    }
    expect(holds).toEqual(holds.toSorted((a, b) => b - a))
  })

  test('two ticks say what one word says, and filling with its ground says a little more', async () => {
    const ask = [{ medium: 'soft pencil', ...HOUSE }]
    const doseAfter = async (told: Piece): Promise<number> => {
      const { kind, medium, doseLu } = screen(1)
      const evidence = Array.from({ length: 3 }, () => ({
        kind,
        medium,
        doseLu,
        day: 1,
        ...HOUSE,
        ...told,
      }))
      return (await calibrated({ evidence, ask })).answers[0].dose.value
    }
    near(
      (await doseAfter({ ground: 'sound', marks: 'open' })) / (await doseAfter({ grade: 'good' })),
      1,
      {
        within: 0.01,
        because: 'a slip has seven answers to choose from in place of five',
      },
    )
    const [filling, soft, sound] = [
      await doseAfter({ grade: 'filling' }),
      await doseAfter({ ground: 'soft', marks: 'filling' }),
      await doseAfter({ ground: 'sound', marks: 'filling' }),
    ]
    expect(soft).toBeGreaterThan(filling)
    expect(sound).toBeLessThan(filling)
  })

  test('a counter that shows ten times as much is taken as it is, and said to be odd', async () => {
    const ask = [{ medium: 'drawing ink', ...HOUSE, day: 9 }]
    const ten = (each: Piece): Piece => ({
      ...each,
      ...(typeof each['doseLu'] === 'number' ? { doseLu: 10 * each['doseLu'] } : {}),
      ...(each['kind'] === 'strip'
        ? { bands: (each['bands'] as { doseLu: number }[]).map((band) => ten(band)) }
        : {}),
    })
    const withoutWedges = WEEKS.filter(({ kind }) => kind !== 'wedge')
    for (const evidence of [WEEKS, withoutWedges]) {
      const usual = await calibrated({ evidence, ask })
      const odd = await calibrated({ evidence: evidence.map(ten), ask })
      expect(usual.warnings).toEqual([])
      expect(odd.warnings).toEqual([expect.stringContaining("The doses under 'lamp' lie about")])
      const ratio = odd.answers[0].dose.value / usual.answers[0].dose.value
      near(Math.log10(ratio), 1, { within: 0.06, because: 'the usual scale is known beforehand' })
      expect(odd.answers[0].chanceGood).toBeGreaterThan(0.6)
    }
  })

  test('a name that nobody knows is broad, and its films narrow it', async () => {
    const own = { medium: 'coffee and soot' }
    const { media, warnings } = await calibrated({ ask: [own] })
    // An even mixture of the ten media's curves: 1.22 and 0.45, by hand.
    near(media[0].density.value, 1.216, { within: 1e-9, because: 'the mean of ten means' })
    expect(media[0].density.high - media[0].density.low).toBeGreaterThan(1.4)
    expect(warnings).toHaveLength(1)
    const told = await calibrated({ evidence: [strip(1, own), strip(2, own)], ask: [own] })
    expect(told.media[0].density.high - told.media[0].density.low).toBeLessThan(0.8)
  })

  test('a lamp that suddenly gives half the light is told of, since its day, with what to do', async () => {
    const before = [1, 8, 15, 22, 29].flatMap((day) => [wedge(day, 6), wedge(day, 6)])
    const after = [36, 36, 43].map((day) => wedge(day, 4))
    const { drift } = await calibrated({ evidence: [...before, ...after] })
    // Two steps of 0.15: a factor of 2.
    expect(drift).toMatchObject([{ day: 36, steps: expect.any(Number) }])
    near(drift[0].steps, 2, { within: 0.6, because: 'three wedges, each read to half a step' })
    expect(drift[0].reason).toMatch(/more light.*Since day 36 the ground needs \d+, not \d+/)
    expect(drift[0].test).not.toBe('')
    expect((await calibrated({ evidence: before })).drift).toEqual([])
    const dated = after.map((each, at) => ({ ...each, day: `2026-04-0${at + 1}` }))
    const year = [5, 12, 19, 26].flatMap((date) => {
      const day = `2026-03-${String(date).padStart(2, '0')}`
      return [wedge(0, 6, { day }), wedge(0, 6, { day })]
    })
    const named = await calibrated({ evidence: [...year, ...dated] })
    expect(named.drift[0].day).toBe('2026-04-01')
    expect(named.drift[0].reason).toContain('1 April')
  })

  test('before enough was read a jump is told as such', async () => {
    const { drift } = await calibrated({
      evidence: [wedge(1, 6), wedge(2, 6), wedge(9, 2), wedge(9, 2)],
    })
    expect(drift).toMatchObject([{ day: 9, kind: 'jump' }])
    expect(drift[0].reason).toMatch(/suddenly wanted about [2-4]\.\d times the light/)
  })

  test('a year long past or to come breaks nothing', async () => {
    const ask = [{ medium: 'soft pencil', day: '2026-03-20' }]
    const evidence = [wedge(0, 5, { day: '2026-03-02' }), screen(0, { day: '2190-03-02' })]
    const { holdDoseLu, warnings, answers } = await calibrated({ evidence, ask })
    expect(answers[0].chanceGood).toBeGreaterThan(0)
    expect(warnings[0]).toContain('check the year')
    expect((await run(['calibrate', file])).err).toContain('check the year')
    // what was known wanders until then, but a mistyped year does not wipe it out
    const soon = [wedge(0, 5, { day: '2026-03-02' }), screen(0, { day: '2026-03-03' })]
    const { holdDoseLu: soonLu } = await calibrated({ evidence: soon, ask })
    const wide = holdDoseLu.high / holdDoseLu.value
    expect(wide).toBeGreaterThan(1.2 * (soonLu.high / soonLu.value))
    expect(wide).toBeLessThan(10 ** (1.645 * Math.hypot(0.15, Math.sqrt(0.05), 0.12)))
    const far = [wedge(-4_000_000, 5), wedge(4_000_000, 5)]
    expect(
      (await calibrated({ evidence: far, ask: [{ medium: 'soft pencil' }] })).answers[0].dose.value,
    ).toBeGreaterThan(0)
  })
})

describe('what is refused', () => {
  test('the place is named, inside a list too; the exit code is 2', async () => {
    const bad = { evidence: [wedge(1, 5), wedge(1, 22)] }
    expect(await refusal(bad)).toMatchObject({
      exit: 2,
      kind: 'wrong input',
      field: 'evidence[1].lastSolidStep',
    })
    expect(await refusal([{}, bad])).toMatchObject({
      exit: 2,
      field: '[1].evidence[1].lastSolidStep',
    })
  })

  test('a text of one long word is wrong input, however long', async () => {
    const long = join(folder, 'long.json')
    await writeFile(long, `{"${'x'.repeat(12_000_000)}": 1}`)
    expect(await refused(['calibrate', long])).toMatchObject({ exit: 2, kind: 'wrong input' })
  })

  test('no file, no JSON', async () => {
    expect(await refused(['calibrate'])).toMatchObject({ exit: 2, field: 'READINGS' })
    expect(await refused(['calibrate', join(folder, 'none.json')])).toMatchObject({
      exit: 2,
      kind: 'missing file',
      message: expect.stringContaining('There is no file of readings'),
    })
    await writeFile(file, '{"evidence":')
    expect(await refused(['calibrate', file])).toMatchObject({ exit: 2, kind: 'unreadable file' })
  })
})

test('for people a list is told one problem after another', async () => {
  await writeFile(file, JSON.stringify([{ ask: [{ medium: 'soft pencil' }] }, {}]))
  const { out } = await run(['calibrate', file])
  expect(out).toMatch(/^Problem 1\nwashes clean below {2}6 lu/)
  expect(out).toContain('\n1. soft pencil: ')
  expect(out).toContain('\n\nProblem 2\n')
})

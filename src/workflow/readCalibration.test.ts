import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { GRADES } from '../core/calibration/belief/grades.ts'
import { Failure } from '../core/failure.ts'
import { calibrationsFromJson } from './readCalibration.ts'
import { untilFrom } from './readCalibrationDays.ts'

const WEDGE = { kind: 'wedge', doseLu: 57, lastSolidStep: 5, firstClearStep: 8, day: 3 }
const STRIP = {
  kind: 'strip',
  medium: 'Soft pencil',
  bands: [
    { doseLu: 21, grade: 'soft' },
    { doseLu: 34, ground: 'sound', marks: 'filling' },
  ],
  day: 4,
}
const OUTCOME = { kind: 'outcome', medium: 'drawing ink', doseLu: 61, grade: 'good', day: 5 }

const read = (value: unknown) => calibrationsFromJson(JSON.stringify(value))

function refusal(value: unknown): Readonly<{ message: string; field: string | undefined }> {
  try {
    read(value)
  } catch (error) {
    if (error instanceof Failure) return { message: error.message, field: error.field }
    throw error
  }
  throw new Error('it was taken')
}

describe('what is taken', () => {
  test('nothing at all is a problem, and a list of problems stays a list', () => {
    expect(read({})).toEqual({
      isList: false,
      problems: [{ evidence: [], ask: [], usualBaseDensity: 0, days: null, warnings: [] }],
    })
    expect(read([])).toEqual({ isList: true, problems: [] })
    expect(read([{}, {}]).problems).toHaveLength(2)
  })

  test('every key lands where it belongs', () => {
    const place = {
      lampHours: 412.5,
      unit: 'big lamp',
      emulsion: 'A 7',
      fabric: '77-55',
      dyed: true,
      recipe: 'two and one',
      screen: 14,
      film: ' reeds ',
      baseDensity: 0.35,
    }
    const { problems } = read({
      wedge: { firstDensity: 0.04, increment: 0.1, steps: 31 },
      usualBaseDensity: 0.15,
      evidence: [{ ...WEDGE, ...place }, { ...STRIP, struckOut: true }, OUTCOME],
      ask: [{ medium: ['drawing ink', 'laser toner'], ...place, day: 6 }],
    })
    const [{ evidence, ask, usualBaseDensity }] = problems
    expect(usualBaseDensity).toBe(0.15)
    const kept = { ...place, screen: '14', film: 'reeds' }
    expect(evidence[0]).toEqual({
      ...WEDGE,
      ...kept,
      wedge: { firstDensity: 0.04, increment: 0.1, steps: 31 },
    })
    expect(evidence[1]).toMatchObject({
      kind: 'strip',
      struckOut: true,
      marks: { medium: 'Soft pencil' },
      bands: STRIP.bands,
      day: 4,
    })
    expect(evidence[2]).toMatchObject({
      marks: { medium: 'drawing ink' },
      doseLu: 61,
      grade: 'good',
    })
    expect(ask).toEqual([
      { ...kept, day: 6, marks: [{ medium: 'drawing ink' }, { medium: 'laser toner' }] },
    ])
  })

  test('two ticks stand for a grade, on a screen too, and washed off needs but one', () => {
    const screen = { kind: 'outcome', medium: 'drawing ink', doseLu: 61 }
    const { problems } = read({
      evidence: [
        { ...screen, ground: 'soft', marks: 'filled' },
        { ...screen, ground: 'washed off' },
      ],
    })
    expect(problems[0].evidence).toMatchObject([
      { ticks: { ground: 'soft', marks: 'filled' } },
      { ticks: { ground: 'washed off' } },
    ])
  })

  test('a date is a day number, a part of a day none, and null is nothing', () => {
    const dated = read({ evidence: [{ ...WEDGE, day: '1970-01-11' }] }).problems[0]
    expect([dated.evidence[0].day, dated.days]).toEqual([10, 'date'])
    const late = read({ evidence: [{ ...WEDGE, day: 10.9, firstClearStep: null, unit: null }] })
    const [wedge] = late.problems[0].evidence
    expect(wedge).toMatchObject({ day: 10 })
    expect(wedge).not.toHaveProperty('firstClearStep')
    expect(late.problems[0].days).toBe('number')
  })

  test('the usual wedge is the one that nobody describes, and a part of one is filled up', () => {
    const wedgeOf = (top: object): unknown =>
      (read({ ...top, evidence: [WEDGE] }).problems[0].evidence[0] as { wedge: unknown }).wedge
    expect(wedgeOf({})).toEqual({ steps: 21, firstDensity: 0.05, increment: 0.15 })
    expect(wedgeOf({ wedge: { increment: 0.1 } })).toEqual({
      steps: 21,
      firstDensity: 0.05,
      increment: 0.1,
    })
  })
})

describe('what is refused names its place in one sentence', () => {
  const wedge = (more: object) => ({ evidence: [OUTCOME, { ...WEDGE, ...more }] })
  test.each([
    [wedge({ lastSolidStep: 22 }), 'evidence[1].lastSolidStep', 'from 0 to 21'],
    [
      wedge({ lastSolidStep: 6.5 }),
      'evidence[1].lastSolidStep',
      'must be a whole number from 0 to 21, like 6; the file says 6.5',
    ],
    [
      wedge({ lastSolidStep: undefined }),
      'evidence[1].lastSolidStep',
      'is missing: it must be a whole number',
    ],
    [
      wedge({ firstClearStep: 5 }),
      'evidence[1].firstClearStep',
      'must be a later step than the last solid one, 5',
    ],
    [wedge({ firstClearStep: 4 }), 'evidence[1].firstClearStep', 'step 1 is the clearest'],
    [wedge({ firstClearStep: 23 }), 'evidence[1].firstClearStep', 'from 1 to 22'],
    [wedge({ doseLu: 0 }), 'evidence[1].doseLu', 'from 0.01 to 1000000 lu'],
    [wedge({ doseLu: '57' }), 'evidence[1].doseLu', 'the file says "57"'],
    [wedge({ doseLu: null }), 'evidence[1].doseLu', 'must be a number'],
    [wedge({ lampHours: -1 }), 'evidence[1].lampHours', 'from 0 to'],
    [wedge({ day: '2026-02-30' }), 'evidence[1].day', 'must be a date like "2026-03-02"'],
    [wedge({ day: '3 March' }), 'evidence[1].day', 'the file says "3 March"'],
    [wedge({ day: 1e9 }), 'evidence[1].day', 'day number'],
    [wedge({ day: '2026-03-02' }), 'evidence[1].day', 'evidence[0].day is a day number'],
    [wedge({ unit: '' }), 'evidence[1].unit', 'must be a name'],
    [wedge({ unit: 4.5 }), 'evidence[1].unit', 'must be a name'],
    [wedge({ fabric: 'x'.repeat(201) }), 'evidence[1].fabric', '200 letters'],
    [wedge({ dyed: 'yes' }), 'evidence[1].dyed', 'must be true or false'],
    [wedge({ medium: 'soft pencil' }), 'evidence[1].medium', 'has no key evidence[1].medium'],
    [wedge({ lastsolidstep: 5 }), 'evidence[1].lastsolidstep', 'Did you mean lastSolidStep?'],
    [wedge({ kind: 'wedges' }), 'evidence[1].kind', '"wedge" or "strip" or "outcome"'],
    [{ evidence: [{ ...STRIP, bands: [] }] }, 'evidence[0].bands', '1 to 60'],
    [{ evidence: [{ ...STRIP, bands: {} }] }, 'evidence[0].bands', 'must be a list'],
    [
      { evidence: [{ ...STRIP, bands: [{ doseLu: 3 }] }] },
      'evidence[0].bands[0].grade',
      'is missing',
    ],
    [
      { evidence: [{ ...STRIP, bands: [{ doseLu: 3, grade: 'ok' }] }] },
      'evidence[0].bands[0].grade',
      '"good"',
    ],
    [
      { evidence: [{ ...STRIP, bands: [{ doseLu: 3, ground: 'soft' }] }] },
      'evidence[0].bands[0].marks',
      'is missing',
    ],
    [
      { evidence: [{ ...STRIP, bands: [{ doseLu: 3, marks: 'open' }] }] },
      'evidence[0].bands[0].ground',
      'is missing',
    ],
    [
      { evidence: [{ ...OUTCOME, ground: 'soft', marks: 'open' }] },
      'evidence[0].grade',
      'beside the two ticks',
    ],
    [{ evidence: [{ ...OUTCOME, medium: undefined }] }, 'evidence[0].medium', 'is missing'],
    [{ evidence: [7] }, 'evidence[0]', 'must be an object'],
    [{ evidence: 'none' }, 'evidence', 'must be a list'],
    [{ evidences: [] }, 'evidences', 'Did you mean evidence?'],
    [{ ask: [{}] }, 'ask[0].medium', 'is missing'],
    [{ ask: [{ medium: [] }] }, 'ask[0].medium', '1 to 10 names'],
    [{ ask: [{ medium: 'ink', doseLu: 4 }] }, 'ask[0].doseLu', 'has no key'],
    [{ wedge: { steps: 1 } }, 'wedge.steps', 'from 2 to 61'],
    [{ wedge: { increments: 0.1 } }, 'wedge.increments', 'Did you mean increment?'],
    [[{}, wedge({ lastSolidStep: 30 })], '[1].evidence[1].lastSolidStep', 'from 0 to 21'],
    [[{}, [{}]], '[1]', 'must be an object'],
    [7, undefined, 'must be an object'],
  ] as const)('%j', (value, field, words) => {
    const { message, field: found } = refusal(value)
    expect(found).toBe(field)
    expect(message).toContain(words)
    expect(message).not.toContain('\n')
  })

  test('too much of anything', () => {
    const many = (length: number, of: unknown): unknown[] => Array.from({ length }, () => of)
    expect(refusal({ evidence: many(20_001, {}) }).message).toContain(
      '0 to 20000; the file has 20001',
    )
    expect(refusal(many(10_001, {})).message).toContain('more than 10000')
    expect(() => calibrationsFromJson(' '.repeat(64_000_001))).toThrow('longer than 64 megabytes')
    expect(() => calibrationsFromJson('{"evidence":[,]}')).toThrow('line 1, column 14')
  })

  test('more names than a belief can hold together, unless they are of screens that are forgotten', () => {
    const screens = (more: object, key: string): object => {
      const twice = Array.from({ length: 1002 }, (_, at) => {
        return { kind: 'wedge', doseLu: 57, lastSolidStep: 5, [key]: `n${at >> 1}`, ...more }
      })
      return { evidence: twice }
    }
    expect(refusal(screens({}, 'screen'))).toMatchObject({
      field: 'evidence',
      message: expect.stringContaining('evidence names 501 units, buckets'),
    })
    expect(refusal([screens({ day: 3 }, 'emulsion')]).field).toBe('[0].evidence')
    expect(read(screens({ day: 3 }, 'screen')).problems).toHaveLength(1)
  })

  test('the last day that counts is written as the days of the file are', () => {
    expect(untilFrom('2026-03-02', 'date')).toBe(20_514)
    expect(untilFrom('12', 'number')).toBe(12)
    expect(untilFrom('-3', null)).toBe(-3)
    expect(() => untilFrom('12', 'date')).toThrow('The days in the file are dates')
    expect(() => untilFrom('2026-02-30', 'date')).toThrow('must be a date like')
  })
})

describe('what is odd is taken with a warning', () => {
  const warnings = (value: object): readonly string[] => read(value).problems[0].warnings

  test('a year that nobody lives in', () => {
    const far = {
      evidence: [
        { ...WEDGE, day: '2026-03-02' },
        { ...OUTCOME, day: '2190-03-02' },
      ],
    }
    expect(warnings(far)).toEqual([
      'evidence[1].day is 2190-03-02, 164 years after evidence[0]: check the year, for whatever was known before is in doubt by then.',
    ])
    const alone = { ...WEDGE, day: '2190-03-02' }
    expect(warnings({ evidence: [alone] })).toEqual([
      'evidence[0].day is 2190-03-02: check the year.',
    ])
    expect(
      warnings({ evidence: [WEDGE], ask: [{ medium: 'drawing ink', day: 4000 }] }),
    ).toHaveLength(1)
    expect(warnings({ evidence: [WEDGE, { ...WEDGE, day: 3600 }] })).toEqual([])
  })

  test('a medium without a table entry, once, with the nearest that has one', () => {
    const odd = { ...OUTCOME, medium: 'soft pensil' }
    expect(warnings({ evidence: [odd, { ...odd, medium: 'Soft  Pensil' }, OUTCOME] })).toEqual([
      "evidence[0].medium is 'soft pensil', of which nothing is known beforehand: its first doses are broad guesses. Did you mean soft pencil?",
    ])
    expect(warnings({ ask: [{ medium: 'coffee' }] })[0]).toMatch(/broad guesses\.$/)
    expect(warnings({ ask: [{ medium: ' DRAWING ink ' }] })).toEqual([])
  })

  test('a strip at odds with itself, unless it is struck out', () => {
    const bands = [
      { doseLu: 20, grade: 'filled' },
      { doseLu: 40, grade: 'good' },
    ]
    expect(warnings({ evidence: [{ ...STRIP, bands }] })[0]).toContain(
      'evidence[0]: The band of 20 lu',
    )
    expect(warnings({ evidence: [{ ...STRIP, bands, struckOut: true }] })).toEqual([])
  })
})

test('invariant: whatever JSON comes, it is read or refused in one sentence', () => {
  const word = fc.constantFrom('wedge', 'strip', 'soft pencil', '2026-03-02', ...GRADES)
  const leaf = fc.oneof(
    fc.double(),
    fc.integer({ min: -2, max: 30 }),
    word,
    fc.boolean(),
    fc.constant(null),
  )
  const piece = fc.dictionary(
    fc.constantFrom(
      'kind',
      'medium',
      'doseLu',
      'day',
      'grade',
      'lastSolidStep',
      'bands',
      'unit',
      'x',
    ),
    fc.oneof(leaf, fc.array(fc.dictionary(fc.constantFrom('doseLu', 'grade'), leaf))),
  )
  const problem = fc.oneof(leaf, fc.record({ evidence: fc.array(piece), ask: fc.array(piece) }))
  fc.assert(
    fc.property(fc.oneof(problem, fc.array(problem)), (value) => {
      try {
        expect(read(value).problems).toBeInstanceOf(Array)
      } catch (error) {
        expect(error).toBeInstanceOf(Failure)
        expect((error as Failure).message).toMatch(/^[^\n]+[.?]$/)
      }
    }),
    { seed: 19, numRuns: 300 },
  )
})

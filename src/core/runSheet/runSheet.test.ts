import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { knocks, litVerdict, setVerdict } from './checks.ts'
import { MISTAKES, type Mistake } from './mistakes.ts'
import { KEPT_STEPS, listProblem, stepsOf } from './ownList.ts'
import { type RunEvent, runState, secondsLeft } from './progress.ts'
import { type RunFacts, STEP_NAMES, type StepName } from './step.ts'

const FACTS: RunFacts = {
  subject: 'soft pencil',
  screen: '14',
  countsIn: 'light units',
  dose: { value: 42.3, low: 36.4, high: 47.2 },
  litSec: { low: 81, high: 94 },
  wedgeSteps: 21,
}
const STEPS = stepsOf(FACTS)
const at = (name: string) => STEPS.find((step) => step.name === name)

let count = 0
const event = (
  kind: RunEvent['kind'],
  step: string,
  atMs: number,
  more: Partial<RunEvent> = {},
) => ({
  key: `key-${++count}`,
  kind,
  step,
  cause: null,
  value: null,
  second: null,
  atMs,
  ...more,
})

describe('the usual steps', () => {
  test('stand in their order, each with two lines at most and at most three causes', () => {
    expect(STEPS.map(({ name }) => name)).toEqual([...STEP_NAMES])
    for (const { name, lines, causes, title, done } of STEPS) {
      expect([name, lines.length <= 2, causes.length <= 3 && causes.length > 0]).toEqual([
        name,
        true,
        true,
      ])
      expect([name, lines.filter((line) => line.length > 64), title.length <= 24]).toEqual([
        name,
        [],
        true,
      ])
      expect([name, done.length <= 30]).toEqual([name, true])
    }
  })

  test('every cause leads to a step that there is, on, or to the end', () => {
    for (const { causes } of STEPS) {
      for (const { to } of causes) expect(['next', 'end', ...STEP_NAMES]).toContain(to)
    }
  })

  test('each of the ten mistakes is caught while it costs nothing', () => {
    expect(MISTAKES).toHaveLength(10)
    const lamp = STEPS.findIndex(({ name }) => name === 'lamp')
    const afterTheLamp = new Set(['rushed washout', 'left wet'])
    for (const mistake of MISTAKES) {
      const caught = STEPS.findIndex(({ catches }) => catches.includes(mistake))
      expect([mistake, caught >= 0]).toEqual([mistake, true])
      // before the lamp is lit all can be mended; after it only what water and air do
      expect([mistake, caught < lamp]).toEqual([mistake, !afterTheLamp.has(mistake)])
    }
    const wash = STEPS.findIndex(({ name }) => name === 'wash')
    expect(STEPS.findIndex(({ catches }) => catches.includes('rushed washout'))).toBeLessThan(wash)
  })

  /** Each mistake of `mistakes.ts`: the step, and the words that catch it there. */
  const CATCHES: readonly (readonly [Mistake, StepName, RegExp])[] = [
    ['not dry', 'screen', /dry to the back of a finger/],
    ['not dry', 'screen', /Not before 14:10: the coat is still drying/],
    ['thin or wrong-sided coat', 'screen', /even, heavier on the print side; no pinholes/],
    ['thin or wrong-sided coat', 'screen', /It is thin, or heavier inside.*Coat it again/],
    ['dust under the film', 'glass', /No hair, no dust, no tape/],
    ['dust under the film', 'glass', /2 marks in this glass: lay the film beside/],
    ['film flipped', 'film', /letters read right. The image side is up/],
    ['film flipped', 'film', /It reads mirrored.*Turn it over/],
    ['weak marks', 'film', /Held to the light, all of the soft pencil is dark/],
    ['weak marks', 'film', /The forecast rings 3 passages: hold them to the light/],
    ['film moved, near the frame, wrong fabric', 'lay', /keeps a hand’s width from the frame/],
    ['film moved, near the frame, wrong fabric', 'lay', /plan 152 mm from the left, 98 mm from/],
    ['film moved, near the frame, wrong fabric', 'screen', /ticket says screen 8, not this one/],
    ['film moved, near the frame, wrong fabric', 'screen', /Its tag says 14/],
    ['no vacuum', 'vacuum', /No lamp before the gauge stands at about 27/],
    ['wrong dose', 'set', /Set 42 light units.*36 to 47 should work.*what does it say/],
    ['wrong dose', 'read', /Read the counter before anybody resets it/],
    ['rushed washout', 'wet', /let it soak/],
    ['rushed washout', 'wash', /Soft spray, an arm’s length away/],
    ['rushed washout', 'look', /Every mark is open, without a veil/],
    ['left wet', 'dry', /What is left wet runs, and dries as a veil/],
  ]

  test('each mistake has its words at its step, from what the shop knows too', () => {
    const known = {
      dryAt: '14:10',
      goodUntil: '12 October',
      ticketScreen: '8',
      glassMarks: 2,
      weakMarks: 3,
      place: { leftMm: 151.8, topMm: 98.2 },
    }
    const steps = stepsOf({ ...FACTS, gauge: 27, known })
    for (const [mistake, name, words] of CATCHES) {
      const step = steps.find((each) => each.name === name)
      const causes = step?.causes.map(({ says, act }) => `${says} ${act}`) ?? []
      const said = [step?.title, ...(step?.lines ?? []), ...(step?.known ?? []), ...causes].join(
        ' ',
      )
      expect([mistake, said]).toEqual([mistake, expect.stringMatching(words)])
      expect(step?.catches).toContain(mistake)
    }
    expect(new Set(CATCHES.map(([mistake]) => mistake))).toEqual(new Set(MISTAKES))
    for (const { name, known: sentences = [] } of steps) {
      expect([name, sentences.filter((each) => each.length > 70)]).toEqual([name, []])
    }
    expect(STEPS.flatMap((step) => step.known ?? [])).toEqual([])
  })

  test('what can hurt is said at its own step', () => {
    const cautions: Readonly<Partial<Record<StepName, RegExp>>> = {
      lid: /heavy/,
      lamp: /UV.*lid closed; leave that switch alone/,
      wet: /hot.*water away from sockets.*safety data sheet/,
      wash: /pressure washer.*manual first/,
      cool: /hot.*manual/,
    }
    for (const [name, says] of Object.entries(cautions)) expect(at(name)?.caution).toMatch(says)
  })

  test('the dose, its range and the lamp’s seconds stand where they are needed', () => {
    expect(at('set')).toMatchObject({ title: 'Set 42 light units', asks: { start: 42 } })
    expect(at('set')?.lines[0]).toBe('36 to 47 should work.')
    expect(at('lamp')?.lines[0]).toBe('It should be lit for 81 to 94 seconds, by how warm it is.')
    expect(at('lamp')?.clock?.sec).toBe(94)
    const untimed = stepsOf({ ...FACTS, litSec: null }).find(({ name }) => name === 'lamp')
    expect(untimed?.clock?.sec).toBeNull()
  })
})

describe('where an exposure is', () => {
  test('a count that was set, the lamp’s seconds and the wedge are told on the way', () => {
    const events = [
      event('done', 'vacuum', 1000),
      event('done', 'set', 2000, { value: 43 }),
      event('clock', 'lamp', 10_000),
      event('done', 'lamp', 97_000),
      event('done', 'read', 99_000, { value: 44 }),
      event('done', 'look', 300_000),
      event('done', 'wedge', 310_000, { value: 7, second: 10 }),
    ]
    expect(runState(STEPS, events)).toMatchObject({
      step: { name: 'dry' },
      setCount: 43,
      readCount: 44,
      litSec: 87,
      wedge: { lastSolidStep: 7, firstClearStep: 10 },
      grade: 'good',
    })
  })

  test('what is not right leads back and winds the clocks up anew, or stops', () => {
    const run = [event('done', 'lid', 1000), event('clock', 'vacuum', 2000)]
    const vacuum = at('vacuum')
    if (vacuum === undefined) throw new Error('no vacuum')
    const running = runState(STEPS, run)
    expect(secondsLeft(vacuum, { state: running, nowMs: 42_000 })).toBe(20)
    const back = runState(STEPS, [...run, event('not right', 'vacuum', 50_000, { cause: 'low' })])
    expect(back.step?.name).toBe('lay')
    expect(secondsLeft(vacuum, { state: back, nowMs: 51_000 })).toBeNull()
    const ended = runState(STEPS, [...run, event('not right', 'vacuum', 50_000, { cause: 'pump' })])
    expect(ended.stopped).toEqual({ step: 'vacuum', cause: 'pump' })
  })

  test('a screen that failed says how, and goes on to its wedge', () => {
    const failed = runState(STEPS, [event('not right', 'look', 1000, { cause: 'gone' })])
    expect(failed).toMatchObject({ grade: 'washed off', step: { name: 'wedge' } })
  })

  test('the lamp cools from the moment it went out, whatever is done meanwhile', () => {
    const cool = at('cool')
    const state = runState(STEPS, [event('done', 'lamp', 5000), event('done', 'dry', 400_000)])
    if (cool === undefined) throw new Error('no cooling')
    expect(secondsLeft(cool, { state, nowMs: 405_000 })).toBe(200)
  })

  test('invariant: told twice, late or in another order, it is the same exposure', () => {
    const told = fc.array(
      fc.record({
        kind: fc.constantFrom('done' as const, 'clock' as const, 'back' as const),
        step: fc.constantFrom(...STEP_NAMES),
      }),
      { maxLength: 20 },
    )
    fc.assert(
      fc.property(told, fc.func(fc.nat()), (all, order) => {
        const events = all.map(({ kind, step }, index) => event(kind, step, index * 1000))
        const mixed = [...events, ...events].toSorted((a, b) => order(a.key) - order(b.key))
        expect(runState(STEPS, mixed)).toEqual(runState(STEPS, events))
      }),
    )
  })
})

describe('a shop’s own list', () => {
  const usual = STEP_NAMES.map((name) => ({ name: name as string }))

  test('may have its own seconds, words and steps', () => {
    const list = [
      ...usual.slice(0, 9),
      { name: 'own-1', title: 'Ring the bell' },
      ...usual
        .slice(9)
        .map((entry) => (entry.name === 'wash' ? { ...entry, clockSec: 75 } : entry)),
    ]
    expect(listProblem(list)).toBeNull()
    const steps = stepsOf(FACTS, { list })
    expect(steps[9]).toMatchObject({ title: 'Ring the bell', done: 'Done' })
    expect(steps.find(({ name }) => name === 'wash')?.clock?.sec).toBe(75)
  })

  test('keeps what can hurt and what an exposure hangs on', () => {
    for (const name of KEPT_STEPS) {
      expect(listProblem(usual.filter((entry) => entry.name !== name))).toContain(
        `step ${name} has to stay`,
      )
    }
    const cautious = STEPS.filter(({ caution }) => caution !== null).map(({ name }) => name)
    expect(cautious.filter((name) => !(KEPT_STEPS as readonly string[]).includes(name))).toEqual([])
    expect(listProblem([...usual, { name: 'own-2' }])).toContain('needs a title')
    expect(listProblem([...usual, ...usual])).toContain('twice')
    expect(listProblem(usual.toReversed())).toContain('their order')
  })
})

describe('checks', () => {
  test('a count far from the plan is off, one within its range should work', () => {
    const asks = { what: 'set', start: 42, low: 36.4, high: 47.2, unit: 'light units' } as const
    expect([42, 37, 47.2, 36, 84, Number.NaN].map((set) => setVerdict(set, asks))).toEqual([
      'as planned',
      'should work',
      'should work',
      'off',
      'off',
      'off',
    ])
  })

  test('a lamp that was lit for half the time was set to something else', () => {
    const reckonedSec = { low: 80, high: 90 }
    const verdicts = [40, 78, 100, 150].map((litSec) => litVerdict(litSec, { reckonedSec }))
    expect(verdicts).toEqual(['too short', 'as reckoned', 'as reckoned', 'too long'])
    expect(litVerdict(40, { reckonedSec: null })).toBeNull()
  })

  test('a clock knocks once at 10 s, thrice at zero, and again for two minutes', () => {
    const heard: Record<number, number> = {}
    for (let sec = 30; sec > -200; sec--) {
      const due = knocks({ fromSec: sec + 1, toSec: sec })
      if (due > 0) heard[sec] = due
    }
    expect(heard).toEqual({
      10: 1,
      0: 3,
      [-20]: 3,
      [-40]: 3,
      [-60]: 3,
      [-80]: 3,
      [-100]: 3,
      [-120]: 3,
    })
    expect(knocks({ fromSec: 40, toSec: -300 })).toBe(3)
  })
})

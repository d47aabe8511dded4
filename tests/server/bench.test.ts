import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Run, type RunEventTold, run, runList, stepList } from '../../src/api/bench.ts'
import { type LightAnswer, lightAnswer } from '../../src/api/light.ts'
import { PATHS, runEventsPath, runPath } from '../../src/api/paths.ts'
import { choices } from '../../src/api/shop.ts'
import { readingList } from '../../src/api/tests.ts'
import { STEP_NAMES } from '../../src/core/runSheet/step.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { type Room, room } from './room.ts'

let shop: Room
const post = (path: string, body: unknown): Promise<Response> =>
  shop.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const begin = async (body: object): Promise<Run> => {
  const answer = await post(PATHS.runs, body)
  if (answer.status !== 201) throw new Error(await answer.text())
  return run.parse(await answer.json())
}
const state = async (id: string): Promise<Run> =>
  run.parse(await (await shop.ask(runPath(id))).json())
const readings = async () =>
  readingList.parse(await (await shop.ask(PATHS.readings)).json()).readings

let count = 0
/** So many seconds before it is sent. */
const event = (
  kind: RunEventTold['kind'],
  step: string,
  secondsAgo: number,
  more: Partial<RunEventTold> = {},
): RunEventTold => ({
  key: `event-${++count}-of-test`,
  kind,
  step,
  cause: null,
  value: null,
  second: null,
  at: new Date(SENT.getTime() - secondsAgo * 1e3).toISOString(),
  ...more,
})
/** A device whose clock is wrong by years. */
const SENT = new Date('2031-03-04T05:06:07Z')
const tell = async (id: string, events: readonly RunEventTold[]): Promise<Run> => {
  const answer = await post(runEventsPath(id), { sentAt: SENT.toISOString(), events })
  if (answer.status !== 200) throw new Error(await answer.text())
  return run.parse(await answer.json())
}

beforeAll(async () => {
  shop = await room()
  expect((await post(PATHS.demoShop, {})).status).toBe(201)
})
afterAll(() => shop.close())

test('an exposure is begun from what Light answers; begun twice under one key it is one', async () => {
  const light: LightAnswer = lightAnswer.parse(await (await shop.ask(PATHS.light)).json())
  const begun = await begin({ key: 'begun-from-light' })
  expect(begun.about).toMatchObject({
    subject: light.asked.subject.name,
    unit: light.asked.unit.name,
    dose: { value: light.dose.value, low: light.dose.low, high: light.dose.high },
  })
  expect(begun).toMatchObject({ demo: true, events: [], endedAt: null })
  expect(begun.steps.map(({ name }) => name)).toEqual([...STEP_NAMES])
  expect((await begin({ key: 'begun-from-light' })).id).toBe(begun.id)
  const open = runList.parse(await (await shop.ask(PATHS.runs)).json())
  expect(open.runs).toMatchObject([{ id: begun.id, step: 'Take the screen' }])
})

test('steps told late, twice and by a clock that is years off stand once, at their own moments', async () => {
  const { id } = await begin({ key: 'told-late-and-twice', from: 'cold' })
  const started = Date.now()
  const first = [event('done', 'screen', 0), event('clock', 'vacuum', 0)]
  await tell(id, first)
  const again = await tell(id, [...first, event('done', 'vacuum', 0)])
  expect(again.events.map(({ step, kind }) => `${step} ${kind}`)).toEqual([
    'screen done',
    'vacuum clock',
    'vacuum done',
  ])
  for (const { at } of again.events) {
    near(Date.parse(at), started, { within: 60_000, because: 'by our clock, and it has just been' })
  }
  expect(await state(id)).toMatchObject({ events: again.events })
})

test('the counts, the lit seconds and the wedge’s two numbers become the exposure’s record and readings', async () => {
  const before = await readings()
  const { id } = await begin({ key: 'walked-to-its-end', medium: 'soft pencil' })
  // It was begun before its first step: an exposure cannot have begun after that.
  await new Promise((resolve) => setTimeout(resolve, 300))
  const lit = [
    event('done', 'set', 0.29, { value: 41 }),
    event('clock', 'lamp', 0.25),
    event('done', 'lamp', 0.05),
    event('done', 'read', 0.04, { value: 40 }),
  ]
  expect((await tell(id, lit)).readings).toEqual({ wedge: false, outcome: false })
  const looked = [
    event('done', 'look', 0.02),
    event('done', 'wedge', 0.01, { value: 7, second: 10 }),
  ]
  for (let times = 0; times < 2; times++) {
    const told = await tell(id, looked)
    expect(told).toMatchObject({ readings: { wedge: true, outcome: true }, notTaken: null })
  }
  const fresh = (await readings()).slice(0, -before.length)
  expect(fresh.map(({ kind }) => kind).sort()).toEqual(['outcome', 'wedge'])
  expect(JSON.stringify(fresh)).toContain('40')
  const ended = await tell(id, [event('done', 'cool', 0)])
  expect(ended.endedAt).not.toBeNull()
  expect((await readings()).length).toBe(before.length + 2)
})

test('a wedge that cannot be is taken down as told, and becomes no reading', async () => {
  const { id } = await begin({ key: 'a-wedge-that-cannot-be' })
  const told = await tell(id, [event('done', 'wedge', 0, { value: 30, second: null })])
  expect(told.readings.wedge).toBe(false)
  expect(told.notTaken).toContain('The wedge has 21 steps')
  expect(told.events).toHaveLength(1)
})

test('what is no step, no cause or no exposure is refused in a sentence', async () => {
  const { id } = await begin({ key: 'refusals-of-all-kinds' })
  const bare = event('not right', 'glass', 0)
  const refused = await post(runEventsPath(id), { sentAt: SENT.toISOString(), events: [bare] })
  expect(refused.status).toBe(422)
  const nobody = await post(runEventsPath('nobody'), { sentAt: SENT.toISOString(), events: [] })
  expect(nobody.status).toBe(404)
  expect((await post(PATHS.runs, { key: 'no-such-lamp', unit: 'the sun' })).status).toBe(404)
  expect((await state(id)).events).toEqual([])
})

test('a shop’s own list changes the exposures begun after it', async () => {
  const usual = STEP_NAMES.map((name) => ({ name }))
  const list = usual.map((entry) => (entry.name === 'wash' ? { ...entry, clockSec: 75 } : entry))
  const kept = await post(PATHS.stepLists, { list: [...list, { name: 'own-1', title: 'Sweep' }] })
  expect(stepList.parse(await kept.json()).steps.at(-1)).toMatchObject({ title: 'Sweep' })
  const { steps } = await begin({ key: 'by-their-own-list' })
  expect(steps.find(({ name }) => name === 'wash')?.clock?.sec).toBe(75)
  const short = await post(PATHS.stepLists, { list: usual.filter(({ name }) => name !== 'lid') })
  expect(await short.json()).toMatchObject({
    error: { message: 'The step lid has to stay in the list: put it back.' },
  })
  expect((await post(PATHS.stepLists, { list: null })).status).toBe(200)
})

test('where the gauge stood in exposures before is what the next one is held to', async () => {
  const asks = ({ steps }: Run) => steps.find(({ name }) => name === 'vacuum')?.asks
  const first = await begin({ key: 'reads-the-gauge', medium: 'soft pencil' })
  expect(asks(first)).toEqual({ what: 'gauge', usual: null })
  await tell(first.id, [event('done', 'vacuum', 0, { value: 26.5 })])
  const next = await begin({ key: 'is-held-to-it', medium: 'soft pencil' })
  expect(asks(next)).toEqual({ what: 'gauge', usual: 26.5 })
})

test('a screen that was under the lamp is an exposed one', async () => {
  const { id } = await begin({ key: 'exposes-its-screen', medium: 'soft pencil', screen: '11' })
  await new Promise((resolve) => setTimeout(resolve, 60))
  await tell(id, [event('clock', 'lamp', 0.03), event('done', 'lamp', 0.02)])
  const { screens } = choices.parse(await (await shop.ask(PATHS.choices)).json())
  expect(screens.find(({ name }) => name === 'screen 11')?.not).toBe('exposed already')
})

test('the steps of an exposure come as a PDF for the same question', async () => {
  const paper = await shop.ask(`${PATHS.runSheet}?medium=soft%20pencil`)
  expect([paper.status, paper.headers.get('content-type')]).toEqual([200, 'application/pdf'])
  expect(Buffer.from(await paper.arrayBuffer()).toString('latin1', 0, 5)).toBe('%PDF-')
  expect((await shop.ask(`${PATHS.runSheet}?unit=the%20sun`)).status).toBe(404)
})

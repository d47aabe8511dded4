import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type Day, day } from '../../src/api/day.ts'
import { trouble } from '../../src/api/diagnosis.ts'
import {
  dayEndPath,
  dayEventsPath,
  PATHS,
  thingPath,
  troubleCausePath,
} from '../../src/api/paths.ts'
import { type NewThing, things } from '../../src/api/things.ts'
import { type Room, room } from './room.ts'

let shop: Room
const send = async (path: string, body: unknown, method = 'POST'): Promise<Response> =>
  shop.ask(path, {
    method,
    headers: { 'content-type': 'application/json' },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  })
const dayNow = async (): Promise<Day> => day.parse(await (await shop.ask(PATHS.day)).json())
const roomNow = async () => things.parse(await (await shop.ask(PATHS.things)).json())
const said = async (): Promise<string> =>
  (await roomNow()).groups.flatMap(({ sentences }) => sentences.map(({ says }) => says)).join('\n')

beforeAll(async () => {
  shop = await room()
  expect((await send(PATHS.demoShop, {})).status).toBe(201)
})
afterAll(() => shop.close())

describe('the day', () => {
  test('the demo class is in the middle of its afternoon, with Bea’s screen made again', async () => {
    const { plan } = await dayNow()
    expect(plan).toMatchObject({ people: 14, screens: 14, againFrom: 2 })
    const bea = plan?.tasks.filter(({ person }) => person === 'Bea') ?? []
    expect(bea.filter(({ failed }) => failed)).toHaveLength(1)
    expect(bea.filter(({ again }) => again === 1).map(({ station }) => station)).toEqual([
      'light',
      'water',
      'drying again',
    ])
    expect(plan?.withTwoMoreMin).toBeGreaterThan(plan?.finishMin ?? 0)
  })

  test('a screen that failed, told twice, is made again once', async () => {
    const { plan } = await dayNow()
    const id = plan?.id ?? ''
    const last = plan?.tasks.findLast(({ station }) => station === 'coating')
    const event = { kind: 'failed', key: 'demo-test-failed', person: last?.person, screen: 1 }
    for (let times = 0; times < 2; times++) {
      expect((await send(dayEventsPath(id), event)).status).toBe(200)
    }
    const after = (await dayNow()).plan
    const again = after?.tasks.filter(
      ({ person, again: count }) => person === last?.person && count > 0,
    )
    expect(again?.map(({ station }) => station)).toEqual(['light', 'water', 'drying again'])
  })

  test('a plan that is over is kept and not shown; a new one is planned by its people', async () => {
    const { plan, usual } = await dayNow()
    expect((await send(dayEndPath(plan?.id ?? ''), undefined)).status).toBe(200)
    expect((await dayNow()).plan).toBeNull()
    const begins = Date.now()
    const asked = {
      title: 'Two of us',
      beginsAt: new Date(begins).toISOString(),
      closesAt: new Date(begins + 4 * 3600_000).toISOString(),
      people: [
        { name: 'Ada', screens: 1, arriveMin: 0 },
        { name: 'Ben', screens: 2, arriveMin: 5 },
      ],
      stations: usual.stations,
      againFrom: usual.againFrom,
    }
    const planned = day.parse(await (await send(PATHS.day, asked)).json())
    expect(planned.plan).toMatchObject({ title: 'Two of us', people: 2, screens: 3 })
    // the demo room's own machines, as its things say
    expect(usual.stations[1]).toMatchObject({ machines: 8, minutes: 40 })
    const twice = { ...asked, people: [asked.people[0], asked.people[0]] }
    const refused = await send(PATHS.day, twice)
    expect([refused.status, await refused.text()]).toEqual([
      422,
      expect.stringContaining('Ada stands here twice'),
    ])
  })
})

describe('the room', () => {
  test('the demo room says what is there, and what wants to be looked at', async () => {
    const { groups, incidents } = await roomNow()
    expect(groups.map(({ name }) => name)).toEqual([
      'Handed over',
      'Lamps',
      'Drying and machines',
      'Emulsions',
      'Leftover inks',
      'Used up',
      'This year',
    ])
    const all = groups.flatMap(({ sentences }) => sentences.map(({ says }) => says)).join('\n')
    expect(all).toMatch(/The big lamp has burned 412 hours/)
    expect(all).toMatch(/Ready-mixed emulsion: 2.4 kg in hand, enough for 4 weeks: order by week 9/)
    expect(all).toMatch(/Autumn term: week 7 of 12, 31 people; supplies come to \d+\.\d\d each/)
    expect(incidents).toMatchObject([{ hurt: 'somebody', place: 'the big lamp' }])
  })

  test('a sentence is changed by one act, and gone by another', async () => {
    const facts = { inHand: 3, unit: 'l', perWeek: 1, weeksToCome: 4, price: null, perCoat: null }
    const thing: NewThing = { kind: 'supply', name: 'degreaser', facts }
    expect((await send(PATHS.things, thing)).status).toBe(201)
    expect(await said()).toMatch(/Degreaser: 3 l in hand, enough for 3 weeks: order it now/)
    expect((await send(PATHS.things, thing)).status).toBe(409)
    const own = (await roomNow()).groups
      .flatMap(({ sentences }) => sentences)
      .find(({ says }) => says.startsWith('Degreaser'))
    const path = thingPath(own?.thing?.id ?? '')
    await send(path, { ...thing, facts: { ...facts, inHand: 30 } })
    expect(await said()).toMatch(/Degreaser: 30 l in hand, enough for 30 weeks\./)
    expect((await send(path, undefined, 'DELETE')).status).toBe(200)
    expect(await said()).not.toMatch(/Degreaser/)
  })

  test('the label with the shop’s own hazard text is a PDF; an incident stays as it was told', async () => {
    const label = (await roomNow()).groups
      .flatMap(({ sentences }) => sentences)
      .find(({ paper }) => paper !== null)
    const answer = await shop.ask(label?.paper ?? '')
    expect(answer.headers.get('content-type')).toBe('application/pdf')
    expect(new TextDecoder().decode(await answer.arrayBuffer())).toMatch(/^%PDF-/)
    const told = { place: 'the sink', what: 'Slipped on a wet floor.', done: null, hurt: 'nearly' }
    const noted = things.parse(await (await send(PATHS.incidents, told)).json())
    expect(noted.incidents[0]).toMatchObject(told)
  })
})

describe('why screens fail', () => {
  test('the shop’s own records speak beside what is seen; what is confirmed is learned', async () => {
    const asked = `${PATHS.trouble}?yes=${encodeURIComponent('thin marks shut,slow to open')}`
    const before = trouble.parse(await (await shop.ask(asked)).json())
    expect(before.learnedFrom).toBe(0)
    expect(before.told.map(({ sign }) => sign)).toContain('damp air')
    expect(before.ranked).toHaveLength(4)
    expect(before.test).not.toBeNull()
    const seen = { yes: before.yes, no: [] }
    for (let times = 0; times < 4; times++) {
      await send(PATHS.trouble, { ...seen, cause: times === 0 ? null : 'coated too long ago' })
    }
    const open = trouble.parse(await (await shop.ask(PATHS.trouble)).json())
    expect(open.ranked).toEqual([])
    const left = open.past.find(({ cause }) => cause === null)
    await send(troubleCausePath(left?.id ?? ''), { cause: 'coated too long ago' })
    const after = trouble.parse(await (await shop.ask(asked)).json())
    expect(after.learnedFrom).toBe(4)
    const chance = ({ ranked }: typeof after): number =>
      ranked.find(({ cause }) => cause === 'coated too long ago')?.chance ?? 0
    expect(chance(after)).toBeGreaterThan(chance(before))
  })

  test('a sign that there is not is refused in a sentence', async () => {
    const refused = await shop.ask(`${PATHS.trouble}?yes=gremlins`)
    expect([refused.status, await refused.text()]).toEqual([
      422,
      expect.stringContaining('no sign called “gremlins”'),
    ])
  })
})

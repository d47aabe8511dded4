import { PDFDocument } from 'pdf-lib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type Day, day } from '../../src/api/day.ts'
import { type NewTroubleRow, trouble, troubleTable } from '../../src/api/diagnosis.ts'
import {
  dayEndPath,
  dayEventsPath,
  PATHS,
  thingPath,
  troubleCausePath,
  troubleRowPath,
} from '../../src/api/paths.ts'
import { coated, feltDry, reclaimList, register } from '../../src/api/register.ts'
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
  // an empty shop of one's own: the demo's films need not be drawn for this
  expect((await send(PATHS.ownShop, {})).status).toBe(201)
})
afterAll(() => shop.close())

describe('the day', () => {
  test('a class that began an hour ago, on the room’s own machines', async () => {
    const cabinet = { job: 'drying', machines: 3, minutes: 40 } as const
    expect(
      (await send(PATHS.things, { kind: 'station', name: 'the cabinet', facts: cabinet })).status,
    ).toBe(201)
    const { plan, usual, due } = await dayNow()
    expect([plan, due]).toEqual([null, []])
    expect(usual.stations[1]).toMatchObject({ name: 'drying', machines: 3, minutes: 40 })
    const begins = Date.now() - 60 * 60_000
    const people = ['Ada', 'Ben', 'Cy'].map((name) => ({ name, screens: 1, arriveMin: 0 }))
    const asked = {
      title: 'Three of us',
      beginsAt: new Date(begins).toISOString(),
      closesAt: new Date(begins + 4 * 3600_000).toISOString(),
      people,
      stations: usual.stations,
      againFrom: usual.againFrom,
    }
    const planned = day.parse(await (await send(PATHS.day, asked)).json())
    expect(planned.plan).toMatchObject({
      title: 'Three of us',
      people: 3,
      screens: 3,
      againFrom: 2,
    })
    const refused = await send(PATHS.day, { ...asked, people: [people[0], people[0]] })
    expect([refused.status, await refused.text()]).toEqual([
      422,
      expect.stringContaining('Ada stands here twice'),
    ])
  })

  test('a screen that failed, told twice, is made again once', async () => {
    const { plan } = await dayNow()
    const id = plan?.id ?? ''
    const event = { kind: 'failed', key: 'demo-test-failed', person: 'Ada', screen: 1 }
    for (let times = 0; times < 2; times++) {
      expect((await send(dayEventsPath(id), event)).status).toBe(200)
    }
    const after = (await dayNow()).plan
    const own = after?.tasks.filter(({ person }) => person === 'Ada') ?? []
    expect(own.filter(({ failed }) => failed)).toHaveLength(1)
    expect(own.filter(({ again }) => again > 0).map(({ station }) => station)).toEqual([
      'light',
      'water',
      'drying again',
    ])
    expect(after?.withTwoMoreMin).toBeGreaterThan(after?.finishMin ?? 0)
    expect((await send(dayEndPath(id), undefined)).status).toBe(200)
    expect((await dayNow()).plan).toBeNull()
  })
})

describe('the room', () => {
  test('an own room says what is there and leaves out what is not', async () => {
    const { groups, incidents } = await roomNow()
    expect([groups.map(({ name }) => name), incidents]).toEqual([
      ['Lamps', 'Drying and machines', 'Emulsions', 'This year'],
      [],
    ])
    const firstDay = new Intl.DateTimeFormat('sv-SE').format(Date.now() - 44 * 86_400_000)
    const term: NewThing = {
      kind: 'term',
      name: 'autumn term',
      facts: { firstDay, weeks: 12, people: 31 },
    }
    await send(PATHS.things, term)
    expect(await said()).toMatch(/Autumn term: week 7 of 12, 31 people\./)
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

  test('handover and the year’s report are papers of A4 that another reader opens', async () => {
    for (const path of [PATHS.handover, PATHS.yearReport]) {
      const answer = await shop.ask(path)
      expect(answer.headers.get('content-type')).toBe('application/pdf')
      const pages = (await PDFDocument.load(await answer.arrayBuffer())).getPages()
      expect(pages.length).toBeGreaterThan(0)
      expect(pages.map((page) => Math.round((page.getHeight() * 25.4) / 72))).toEqual(
        pages.map(() => 297),
      )
    }
  })

  test('the label with the shop’s own hazard text is a PDF; an incident stays as it was told', async () => {
    const hazard = { kind: 'hazard text', name: 'the bottle', facts: { text: 'DEMO. Gloves.' } }
    await send(PATHS.things, hazard)
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

describe('a Monday of coating', () => {
  const PUPILS = Array.from({ length: 30 }, (_, at) => `Demo Pupil ${at + 1}`)
  const TAGS = PUPILS.map((_, at) => String(at + 101))
  const get = async (path: string): Promise<unknown> => (await shop.ask(path)).json()
  const registerNow = async () => register.parse(await get(PATHS.register))

  test('thirty screens for Thursday’s class: tagged, coated and given out in one go each, with a slip each', async () => {
    const text = ['name,class', ...PUPILS.map((name) => `${name},Thursday`)].join('\n')
    await send(PATHS.classList, { text, dryRun: false })
    const { fabrics, frames } = await registerNow()
    const frame = frames[0]?.id ?? ''
    const made = await send(PATHS.screens, { tags: TAGS, fabric: fabrics[0]?.id, frame })
    expect(made.status).toBe(201)
    const { people, buckets } = await registerNow()
    const ofClass = people.filter(({ className }) => className === 'Thursday')
    const screens = TAGS.map((tag, at) => ({ tag, owner: ofClass[at]?.id ?? null }))
    const body = { key: 'demo-monday', screens, recipe: 'once on each side', until: '2031-03-06' }
    const done = coated.parse(await (await send(PATHS.coatings, body)).json())
    expect([done.coated, done.not]).toEqual([TAGS, []])
    const { screens: all, drying } = await registerNow()
    const mine = all.filter(({ tag }) => TAGS.includes(tag))
    expect(new Set(mine.map(({ owner }) => owner?.name))).toEqual(new Set(PUPILS))
    expect(new Set(mine.map(({ coat }) => coat?.bucket))).toEqual(new Set([buckets[0]?.name]))
    expect([mine.every(({ next }) => next === 'let it dry'), drying]).toEqual([true, null])
    const slips = await shop.ask(`${PATHS.screenLabels}?tags=${TAGS.join(',')}&say=coat`)
    const pages = await PDFDocument.load(await slips.arrayBuffer())
    expect(pages.getPageCount()).toBe(2) // 21 on a sheet
  })

  test('they are felt dry in one go, told twice once; the cabinet’s own time is known from then on', async () => {
    expect(await said()).toMatch(/Nobody has felt yet how long screens take to dry here/)
    const body = { key: 'demo-felt-dry', tags: [...TAGS, '999'] }
    for (let times = 0; times < 2; times++) {
      const felt = feltDry.parse(await (await send(PATHS.feltDry, body)).json())
      expect([felt.dry, felt.not.map(({ tag }) => tag)]).toEqual([TAGS, ['999']])
    }
    const { screens, drying } = await registerNow()
    const mine = screens.filter(({ tag }) => TAGS.includes(tag))
    expect(mine.every(({ next, coat }) => next === 'expose it' && coat?.isToFeel === false)).toBe(
      true,
    )
    expect(drying).toEqual({ hours: 0.5, of: 30 })
    expect(await said()).toMatch(/Screens were dry after 0 minutes: the middle of 30/)
  })

  test('reclaim day tells who of them owes what, and after the days of grace what is abandoned', async () => {
    const on = async (day: string, graceDays: number) =>
      reclaimList.parse(await get(`${PATHS.reclaim}?on=${day}&graceDays=${graceDays}`))
    const due = await on('2031-03-08', 7)
    const owes = due.owed.filter(({ owner }) => PUPILS.includes(owner ?? ''))
    expect([owes.length, owes.every(({ screens }) => screens.length === 1)]).toEqual([30, true])
    const late = await on('2031-03-20', 7)
    expect(late.abandoned.filter(({ tag }) => TAGS.includes(tag))).toHaveLength(30)
  })
})

describe('why screens fail', () => {
  test('the shop’s own records speak beside what is seen; what is confirmed is learned', async () => {
    const asked = `${PATHS.trouble}?yes=${encodeURIComponent('thin marks shut,slow to open')}`
    const before = trouble.parse(await (await shop.ask(asked)).json())
    expect(before.learnedFrom).toBe(0)
    expect(before.told).toEqual([])
    const note = { says: 'The dehumidifier is full.', humidityShare: 0.61 }
    await send(PATHS.things, { kind: 'handover', name: 'Friday', facts: note })
    const damp = trouble.parse(await (await shop.ask(asked)).json())
    expect(damp.told).toMatchObject([{ sign: 'damp air', is: 'yes' }])
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
    expect(chance(after)).toBeGreaterThan(chance(damp))
  })

  test('a lead adds a cause with its signs, says what does not happen here, and takes it back', async () => {
    const tableNow = async () =>
      troubleTable.parse(await (await shop.ask(PATHS.troubleTable)).json())
    const told = async (row: NewTroubleRow) => {
      const answer = await send(PATHS.troubleTable, row)
      expect([answer.status, await answer.clone().text()]).toEqual([200, expect.anything()])
      return troubleTable.parse(await answer.json())
    }
    const rust = { says: 'Rust in the water', now: 'Wait.', next: 'Filter it.' }
    const kind = 'cause'
    const added = await told({ kind, ...rust, share: 0.04, isUsed: true, isSeen: false })
    const own = added.causes.find(({ says }) => says === rust.says)
    expect(own).toMatchObject({ isAdded: true, links: [], confirmed: 0 })
    const cause = own?.cause ?? ''
    const sign = {
      where: 'known',
      says: 'The tap ran brown.',
      elsewhere: 0.02,
      test: null,
    } as const
    const brown = (await told({ kind: 'sign', ...sign, isSeen: false })).signs.find(
      ({ isAdded }) => isAdded,
    )
    const link = { kind: 'link', cause, sign: brown?.sign ?? '', chance: 0.9 } as const
    await told({ ...link, isSeen: true })
    await told({ ...link, sign: 'veil', isSeen: false })
    const asked = `${PATHS.trouble}?yes=${encodeURIComponent(`veil,${brown?.sign ?? ''}`)}`
    const found = trouble.parse(await (await shop.ask(asked)).json())
    expect(found.ranked[0]).toMatchObject({ cause, ...rust })
    expect(found.asks.length).toBeLessThanOrEqual(2)
    expect((await send(PATHS.trouble, { yes: ['veil'], no: [], cause })).status).toBe(201)
    const kept = (await tableNow()).causes.find((each) => each.cause === cause)
    expect(kept).toMatchObject({ confirmed: 1, links: [{ sign: 'veil' }, { isSeen: true }] })
    const refused = await send(troubleRowPath(kept?.row ?? ''), undefined, 'DELETE')
    expect([refused.status, await refused.text()]).toEqual([
      409,
      expect.stringContaining('Failures were told with “Rust in the water”'),
    ])
    const never = await told({ kind, cause, ...rust, share: 0.04, isUsed: false, isSeen: false })
    expect(never.causes.at(-1)).toMatchObject({ cause, isUsed: false })
    const after = trouble.parse(await (await shop.ask(asked)).json())
    expect(after.ranked.map((each) => each.cause)).not.toContain(cause)
    expect(after.past[0]?.cause).toBe('Rust in the water')
    const usual = (await tableNow()).causes.find((each) => each.cause === 'not dry')
    const wet = { kind: 'link', cause: 'not dry', sign: 'damp air' } as const
    const moved = await told({ ...wet, chance: 0.2, isSeen: true })
    const row = moved.causes
      .find((each) => each.cause === 'not dry')
      ?.links.find((each) => each.sign === 'damp air')?.row
    await send(troubleRowPath(row ?? ''), undefined, 'DELETE')
    expect((await tableNow()).causes.find((each) => each.cause === 'not dry')).toEqual(usual)
    const strange = await send(PATHS.troubleTable, {
      ...wet,
      cause: 'gremlins',
      chance: 0.2,
      isSeen: true,
    })
    expect([strange.status, await strange.text()]).toEqual([
      422,
      expect.stringContaining('no cause called “gremlins”'),
    ])
  })

  test('a sign that there is not is refused in a sentence', async () => {
    const refused = await shop.ask(`${PATHS.trouble}?yes=gremlins`)
    expect([refused.status, await refused.text()]).toEqual([
      422,
      expect.stringContaining('no sign called “gremlins”'),
    ])
  })
})

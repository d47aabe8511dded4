import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import type { Clocks } from '../../src/api/clocks.ts'
import {
  evidencePath,
  PATHS,
  personActsPath,
  screenActsPath,
  screenPath,
} from '../../src/api/paths.ts'
import type { Cards, ClassTold, Evidence, MayI, Me, People } from '../../src/api/people.ts'
import {
  type Coated,
  type ReclaimList,
  type Register,
  type ScreenAct,
  type ScreenPage,
} from '../../src/api/register.ts'
import { may, ROLE_TABLE, ROLES } from '../../src/api/roles.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { byPdfium, byPdfjs } from '../../src/formats/pdfReaders.testing.ts'
import { yellowroomApp } from '../../src/server/app.ts'
import { type ShopDoor, shopDoor } from '../../src/server/door.ts'
import { DoorRefusal } from '../../src/server/http/refusals.ts'
import { dayText } from '../../src/server/shop/days.ts'
import { shopService } from '../../src/server/shop/shopService.ts'
import { openShop } from '../../src/store/openShop.ts'
import { emptyShopIn } from '../store/scratch.ts'
import { newFolder, remove } from './shopRoom.ts'

const START_MS = Date.UTC(2026, 10, 26, 9)
const PASSWORD = 'demo words of a lead'

let folder: string
let door: ShopDoor
let app: ReturnType<typeof yellowroomApp>
let clockMs = START_MS
/** What a browser keeps of each person's device. */
const cookies = new Map<string, string>()
let setBySignIn = ''

type Answer = Readonly<{ status: number; body: unknown; says: string }>

async function ask(
  path: string,
  { as, body, headers = {} }: Readonly<{ as?: string; body?: unknown; headers?: object }> = {},
): Promise<Answer> {
  const cookie = as === undefined ? {} : { cookie: cookies.get(as) ?? '' }
  const sent =
    body === undefined
      ? {}
      : { method: 'POST', body: JSON.stringify(body), type: 'application/json' }
  const { type, ...init } = sent as { type?: string }
  const json = type === undefined ? {} : { 'content-type': type }
  const response = await app.request(path, { ...init, headers: { ...json, ...cookie, ...headers } })
  const set = response.headers.get('set-cookie')
  if (as === 'lead' && set !== null) setBySignIn = set
  if (set !== null && as !== undefined) cookies.set(as, set.split(';')[0] ?? '')
  const answer: unknown = response.status === 204 ? null : await response.json()
  const { error } = (answer ?? {}) as { error?: { message: string } }
  return { status: response.status, body: answer, says: error?.message ?? '' }
}
const told = async <Told>(...asked: Parameters<typeof ask>): Promise<Told> => {
  const { body, status, says } = await ask(...asked)
  if (status >= 300) throw new Error(`${status} ${says}`)
  return body as Told
}
let count = 0
const act = (tag: string, what: object, as?: string): Promise<ScreenPage> => {
  clockMs += 1000
  const body = { key: `screen-act-${++count}`, ...what } as ScreenAct
  return told(screenActsPath(tag), { body, ...(as === undefined ? {} : { as }) })
}
const personNamed = async (name: string, as?: string): Promise<People['people'][number]> => {
  const { people } = await told<People>(PATHS.people, as === undefined ? {} : { as })
  const found = people.find((person) => person.name === name)
  if (found === undefined) throw new Error(`no ${name}`)
  return found
}

beforeAll(async () => {
  folder = await emptyShopIn(await newFolder())
  const now = (): Date => new Date(clockMs)
  door = shopDoor(async () =>
    shopService(await openShop(folder), { now, onTrouble: () => undefined }),
  )
  await door.settled
  app = yellowroomApp(door, { token: 'a-token-of-the-test' })
  await told(PATHS.ownShop, { body: { fabric: '90-48', colour: 'white', countsIn: 'light units' } })
  await told(PATHS.people, { body: { name: 'Maro Linde', role: 'technician' } })
})
afterAll(async () => {
  await door.close()
  await remove(folder)
})

test('a class list is tried dry, says what is wrong in which line, and comes in once', async () => {
  const text = 'name,class\nAda Quill,Thursday\n"Bo Fenn",Thursday\n,Thursday\nAda Quill,Thursday\n'
  const dry = await told<ClassTold>(PATHS.classList, { body: { text, dryRun: true } })
  expect(dry.fresh.map(({ name }) => name)).toEqual(['Ada Quill', 'Bo Fenn'])
  expect(dry.problems).toMatchObject([{ line: 4 }, { line: 5 }])
  expect((await told<Register>(PATHS.register)).people).toHaveLength(1)
  await told(PATHS.classList, { body: { text, dryRun: false } })
  const again = await told<ClassTold>(PATHS.classList, { body: { text, dryRun: false } })
  expect([again.fresh, again.known.length]).toEqual([[], 2])
  expect((await told<Register>(PATHS.register)).people).toHaveLength(3)
})

test('a screen goes from a new tag round to clean again, and its history tells it', async () => {
  const ada = (await personNamed('Ada Quill')).id
  const [fabric] = (await told<Register>(PATHS.register)).fabrics
  const frame = { widthMm: 510, heightMm: 710 }
  const asked = { tags: ['31', '32', '33'], fabric: fabric?.id, frame, newtonPerCm: 21.5 }
  expect((await ask(PATHS.screens, { body: asked })).status).toBe(201)
  expect(await ask(PATHS.screens, { body: { ...asked, tags: ['34', '31'] } })).toMatchObject({
    status: 409,
    says: 'Another screen carries this tag: give this one a number of its own.',
  })
  const { screens, nextTag } = await told<Register>(PATHS.register)
  expect([screens.at(-1)?.tag, nextTag]).toEqual(['33', '34'])
  const coat = {
    key: 'monday-coating',
    recipe: 'twice on the print side',
    dryHours: 3,
    goodDays: 5,
    until: '2026-12-03',
    screens: ['31', '32', '1', '99'].map((tag) => ({ tag, owner: tag === '31' ? ada : null })),
  }
  clockMs += 1000
  const first = await told<Coated>(PATHS.coatings, { body: coat })
  expect(first).toMatchObject({ coated: ['31', '32'], dryAt: '2026-11-26T12:00:01.000Z' })
  expect(first.not.map(({ tag }) => tag)).toEqual(['1', '99'])
  const second = await told<Coated>(PATHS.coatings, { body: coat })
  expect(second.coated).toEqual(['31', '32'])
  expect((await told<ScreenPage>(screenPath('31'))).screen).toMatchObject({
    owner: { name: 'Ada Quill' },
    next: 'let it dry',
    keptUntil: '2026-12-03',
    coat: { goodUntil: '2026-12-01', recipe: 'twice on the print side' },
    tension: { newtonPerCm: 21.5, on: '2026-11-26' },
  })
  clockMs += 4 * 3600_000
  const placed = await act('31', { kind: 'slot', slot: 'b3' })
  expect(placed.screen).toMatchObject({ next: 'expose it', rackSlot: 'B 3' })
  expect(placed.beside.map(({ place, tag }) => [place, tag])).toContainEqual([3, '31'])
  await act('31', { kind: 'state', to: 'exposed' })
  await act('31', { kind: 'lost' })
  expect((await act('31', { kind: 'found', slot: 'C 1' })).screen).toMatchObject({
    state: 'exposed',
    rackSlot: 'C 1',
  })
  const clean = await act('31', { kind: 'reclaimed', haze: true })
  expect(clean.screen).toMatchObject({ state: 'clean', owner: null, haze: true, coat: null })
  expect(clean.history.map(({ says }) => says)).toEqual([
    'clean: reclaimed, a ghost stayed',
    'exposed: found again',
    'lost',
    'exposed',
    'put to B 3',
    'coated: coated twice on the print side',
    'came into the shop',
  ])
  expect(
    await ask(screenActsPath('31'), { body: { kind: 'state', to: 'exposed', key: 'bare-screen' } }),
  ).toMatchObject({ status: 409 })
  const renewed = await act('31', { kind: 'stretched', fabric: fabric?.id, newtonPerCm: 25 })
  expect(renewed.screen).toMatchObject({ fabric: fabric?.name, haze: false, rackSlot: 'C 1' })
})

test('reclaim day: what is owed, and abandoned once the days of grace are over', async () => {
  const on = (day: string) => told<ReclaimList>(`${PATHS.reclaim}?on=${day}&graceDays=7`)
  const tags = ({ owed }: ReclaimList): readonly string[] =>
    owed.flatMap(({ screens }) => screens.map(({ tag }) => tag))
  expect(tags(await on('2026-11-30'))).not.toContain('32')
  expect(tags(await on('2026-12-02'))).toContain('32') // its coat was good to 1 December
  await act('33', { kind: 'state', to: 'torn' })
  const late = await on('2026-12-20')
  expect(late.abandoned.map(({ tag }) => tag)).toContain('32')
  expect(late.restretch[0]?.tag).toBe('33')
})

test('oracle iso18004: a screen’s label leads to its page, as an independent reader reads the sheet', async () => {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm')
  const wasmBinary = (await readFile(wasm)).buffer as ArrayBuffer
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true })
  const sheet = async (query: string): Promise<Uint8Array> => {
    const answer = await app.request(`http://192.168.7.20:4680${PATHS.screenLabels}?${query}`, {
      headers: { authorization: 'Bearer a-token-of-the-test' },
    })
    return new Uint8Array(await answer.arrayBuffer())
  }
  const read = async (bytes: Uint8Array): Promise<readonly string[]> => {
    const size = { widthPx: 930, heightPx: 1315 }
    const { grey } = await byPdfium(bytes, size)
    const data = new Uint8ClampedArray(4 * grey.length)
    grey.forEach((value, at) => data.set([value, value, value, 255], 4 * at))
    const picture = { data, width: size.widthPx, height: size.heightPx, colorSpace: 'srgb' }
    const found = await readBarcodes(picture as ImageData, { formats: ['QRCode'] })
    return found.map(({ text }) => text).sort()
  }
  // labels for frames, and the slips that coated screens get
  for (const query of ['tags=1,31', 'tags=1,31&say=coat']) {
    expect(await read(await sheet(query))).toEqual([
      'http://192.168.7.20:4680/screens/1',
      'http://192.168.7.20:4680/screens/31',
    ])
  }
  const { id } = await personNamed('Bo Fenn')
  const { cards, pdf: base64 } = await told<Cards>(PATHS.cards, { body: { people: [id] } })
  const code = cards[0]?.code ?? ''
  expect(await read(Buffer.from(base64, 'base64'))).toEqual([
    `http://localhost/people/sign-in#${code}`,
  ])
})

test('a shop is open until a lead has a password, and then asks who comes', async () => {
  expect(await told<Me>(PATHS.me)).toMatchObject({ isOpen: true, role: 'lead', person: null })
  const opened = await told<People>(PATHS.people, { body: { name: 'Lea Ward', role: 'lead' } })
  expect(opened.isOpen).toBe(true)
  const { id } = await personNamed('Lea Ward')
  await told(PATHS.people, { body: { name: 'Gus Hale', role: 'guest' } })
  const everybody = ['Maro Linde', 'Ada Quill', 'Gus Hale']
  const ids = await Promise.all(everybody.map(async (name) => (await personNamed(name)).id))
  const { cards } = await told<Cards>(PATHS.cards, { body: { people: ids } })
  const kind = 'password'
  expect((await ask(personActsPath(id), { body: { kind, password: 'short' } })).status).toBe(422)
  await told(personActsPath(id), { body: { kind, password: PASSWORD } })

  expect(await told<Me>(PATHS.me)).toMatchObject({ isOpen: false, role: 'nobody' })
  expect(await ask(PATHS.choices)).toMatchObject({ status: 403, says: /^Sign in first/ })
  const wrong = { name: 'Lea Ward', password: 'not the words of her' }
  expect((await ask(PATHS.signIn, { body: wrong, as: 'lead' })).status).toBe(422)
  await told(PATHS.signIn, { body: { name: 'lea ward', password: PASSWORD }, as: 'lead' })
  const roles = ['technician', 'printer', 'guest'] as const
  for (const [index, { code }] of cards.entries()) {
    const typed = ` ${code.toUpperCase().replace('-', ' ')}`
    const as = roles[index] ?? ''
    const me = await told<Me>(PATHS.signIn, { body: { code: typed }, as })
    expect(me).toMatchObject({ role: as, person: { name: everybody[index] } })
  }
  const { screen } = await act('32', { kind: 'owner', owner: ids[1] }, 'printer')
  expect([screen.mine, screen.owner?.name]).toEqual([true, 'Ada Quill'])
})

test('the cookie is for this site alone and no script reads it; another site’s page is refused', async () => {
  expect(setBySignIn).toMatch(
    /^yellowroom=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=43200$/,
  )
  for (const headers of [{ origin: 'http://evil.example' }, { 'sec-fetch-site': 'cross-site' }]) {
    const body = { name: 'x', role: 'guest' }
    expect(await ask(PATHS.people, { as: 'lead', body, headers })).toMatchObject({ status: 403 })
  }
  expect(
    (await door.shop().store.database.selectFrom('session').selectAll().execute()).length,
  ).toBeGreaterThan(3)
  const kept = await door.shop().store.database.selectFrom('credential').selectAll().execute()
  expect(JSON.stringify(kept)).not.toContain(PASSWORD)
})

test('each route of the server has its row, and lets in just whom the row names', async () => {
  const real = new Set(
    app.routes.flatMap(({ method, path }) =>
      method === 'ALL' || path === '/*' ? [] : `${method} ${path}`,
    ),
  )
  expect([...real].filter((route) => !(route in ROLE_TABLE))).toEqual([])
  expect(Object.keys(ROLE_TABLE).filter((route) => !real.has(route))).toEqual([])
  // The guard finds the shop open; behind it the shop is shut, so that nothing is done.
  let asked = 0
  const shut = (): never => {
    throw new DoorRefusal('opening', 'behind the guard')
  }
  const guarded = yellowroomApp(
    { ...door, shop: () => (asked++ === 0 ? door.shop() : shut()) },
    { token: null },
  )
  const amiss: string[] = []
  for (const [route, least] of Object.entries(ROLE_TABLE)) {
    const [method = '', path = ''] = route.split(' ')
    const place = path.replaceAll(/:\w+(\{[^/]*\})?/g, (part) =>
      /\\d|\[01\]/.test(part)
        ? '1'
        : part.includes('pdf')
          ? 'a.pdf'
          : part.includes('tif')
            ? 'a.tif'
            : part.includes('png')
              ? 'a.png'
              : 'a',
    )
    for (const role of ROLES) {
      asked = least === 'nobody' ? 1 : 0
      const cookie = cookies.get(role)
      const headers = cookie === undefined ? {} : { cookie }
      const response = await guarded.request(place, { method, headers })
      const { error } = (await response.json().catch(() => ({}))) as { error?: { kind: string } }
      const isIn = error?.kind !== 'not signed in' && error?.kind !== 'not yours'
      if (isIn !== may(role, least)) amiss.push(`${route} ${role} ${response.status}`)
    }
  }
  expect(amiss).toEqual([])
})

test('the bench asks for the lamp’s sign-off, says who gives it, and lets in once it is given', async () => {
  const body = { key: 'a-run-of-ada', medium: 'soft pencil' }
  const refused = await ask(PATHS.runs, { as: 'printer', body })
  expect(refused.status).toBe(409)
  expect(refused.says).toBe(
    'Nobody has shown you our lamp, the washout booth and the drying cabinet yet: ask Maro Linde or Lea Ward to show you and sign you off.',
  )
  const may = (act: string) => told<MayI>(`${PATHS.mayI}?act=${act}`, { as: 'printer' })
  expect((await may('expose')).says).toBe(refused.says)
  const { id } = await personNamed('Ada Quill', 'lead')
  const given = { kind: 'sign off', machine: 'light', unit: null, expiresOn: '2026-12-31' }
  await told(personActsPath(id), { as: 'technician', body: given })
  const asked = ['light', 'coating', 'chemicals']
  await told(PATHS.shownFirst, { as: 'lead', body: { machines: asked } })
  expect((await ask(PATHS.runs, { as: 'printer', body })).status).toBe(201)
  expect((await may('expose')).says).toBeNull()
  const wedge = { kind: 'wedge', doseLu: 60, lastSolidStep: 7, firstClearStep: 10 }
  expect((await ask(PATHS.readings, { as: 'printer', body: wedge })).status).toBe(201)
  clockMs += 60 * 24 * 3600_000
  await told(PATHS.signIn, { body: { name: 'Lea Ward', password: PASSWORD }, as: 'lead' })
  const { cards } = await told<Cards>(PATHS.cards, { as: 'lead', body: { people: [id] } })
  await told(PATHS.signIn, { body: { code: cards[0]?.code }, as: 'printer' })
  const late = await ask(PATHS.runs, { as: 'printer', body: { ...body, key: 'a-later-run' } })
  expect(late.says).toMatch(
    /^Your sign-off for our lamp ran out on 31 December 2026: ask.*Lea Ward/,
  )
  expect((await may('expose')).says).toBe(late.says)
})

test('coating and reclaiming ask for what they take; a class is shown it at once, technicians are not asked', async () => {
  const list = 'name,class\nCleo Marsh,Friday\nDan Reed,Friday'
  await told(PATHS.classList, { as: 'lead', body: { text: list, dryRun: false } })
  const ids = await Promise.all(
    ['Cleo Marsh', 'Dan Reed'].map(async (name) => (await personNamed(name, 'lead')).id),
  )
  const { cards } = await told<Cards>(PATHS.cards, { as: 'lead', body: { people: ids } })
  await told(PATHS.signIn, { as: 'cleo', body: { code: cards[0]?.code } })
  await told(PATHS.signIn, { as: 'dan', body: { code: cards[1]?.code } })
  const coat = {
    key: 'coated-by-cleo',
    recipe: 'once on each side',
    screens: [{ tag: '33', owner: null }],
  }
  const clean = { kind: 'reclaimed', haze: false, key: 'cleaned-by-cleo' }
  const sentAt = new Date(clockMs).toISOString()
  const clock = { key: 'remover-of-cleo', screen: '32', sec: 120, startedAt: sentAt, endedAt: null }
  const remover = { sentAt, clocks: [clock] }
  const shown = [
    [PATHS.coatings, coat, 'how to coat'],
    [screenActsPath('32'), clean, 'the reclaiming chemicals'],
    [PATHS.clocks, remover, 'the reclaiming chemicals'],
  ] as const
  for (const [path, body, what] of shown) {
    expect(await ask(path, { as: 'cleo', body })).toMatchObject({
      status: 409,
      says: `Nobody has shown you ${what} yet: ask Maro Linde or Lea Ward to show you and sign you off.`,
    })
  }
  const given = { className: 'Friday', machines: ['coating', 'chemicals'], expiresOn: null }
  const { status } = await ask(PATHS.classSignOff, {
    as: 'lead',
    body: { ...given, className: 'x' },
  })
  expect(status).toBe(404)
  for (let times = 0; times < 2; times++) {
    await told(PATHS.classSignOff, { as: 'lead', body: given })
  }
  expect((await personNamed('Dan Reed', 'lead')).signOffs).toMatchObject([
    { machine: 'chemicals', givenBy: 'Lea Ward' },
    { machine: 'coating', givenBy: 'Lea Ward' },
  ])
  await told(PATHS.coatings, { as: 'cleo', body: coat })
  await told(PATHS.clocks, { as: 'cleo', body: remover })
})

test('remover’s clock follows who started it, told twice it is one, and it ends wherever it is ended', async () => {
  const clocksOf = (as: string) => told<Clocks>(PATHS.clocks, { as })
  clockMs += 50_000
  const own = { key: 'remover-of-cleo', screen: '32', about: 'screen 32', sec: 120 }
  expect((await clocksOf('cleo')).clocks).toMatchObject([{ ...own, mine: true }])
  expect((await clocksOf('dan')).clocks).toMatchObject([
    { ...own, mine: false, person: 'Cleo Marsh' },
  ])
  // a device whose clock is years off: its moments go by when it sent them
  const SENT_MS = Date.UTC(2031, 2, 4)
  const tellLate = (endedAgo: number | null) =>
    told<Clocks>(PATHS.clocks, {
      as: 'cleo',
      body: {
        sentAt: new Date(SENT_MS).toISOString(),
        clocks: [
          {
            key: 'remover-by-wrong-clock',
            screen: '31',
            sec: 60,
            startedAt: new Date(SENT_MS - 30_000).toISOString(),
            endedAt: endedAgo === null ? null : new Date(SENT_MS - endedAgo).toISOString(),
          },
        ],
      },
    })
  const { clocks, now } = await tellLate(null)
  const late = clocks.find(({ screen }) => screen === '31')
  expect(Date.parse(now) - Date.parse(late?.startedAt ?? '')).toBe(30_000)
  expect((await tellLate(null)).clocks).toHaveLength(2)
  expect((await tellLate(10_000)).clocks).toHaveLength(1)
  expect((await tellLate(null)).clocks).toHaveLength(1)
  // told before a sleep of the browser and heard after it: the device knew our time by then
  const beforeMs = clockMs
  clockMs += 1800_000
  const slept = await told<Clocks>(PATHS.clocks, {
    as: 'cleo',
    body: {
      sentAt: new Date(SENT_MS).toISOString(),
      aheadMs: beforeMs - SENT_MS,
      clocks: [
        {
          key: 'remover-that-slept',
          screen: '31',
          sec: 3600,
          startedAt: new Date(SENT_MS - 5000).toISOString(),
          endedAt: null,
        },
      ],
    },
  })
  const begun = slept.clocks.find(({ screen }) => screen === '31')?.startedAt ?? ''
  expect(Date.parse(slept.now) - Date.parse(begun)).toBe(1_805_000)
  await act('31', { kind: 'reclaimed', haze: false }, 'cleo')
  await act('32', { kind: 'reclaimed', haze: false }, 'cleo')
  expect((await clocksOf('dan')).clocks).toEqual([])
})

test('who is no lead settles nothing about leads; the last one cannot leave a closed shop', async () => {
  const lead = await personNamed('Lea Ward', 'lead')
  const ada = await personNamed('Ada Quill', 'lead')
  const maro = await personNamed('Maro Linde', 'lead')
  const { cards } = await told<Cards>(PATHS.cards, { as: 'lead', body: { people: [maro.id] } })
  await told(PATHS.signIn, { as: 'technician', body: { code: cards[0]?.code } })
  for (const [id, body] of [
    [lead.id, { kind: 'about', name: 'x' }],
    [ada.id, { kind: 'about', role: 'lead' }],
    [maro.id, { kind: 'password', password: 'a password of mine' }],
  ] as const) {
    expect(await ask(personActsPath(id), { as: 'technician', body })).toMatchObject({
      says: expect.stringMatching(/^Only a shop lead settles/),
    })
  }
  const leaves = { kind: 'leaves', deleteAfter: null }
  expect(await ask(personActsPath(lead.id), { as: 'lead', body: leaves })).toMatchObject({
    status: 409,
    says: expect.stringMatching(/^This is the last lead/),
  })
  await told(personActsPath(ada.id), { as: 'lead', body: leaves })
  expect((await ask(PATHS.choices, { as: 'printer' })).status).toBe(403)
})

test('oracle iso216: what the shop knows of somebody’s work is one record, and an A4 paper to another reader', async () => {
  const { gone } = await told<People>(PATHS.people, { as: 'lead' })
  const id = gone.find(({ name }) => name === 'Ada Quill')?.id ?? ''
  const record = await told<Evidence>(evidencePath(id, 'json'), { as: 'lead' })
  expect(record).toMatchObject({
    name: 'Ada Quill',
    className: 'Thursday',
    signOffs: [{ machine: 'light', givenBy: 'Maro Linde', expiresOn: '2026-12-31' }],
  })
  expect(record.readings).toContainEqual({
    // told four hours after the start: the day on the wall, wherever it hangs
    on: dayText(new Date(START_MS + 4 * 3600_000)),
    says: 'a wedge at 60 light units: step 7 held whole, step 10 washed clear',
  })
  expect(record.screens.map(({ tag, says }) => [tag, says])).toContainEqual([
    '32',
    'Ada Quill’s until 3 December 2026',
  ])
  const headers = { cookie: cookies.get('lead') ?? '' }
  const paper = await app.request(evidencePath(id, 'pdf'), { headers })
  const pdf = new Uint8Array(await paper.arrayBuffer())
  const { view } = await byPdfjs(pdf)
  near((view[2] * 25.4) / 72, 210, { within: 0.01, because: 'true to 0.01 mm' })
  near((view[3] * 25.4) / 72, 297, { within: 0.01, because: 'true to 0.01 mm' })
})

test('open again, everybody is let in', async () => {
  const { id } = await personNamed('Lea Ward', 'lead')
  await told(personActsPath(id), { as: 'lead', body: { kind: 'password', password: null } })
  expect((await ask(PATHS.choices)).status).toBe(200)
  expect(await told<Me>(PATHS.me)).toMatchObject({ isOpen: true, role: 'lead' })
})

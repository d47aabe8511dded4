import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type LightAnswer, lightAnswer } from '../../src/api/light.ts'
import { PATHS } from '../../src/api/paths.ts'
import { yellowroomApp } from '../../src/server/app.ts'
import { shopDoor } from '../../src/server/door.ts'
import { shopService } from '../../src/server/shop/shopService.ts'
import { eveningKeys } from '../../src/store/evenings.ts'
import { type OpenShop, openShop } from '../../src/store/openShop.ts'
import { emptyShopIn } from '../store/scratch.ts'
import { type Asks, newFolder, opened, postJson, remove, started } from './shopRoom.ts'

/** What is kept of evenings saves time after a new start, and changes no answer. */

const folders: string[] = []
let folder = ''
let before: LightAnswer
const DAYS = 12

beforeAll(async () => {
  folder = await emptyShopIn(await newFolder())
  folders.push(folder)
  await inShop(async (ask) => {
    await post(ask, PATHS.ownShop, { shopName: 'Shed press', fabric: '90-48' })
    for (let day = DAYS; day >= 1; day--) {
      const on = new Intl.DateTimeFormat('sv-SE').format(Date.now() - 9 * day * 24 * 3600_000)
      await post(ask, PATHS.readings, {
        kind: 'wedge',
        doseLu: 60,
        lastSolidStep: 6 + (day % 2),
        on,
      })
    }
    before = await dose(ask)
  })
})
afterAll(() => Promise.all(folders.map(remove)))

async function inShop(work: (ask: Asks, store: OpenShop) => Promise<void>): Promise<void> {
  const store = await openShop(folder)
  const onTrouble = (cause: unknown): void => expect(cause).toBeNull()
  const door = shopDoor(() => shopService(store, { onTrouble }))
  await door.settled
  const app = yellowroomApp(door, { token: null })
  try {
    await work(async (path, init) => app.request(path, init), store)
  } finally {
    await door.close()
  }
}

async function post(ask: Asks, path: string, body: unknown): Promise<void> {
  const headers = { 'content-type': 'application/json' }
  const response = await ask(path, { method: 'POST', headers, body: JSON.stringify(body) })
  expect(response.status).toBe(201)
}

const dose = async (ask: Asks): Promise<LightAnswer> =>
  lightAnswer.parse(await (await ask(PATHS.light)).json())

test('evenings are kept at the close; spoiled or gone they cost time and no answer', async () => {
  const store = await openShop(folder)
  // One in thirty days of the hundred, the newest day and the one before it.
  const keys = await eveningKeys(store.database)
  expect(keys.length).toBe(5)
  const [first, second, third] = keys
  await sql`update evening set belief = '{"mean": 7}' where key = ${first}`.execute(store.database)
  await sql`update evening set belief = jsonb_set(belief, '{cov}', '"AAAA"')
    where key in (${second}, ${keys.at(-1)})`.execute(store.database)
  await sql`delete from evening where key = ${third}`.execute(store.database)
  await store.close()
  await inShop(async (ask) => expect(await dose(ask)).toEqual(before))
})

test('a kill after a reading loses neither the reading nor what follows from it', async () => {
  const first = await started(folder)
  await opened(first)
  const ask: Asks = (path, init) => fetch(`${first.url}${path}`, init)
  await dose(ask)
  const reading = { kind: 'wedge', doseLu: 60, lastSolidStep: 9 }
  expect((await postJson(`${first.url}${PATHS.readings}`, reading)).status).toBe(201)
  const told = await dose(ask)
  expect(told.dose).not.toEqual(before.dose)
  first.child.kill('SIGKILL')
  await first.ended
  await inShop(async (again, { database }) => {
    // how many were kept before depends on how far the reckoning was; it goes on from one of them
    expect((await eveningKeys(database)).length).toBeGreaterThan(0)
    expect(await dose(again)).toEqual(told)
  })
})

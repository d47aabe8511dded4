import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { evidencePath, PATHS, personActsPath, screenActsPath } from '../../src/api/paths.ts'
import type { Evidence, People } from '../../src/api/people.ts'
import type { Register, ScreenPage } from '../../src/api/register.ts'
import type { Tests } from '../../src/api/tests.ts'
import { yellowroomApp } from '../../src/server/app.ts'
import { type ShopDoor, shopDoor } from '../../src/server/door.ts'
import { shopService } from '../../src/server/shop/shopService.ts'
import { addDayEvent, addDayPlan } from '../../src/store/dayPlans.ts'
import { type OpenShop, openShop } from '../../src/store/openShop.ts'
import { emptyShopIn } from '../store/scratch.ts'
import { newFolder, remove } from './shopRoom.ts'

const DAY_MS = 24 * 3600_000
const NAME = 'Ada Quill'
const TOKEN = 'a-token-of-the-test'

let folder: string
let door: ShopDoor
let store: OpenShop
let app: ReturnType<typeof yellowroomApp>
const troubles: unknown[] = []
let clockMs = Date.UTC(2026, 10, 26, 9)

type Answer = Readonly<{ status: number; says: string }>

async function ask(path: string, body?: unknown): Promise<Answer & Readonly<{ body: unknown }>> {
  const sent =
    body === undefined
      ? {}
      : {
          method: 'POST',
          body: JSON.stringify(body),
          headers: { 'content-type': 'application/json' },
        }
  const response = await app.request(path, sent)
  const answer = (await response.json()) as { error?: { message: string } }
  return { status: response.status, body: answer, says: answer.error?.message ?? '' }
}

async function told<Told>(path: string, body?: unknown): Promise<Told> {
  const answer = await ask(path, body)
  if (answer.status >= 300) throw new Error(`${path}: ${answer.status} ${answer.says}`)
  return answer.body as Told
}

const everybody = (): Promise<People> => told<People>(PATHS.people)

beforeAll(async () => {
  vi.useFakeTimers({ toFake: ['setInterval'] })
  folder = await emptyShopIn(await newFolder())
  await opened()
  await told(PATHS.ownShop, { fabric: '90-48', colour: 'white', countsIn: 'light units' })
  const text = `name,class\n${NAME},Thursday\nBo Fenn,Thursday\nCleo Marsh,Friday`
  await told(PATHS.classList, { text, dryRun: false })
})

async function opened(): Promise<void> {
  const now = (): Date => new Date(clockMs)
  const onTrouble = (cause: unknown): void => void troubles.push(cause)
  door = shopDoor(async () => {
    store = await openShop(folder)
    return shopService(store, { now, onTrouble })
  })
  await door.settled
  app = yellowroomApp(door, { token: TOKEN })
}

afterAll(async () => {
  await door.close()
  vi.useRealTimers()
  await remove(folder)
})

test('a class leaves together; a class that is not here, and a day that is over, are refused', async () => {
  for (const [body, says] of [
    [{ className: 'Monday', deleteAfter: null }, /^Nobody is in a class Monday/],
    [{ className: 'Thursday', deleteAfter: '2026-11-25' }, /^Names are taken out after a day/],
  ] as const) {
    const refused = await ask(PATHS.endOfTerm, body)
    expect(refused.says).toMatch(says)
  }
  expect((await everybody()).people).toHaveLength(3)
  await workOf()
  const left = await told<People>(PATHS.endOfTerm, {
    className: 'Thursday',
    deleteAfter: '2026-12-20',
  })
  expect(left.people.map(({ name }) => name)).toEqual(['Cleo Marsh'])
  expect(left.gone.map(({ name, deleteAfter }) => [name, deleteAfter])).toEqual([
    [NAME, '2026-12-20'],
    ['Bo Fenn', '2026-12-20'],
  ])
})

/** A test, a screen and a planned day of hers. */
async function workOf(): Promise<void> {
  const ada = (await everybody()).people.find(({ name }) => name === NAME)?.id ?? ''
  await store.database
    .updateTable('reading')
    .set({ personId: ada })
    .where('personId', 'is', null)
    .execute()
  const wedge = { kind: 'wedge', doseLu: 60, lastSolidStep: 7, firstClearStep: 10 }
  await told(PATHS.readings, wedge)
  await store.database.updateTable('reading').set({ personId: ada }).execute()
  const [fabric] = (await told<Register>(PATHS.register)).fabrics
  const frame = { widthMm: 510, heightMm: 710 }
  await told(PATHS.screens, { tags: ['31'], fabric: fabric?.id, frame, newtonPerCm: 21.5 })
  const owner = { key: 'screen-of-ada', kind: 'owner', owner: ada, until: '2026-12-10' }
  await told<ScreenPage>(screenActsPath('31'), owner)
  const at = new Date(clockMs)
  const asked = { title: 'Thursday', people: [{ name: NAME, screens: 1 }] }
  const span = { beginsAt: at, closesAt: new Date(clockMs + 3600_000) }
  const { id: planId } = await addDayPlan(
    store.database,
    { title: 'Thursday', ...span, asked },
    { at },
  )
  const failed = { planId, kind: 'failed', person: NAME, screen: 1, happenedAt: at } as const
  await addDayEvent(store.database, { ...failed, sentKey: 'ada-failed-once' }, { at })
}

test('what is known of who left can be fetched, and their day put off, until it comes', async () => {
  const id = (await everybody()).gone.find(({ name }) => name === NAME)?.id ?? ''
  const work = await told<Evidence>(evidencePath(id, 'json'))
  expect([work.name, work.readings.length, work.screens.length]).toEqual([NAME, 1, 1])
  clockMs += DAY_MS
  await told(personActsPath(id), { kind: 'leaves', deleteAfter: '2026-12-21' })
  const { gone } = await everybody()
  expect(gone.find((each) => each.id === id)).toMatchObject({
    leftOn: '2026-11-26',
    deleteAfter: '2026-12-21',
  })
})

test('when the day has passed names go by themselves; what they told is worth as much as before', async () => {
  const doses = async () => {
    // after a start the days before are gone through first
    await expect.poll(async () => (await told<Tests>(PATHS.tests)).warnings).toEqual([])
    const { kind: _, ...tests } = await told<Tests>(PATHS.tests)
    return tests
  }
  const id = (await everybody()).gone.find(({ name }) => name === NAME)?.id ?? ''
  const headers = { authorization: `Bearer ${TOKEN}` }
  const exported = async (): Promise<string> =>
    (await app.request(PATHS.exportRecords, { headers })).text()
  expect(await exported()).toContain(NAME)
  // the last minute of the 20th of December for Bo, a day later for Ada
  clockMs = new Date(2026, 11, 20, 23, 59).getTime()
  await vi.advanceTimersByTimeAsync(DAY_MS)
  expect((await everybody()).gone).toHaveLength(2)
  clockMs = new Date(2026, 11, 21, 0, 1).getTime()
  await vi.advanceTimersByTimeAsync(DAY_MS)
  await expect.poll(async () => (await everybody()).gone.map(({ name }) => name)).toEqual([NAME])
  clockMs = new Date(2026, 11, 22, 0, 1).getTime()
  const before = await doses()
  await vi.advanceTimersByTimeAsync(DAY_MS)
  await expect.poll(async () => (await everybody()).gone).toEqual([])

  const kept = await exported()
  expect(kept).not.toContain(NAME)
  expect(kept).not.toContain('Bo Fenn')
  expect(kept).toContain('Cleo Marsh')
  // reckoned anew, from the readings alone
  await store.database.deleteFrom('evening').execute()
  expect(troubles).toEqual([])
  await door.close()
  await opened()
  expect(await doses()).toEqual(before)
  const { screens } = await told<Register>(PATHS.register)
  expect(screens.find(({ tag }) => tag === '31')).toMatchObject({
    owner: { name: 'somebody who left' },
  })
  expect(await ask(evidencePath(id, 'json'))).toMatchObject({ status: 404 })
  const back = await ask(personActsPath(id), { kind: 'is back' })
  expect(back.says).toMatch(/^This person left, and what was known of them was taken out/)
})

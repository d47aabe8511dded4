import { readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { filmList } from '../../src/api/films.ts'
import { lightAnswer } from '../../src/api/light.ts'
import { PATHS, tilePath } from '../../src/api/paths.ts'
import { health, refusal, shop } from '../../src/api/shop.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { DEMO_SHOP } from '../../src/demo/shop.ts'
import { THOROUGH } from '../thorough.testing.ts'
import {
  type Asks,
  newFolder,
  opened,
  postJson,
  readyForecast,
  remove,
  type Started,
  settledFilm,
  started,
} from './shopRoom.ts'

/** One start on an empty folder, from the first line to the stop, in the order it happens. */
describe('the first start', () => {
  let data = ''
  let room: Started
  const ask: Asks = (path, init) => fetch(`${room.url}${path}`, init)

  beforeAll(async () => {
    data = await newFolder()
    room = await started(data)
  })
  afterAll(async () => {
    room.child.kill('SIGKILL')
    await room.ended
    await remove(data)
  })

  test('listens first: while the shop is being made, health says so and the rest waits', async () => {
    const answer = health.parse(await (await ask(PATHS.health)).json())
    expect(answer).toEqual({ kind: 'health', status: 'opening', message: null })
    const early = await ask(PATHS.shop)
    // on a quick machine the shop is there before anybody has waited long
    expect([
      [503, '1'],
      [200, null],
    ]).toContainEqual([early.status, early.headers.get('retry-after')])
    expect((await ask('/')).headers.get('content-security-policy')).toContain("script-src 'self'")
    expect(await opened(room)).toBe(true)
  })

  test('says where it is once, and in whose folder', () => {
    expect(room.out()).toBe(`Yellowroom is at ${room.url}\n`)
    expect(room.err()).toBe(`The shop is kept in ${data}\n`)
  })

  test('asks which shop it is to be, becomes the demo shop, and stays it', async () => {
    expect(shop.parse(await (await ask(PATHS.shop)).json())).toMatchObject({ state: 'none' })
    const made = await postJson(`${room.url}${PATHS.demoShop}`)
    expect(made.status).toBe(201)
    const demo = { kind: 'shop', state: 'demo', name: DEMO_SHOP.name, units: 'metric' }
    expect(shop.parse(await made.json())).toEqual(demo)
    expect(await (await postJson(`${room.url}${PATHS.demoShop}`)).json()).toEqual(demo)
    const own = await postJson(`${room.url}${PATHS.ownShop}`)
    expect([own.status, refusal.parse(await own.json()).error.kind]).toEqual([409, 'conflict'])
  })

  test('says at once how much light, on the scale of its own counter', async () => {
    const light = lightAnswer.parse(await (await ask(PATHS.light)).json())
    expect(light.asked.screen?.name).toBe(`screen ${DEMO_SHOP.usualScreen}`)
    // by the prior alone 40 lu, a counter of 1.35, dyed cloth 0.18 D more: 82; its history knows better
    expect(light.dose.value).toBeGreaterThan(40 * 1.35 * 10 ** -0.18)
    expect(light.dose.value).toBeLessThan(40 * 1.35 * 10 ** 0.18)
    expect(light.word).not.toBe('a first guess')
    expect(light.reasons.join(' ')).toMatch(/It rests on \d+ tests and \d+ screens of this room/)
  })

  // minutes of drawing: the long run waits for it, and drawing has tests of its own
  test.runIf(THOROUGH)(
    'draws its films true to size and forecasts them',
    async () => {
      const { films } = filmList.parse(await (await ask(PATHS.films)).json())
      expect(films.every(({ demo }) => demo)).toBe(true)
      const pencil = films.find(({ name }) => name === 'Kettle and three pears')
      if (pencil === undefined) throw new Error('expected a film')
      const film = await settledFilm(ask, pencil.id)
      expect([film.status, film.message]).toEqual(['ready', null])
      near(film.widthMm ?? 0, 210, { within: 0.05, because: 'A4 at 600 dpi: a pixel' })
      const forecast = await readyForecast(ask, film.id)
      const tile = await ask(tilePath(forecast.id, { level: 2, x: 1, y: 1 }))
      expect(tile.status).toBe(200)
      const light = await ask(`${PATHS.light}?film=${film.id}`)
      expect(lightAnswer.parse(await light.json()).verdict).toBe('works')
    },
    180_000,
  )

  test('keeps its address and a token for its owner alone, and knows the token', async () => {
    const path = join(data, 'server.json')
    if (process.platform !== 'win32') expect((await stat(path)).mode & 0o777).toBe(0o600)
    const { url, token } = JSON.parse(await readFile(path, 'utf8')) as Record<string, string>
    expect(url).toBe(room.url)
    const from = { origin: 'http://elsewhere.example' }
    const foreign = await ask(PATHS.demoShop, { method: 'POST', headers: from })
    expect(foreign.status).toBe(403)
    const headers = { ...from, authorization: `Bearer ${token}` }
    expect((await ask(PATHS.demoShop, { method: 'POST', headers })).status).toBe(201)
  })

  test('a second start on the folder says where the first is, and ends with 3', async () => {
    const second = await started(data)
    expect(await second.ended).toBe(3)
    expect(second.out()).toBe('')
    expect(second.err().trim().split('\n')).toHaveLength(1)
    expect(second.err()).toContain(`at ${room.url}`)
    expect((await ask(PATHS.health)).status).toBe(200)
  })

  test('stops when told to, leaves nobody behind, and opens again as it was', async () => {
    room.child.kill('SIGTERM')
    expect(await room.ended).toBe(0)
    await expect(stat(join(data, 'server.json'))).rejects.toThrow('ENOENT')
    room = await started(data)
    await opened(room)
    const { films } = filmList.parse(await (await ask(PATHS.films)).json())
    expect(films).toHaveLength(5)
    if (THOROUGH) expect(films[0]?.status).toBe('ready')
  })
})

test('a folder of other things is left alone, with exit code 2', async () => {
  const second = await started(join(import.meta.dirname, '..'))
  expect(await second.ended).toBe(2)
  expect(second.err()).toContain('YELLOWROOM_DATA')
  expect(second.out()).toBe('')
})

import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type Film, filmList } from '../../src/api/films.ts'
import { lightAnswer } from '../../src/api/light.ts'
import { PATHS } from '../../src/api/paths.ts'
import { randomFrom } from '../../src/demo/random.ts'
import { KILLS } from '../store/crash/kills.testing.ts'
import { emptyShopIn } from '../store/scratch.ts'
import { THOROUGH } from '../thorough.testing.ts'
import {
  type Asks,
  asJson,
  copyOf,
  newFolder,
  opened,
  PENCIL,
  postJson,
  readyForecast,
  remove,
  type Started,
  sent,
  settledFilm,
  started,
} from './shopRoom.ts'

const SEED = 4680
const random = randomFrom(SEED)
const folders: string[] = []
let template = ''
let pencil = new Uint8Array(0)
/** The same drawing a quarter as fine: what it is forecast as is not asked there. */
let coarse = new Uint8Array(0)

beforeAll(async () => {
  pencil = new Uint8Array(await readFile(PENCIL))
  coarse = new Uint8Array(
    await sharp(pencil).resize(248).withMetadata({ density: 60 }).png().toBuffer(),
  )
  template = await emptyShopIn(await newFolder())
  folders.push(template)
  const room = await started(template)
  await opened(room)
  expect((await postJson(`${room.url}${PATHS.ownShop}`, { shopName: 'Before' })).status).toBe(201)
  room.child.kill('SIGTERM')
  expect(await room.ended).toBe(0)
})
afterAll(() => Promise.all(folders.map(remove)))

const asks =
  ({ url }: Started): Asks =>
  (path, init) =>
    fetch(`${url}${path}`, init)
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

async function killed(room: Started, afterMs: number): Promise<void> {
  await pause(afterMs)
  room.child.kill('SIGKILL')
  await room.ended
}

async function again(folder: string): Promise<Started> {
  const room = await started(folder)
  await opened(room)
  return room
}

async function filmsOf(room: Started): Promise<readonly Film[]> {
  return filmList.parse(await asJson(`${room.url}${PATHS.films}`)).films
}

describe(`kill -9, seed ${SEED}`, () => {
  test('while the shop is first made: the next start makes it', async () => {
    const folder = await newFolder()
    folders.push(folder)
    for (const share of THOROUGH ? [0.1, 0.45, 0.8] : [0.45]) {
      const room = await started(folder)
      await killed(room, 4000 * share * (0.5 + random.share()))
    }
    const room = await again(folder)
    expect((await postJson(`${room.url}${PATHS.demoShop}`)).status).toBe(201)
    await killed(room, 0)
    const later = await again(folder)
    expect(await asJson(`${later.url}${PATHS.shop}`)).toMatchObject({ state: 'demo' })
    expect(await filmsOf(later)).toHaveLength(5)
    await killed(later, 0)
  }, 400_000)

  test('while films come in: each that was answered is there and is read, no other is', async () => {
    const folder = await copyOf(template)
    folders.push(folder)
    const answered: string[] = []
    let tried = 0
    for (let round = 0; round < KILLS; round += 1) {
      const room = await again(folder)
      const enough = answered.length + 1 + Math.floor(3 * random.share())
      const sending = Array.from({ length: 6 }, (_, at) => {
        tried += 1
        // each a film of its own: trailing bytes are none of the picture's
        const bytes = new Uint8Array([...coarse, round, at])
        return sent(asks(room), { name: `film ${round} ${at}.png`, bytes }).then(
          ({ id }) => {
            answered.push(id)
            if (answered.length >= enough) room.child.kill('SIGKILL')
          },
          () => undefined,
        )
      })
      await Promise.all(sending)
      await killed(room, 0)
    }
    const room = await again(folder)
    const there = (await filmsOf(room)).map(({ id }) => id)
    expect(there).toEqual(expect.arrayContaining(answered))
    expect(answered.length).toBeGreaterThanOrEqual(KILLS)
    expect(there.length).toBeLessThanOrEqual(tried)
    const [first = ''] = answered
    const film = await settledFilm(asks(room), first)
    expect([film.status, film.message]).toEqual(['ready', null])
    expect(await damagedBlobs(folder)).toEqual([])
    await killed(room, 0)
  }, 400_000)

  test('while a film is forecast: it is forecast again, from the start, to its end', async () => {
    const folder = await copyOf(template)
    folders.push(folder)
    let room = await again(folder)
    const { id } = await sent(asks(room), { name: 'pencil.png', bytes: pencil })
    for (let round = 0; round < KILLS; round += 1) {
      await killed(room, 100 + 900 * random.share())
      room = await again(folder)
    }
    const film = await settledFilm(asks(room), id)
    expect([film.status, film.message]).toEqual(['ready', null])
    const forecast = await readyForecast(asks(room), id)
    expect(forecast.findings.length).toBeGreaterThan(0)
    const light = lightAnswer.parse(await asJson(`${room.url}${PATHS.light}?film=${id}`))
    expect(light.asked.subject.id).toBe(id)
    expect(await damagedBlobs(folder)).toEqual([])
    room.child.kill('SIGTERM')
    expect(await room.ended).toBe(0)
    expect(await readdir(join(folder, 'incoming'))).toEqual([])
  }, 400_000)
})

/** Files whose content is not what their name says. */
async function damagedBlobs(folder: string): Promise<readonly string[]> {
  const damaged: string[] = []
  const blobs = join(folder, 'blobs')
  for (const part of await readdir(blobs)) {
    for (const rest of await readdir(join(blobs, part))) {
      const bytes = await readFile(join(blobs, part, rest))
      const sha256 = createHash('sha256').update(bytes).digest('hex')
      if (sha256 !== `${part}${rest}`) damaged.push(`${part}${rest}`)
    }
  }
  return damaged
}

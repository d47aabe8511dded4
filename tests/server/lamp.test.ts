import { afterAll, beforeAll, expect, test } from 'vitest'
import { bucketAdded, evenness, lamp } from '../../src/api/lamp.ts'
import { PATHS } from '../../src/api/paths.ts'
import { refusal } from '../../src/api/shop.ts'
import { countAfter } from '../../src/core/light/warmUp.ts'
import { type Room, room } from './room.ts'

let shop: Room
const post = (path: string, body: unknown): Promise<Response> =>
  shop.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const refused = async (path: string, body: unknown) => {
  const answer = await post(path, body)
  const { error } = refusal.parse(await answer.json())
  return { status: answer.status, field: error.field, message: error.message }
}

beforeAll(async () => {
  shop = await room()
  expect((await post(PATHS.ownShop, { shopName: 'A room of the tests' })).status).toBe(201)
})
afterAll(() => shop.close())

const METAL_HALIDE = { hotPerSec: 1.4, coldPerSec: 0.4, tauSec: 35, lagSec: 0 }
const pairs = [10, 20, 30, 45, 60, 90, 120, 180].map((clockSec) => ({
  clockSec,
  count: Math.floor(countAfter(METAL_HALIDE, { sec: clockSec, from: 'cold' })),
}))

test('a lamp of which nobody told anything says what to do; timed from cold it tells seconds', async () => {
  const before = lamp.parse(await (await shop.ask(PATHS.lamp)).json())
  expect(before).toMatchObject({ warmUp: null, times: [], ageing: null })
  const answer = await post(PATHS.lampTimings, { from: 'cold', pairs, lampHours: 120 })
  expect(answer.status).toBe(201)
  const timed = lamp.parse(await answer.json())
  const { low = 0, high = 0 } = timed.warmUp?.tauSec ?? {}
  expect(low).toBeLessThan(35)
  expect(high).toBeGreaterThan(35)
  for (const { coldSec, hotSec } of timed.times) expect(coldSec).toBeGreaterThan(hotSec)
})

test('what no counter does is refused, and nothing is kept of it', async () => {
  const back = [...pairs.slice(0, 4), { clockSec: 200, count: 1 }]
  expect(await refused(PATHS.lampTimings, { from: 'cold', pairs: back })).toMatchObject({
    status: 422,
    field: 'pairs',
  })
  const coming = { from: 'cold', pairs, on: '2190-01-01' }
  expect(await refused(PATHS.lampTimings, coming)).toMatchObject({ status: 422, field: 'on' })
  const { timings } = lamp.parse(await (await shop.ask(PATHS.lamp)).json())
  expect(timings).toHaveLength(1)
})

test('a new lamp begins without timings and hours of its own', async () => {
  const fitted = lamp.parse(await (await post(PATHS.newLamp, {})).json())
  expect(fitted).toMatchObject({ lampHours: 0, timings: [], warmUp: null })
})

test('a new bucket can be chosen from then on, under a name that is not taken', async () => {
  const added = bucketAdded.parse(await (await post(PATHS.buckets, { name: 'bucket 2' })).json())
  expect(added.batch.name).toBe('bucket 2')
  expect((await refused(PATHS.buckets, { name: 'bucket 2' })).status).toBe(409)
})

test('wedges on the glass make a map; those beside it, or of too many steps, are refused', async () => {
  expect(evenness.parse(await (await shop.ask(PATHS.evenness)).json()).grid).toBeNull()
  const glass = { widthMm: 800, heightMm: 600 }
  const places = [
    [100, 100, 8],
    [700, 100, 8],
    [400, 300, 8],
    [100, 500, 6],
    [700, 500, 8],
  ].map(([xMm, yMm, lastSolidStep]) => ({ xMm, yMm, lastSolidStep }))
  const told = { glass, doseLu: 60, places }
  const map = evenness.parse(await (await post(PATHS.evenness, told)).json())
  expect(map.places).toHaveLength(5)
  const { shares = [], columns = 0, rows = 0 } = map.grid ?? {}
  const backLeft = shares[columns * (rows - 1)] ?? 1
  expect(backLeft).toBe(Math.min(...shares))
  const beside = [...places.slice(1), { xMm: 900, yMm: 10, lastSolidStep: 8 }]
  expect(await refused(PATHS.evenness, { ...told, places: beside })).toMatchObject({
    field: 'places',
  })
  const line = places.map((place) => ({ ...place, yMm: 100 }))
  expect((await refused(PATHS.evenness, { ...told, places: line })).message).toContain('one line')
})

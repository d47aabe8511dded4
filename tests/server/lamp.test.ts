import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { bucketAdded, byMeter, evenness, lamp } from '../../src/api/lamp.ts'
import { lightAnswer } from '../../src/api/light.ts'
import { PATHS, strikePath } from '../../src/api/paths.ts'
import { refusal } from '../../src/api/shop.ts'
import { readingTaken } from '../../src/api/tests.ts'
import { countAfter } from '../../src/core/light/warmUp.ts'
import { near } from '../../src/core/units/near.testing.ts'
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

test('a counter that sees the light itself needs no hand meter', async () => {
  expect(await refused(PATHS.meterReference, { reading: 50 })).toMatchObject({
    status: 409,
    field: 'unit',
  })
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

test('a new lamp begins without timings and hours of its own, and where nobody counts hours it is in doubt too', async () => {
  const width = async (): Promise<number> => {
    const answer = await shop.ask(`${PATHS.light}?medium=soft pencil`)
    const { dose } = lightAnswer.parse(await answer.json())
    return dose.high / dose.low
  }
  const wedge = { kind: 'wedge', doseLu: 60, lastSolidStep: 6, firstClearStep: 8 }
  const ten = new Intl.DateTimeFormat('sv-SE').format(Date.now() - 10 * 24 * 3600_000)
  for (const on of [ten, ten, ten]) await post(PATHS.readings, { ...wedge, on })
  const before = await width()
  const fitted = lamp.parse(await (await post(PATHS.newLamp, {})).json())
  expect(fitted).toMatchObject({ lampHours: 0, timings: [], warmUp: null })
  const doubted = await width()
  expect(doubted).toBeGreaterThan(1.05 * before)
  expect((await post(PATHS.readings, wedge)).status).toBe(201)
  expect(await width()).toBeLessThan(doubted)
})

test('hot runs alone give points of the ageing, once three days are told', async () => {
  const hotRun = (hotPerSec: number) =>
    [0, 60, 120].map((clockSec) => ({ clockSec, count: Math.floor(hotPerSec * clockSec) }))
  const days = [
    ['2026-06-01', 20, 1.4],
    ['2026-08-01', 240, 1.34],
    ['2026-10-01', 480, 1.27],
  ] as const
  for (const [on, lampHours, hotPerSec] of days) {
    const run = { from: 'hot', on, lampHours, pairs: hotRun(hotPerSec) }
    expect((await post(PATHS.lampTimings, run)).status).toBe(201)
  }
  const { ageing, warmUp, sentences } = lamp.parse(await (await shop.ask(PATHS.lamp)).json())
  expect(warmUp).toBeNull()
  expect(ageing?.points.map(({ lampHours }) => lampHours)).toEqual([20, 240, 480])
  for (const [at, [, , hotPerSec]] of days.entries()) {
    const point = ageing?.points[at]
    expect(point?.low).toBeLessThan(hotPerSec)
    expect(point?.high).toBeGreaterThan(hotPerSec)
  }
  expect(sentences.join(' ')).toContain('from cold yet')
})

describe('a unit that counts nothing but seconds', () => {
  let tubes: Room
  const LAMP = { hotPerSec: 2.2, coldPerSec: 1.1, tauSec: 30, lagSec: 0 }
  /** By Simpson's rule, not by the closed form that is asked. */
  const given = (sec: number): number => {
    const at = (t: number): number =>
      LAMP.hotPerSec - (LAMP.hotPerSec - LAMP.coldPerSec) * Math.exp(-t / LAMP.tauSec)
    const steps = 200
    const h = sec / steps
    const inner = Array.from(
      { length: steps - 1 },
      (_, k) => (k % 2 === 0 ? 4 : 2) * at((k + 1) * h),
    )
    return (h / 3) * (at(0) + inner.reduce((sum, each) => sum + each, 0) + at(sec))
  }
  const tell = (path: string, body: unknown): Promise<Response> =>
    tubes.ask(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    })
  const dose = async () =>
    lightAnswer.parse(await (await tubes.ask(`${PATHS.light}?medium=soft pencil`)).json())

  beforeAll(async () => {
    tubes = await room()
    const facts = {
      shopName: 'Tubes',
      countsIn: 'seconds',
      lastTime: { medium: 'soft pencil', doseLu: 80, outcome: 'good' },
    }
    expect((await tell(PATHS.ownShop, facts)).status).toBe(201)
  })
  afterAll(() => tubes.close())

  test('until its lamp is timed there are no cold seconds, and a reading from cold is refused', async () => {
    expect((await dose()).lampTime).toBeNull()
    const cold = { kind: 'wedge', doseLu: 90, lastSolidStep: 5, from: 'cold' }
    const answer = await tell(PATHS.readings, cold)
    expect(answer.status).toBe(409)
    expect(refusal.parse(await answer.json()).error.message).toContain('time it first')
  })

  test('oracle warm-up: from cold it is lit so long that it gives the light of the hot seconds', async () => {
    const meter = [0, 5, 10, 20, 30, 45, 60, 90, 120, 180, 240]
    const counted = meter.map((clockSec) => ({ clockSec, count: given(clockSec) }))
    expect((await tell(PATHS.lampTimings, { from: 'cold', pairs: counted })).status).toBe(201)
    const { dose: seconds, lampTime, countsIn } = await dose()
    expect(countsIn).toBe('seconds')
    expect(lampTime?.hotSec).toBe(seconds.value)
    near(given(lampTime?.coldSec ?? 0) / LAMP.hotPerSec, seconds.value, {
      within: 0.2,
      because: 'the lamp is fitted from eleven pairs without noise',
    })
    const plain = given(seconds.value) / LAMP.hotPerSec
    const steps = Math.log10(seconds.value / plain) / 0.15
    expect(lampTime?.says).toContain(`${steps.toFixed(1)} wedge steps too little`)
    const { times } = lamp.parse(await (await tubes.ask(PATHS.lamp)).json())
    for (const { count, hotSec, coldSec } of times) {
      expect(hotSec).toBe(count)
      near(given(coldSec) / LAMP.hotPerSec, count, { within: 0.2, because: 'as above' })
    }
  })

  test('a hand meter makes today’s seconds of a dose, once the light they are counted in is told', async () => {
    const asked = { count: 80, readings: [{ clockSec: 0, reading: 40 }] }
    const unsaid = await tell(PATHS.meter, asked)
    expect(unsaid.status).toBe(409)
    expect(refusal.parse(await unsaid.json()).error.message).toContain('tell it once')
    const told = await tell(PATHS.meterReference, { reading: 50 })
    expect(lamp.parse(await told.json()).meterReading).toBe(50)
    const { moreSec } = byMeter.parse(await (await tell(PATHS.meter, asked)).json())
    near(moreSec.value, 100, { within: 1e-9, because: 'worked by hand: 80 · 50/40' })
    const twice = { count: 80, readings: [...asked.readings, ...asked.readings] }
    expect((await tell(PATHS.meter, twice)).status).toBe(422)
  })

  test('a wedge from cold is worth the hot seconds that give as much', async () => {
    const sec = 90
    const hot = given(sec) / LAMP.hotPerSec
    const says = async (doseLu: number, from: 'cold' | 'hot'): Promise<readonly string[]> => {
      const told = { kind: 'wedge', doseLu, lastSolidStep: 5, firstClearStep: 7, from }
      const { reading, moved } = readingTaken.parse(await (await tell(PATHS.readings, told)).json())
      await tell(strikePath(reading.id), { reason: 'for comparison' })
      return [reading.says, ...moved]
    }
    expect(await says(sec, 'cold')).toEqual(await says(hot, 'hot'))
  })
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

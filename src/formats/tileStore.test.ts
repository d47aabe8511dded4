import { inflateSync } from 'node:zlib'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { sourceOf } from './bytes.ts'
import { memorySink, testDeflater } from './sink.testing.ts'
import { openTileStore, tileWriter } from './tileStore.ts'

const SIZE = { widthPx: 700, heightPx: 430, tileSide: 256 }
const PLACES = [
  { level: 0, x: 2, y: 1 },
  { level: 0, x: 0, y: 0 },
  { level: 2, x: 0, y: 0 },
  { level: 1, x: 1, y: 0 },
]
const bytesOf = ({ level, x, y }: (typeof PLACES)[number]): Uint8Array =>
  new Uint8Array(3000).map((_, at) => (at * (level + 3) + 17 * x + 29 * y) & 255)

async function stored(deflater = testDeflater): Promise<Uint8Array> {
  const { sink, bytes } = memorySink()
  const writer = await tileWriter(SIZE, { sink, deflater })
  for (const place of PLACES) await writer.put(place, bytesOf(place))
  expect(await writer.finish()).toBe(bytes().length)
  return bytes()
}

test('every tile comes back by its place, and no other is there', async () => {
  const store = await openTileStore(sourceOf(await stored()))
  expect(store).toMatchObject({ ...SIZE, tiles: 4 })
  for (const place of PLACES) {
    const tile = await store.tile(place)
    expect(Buffer.compare(inflateSync(tile ?? new Uint8Array(0)), bytesOf(place))).toBe(0)
  }
  expect(await store.tile({ level: 0, x: 1, y: 2 })).toBeNull()
  expect(await store.tile({ level: 9, x: 0, y: 0 })).toBeNull()
})

test('a compressor that finishes out of order changes no byte', async () => {
  let late = PLACES.length
  const slow = {
    ...testDeflater,
    whole: async (bytes: Uint8Array) => {
      late -= 1
      for (let turn = 0; turn < 5 * late; turn += 1) await Promise.resolve()
      return testDeflater.whole(bytes)
    },
  }
  expect(Buffer.compare(await stored(slow), await stored())).toBe(0)
})

test('a compressor that fails is told of by the writer', async () => {
  const broken = { whole: () => Promise.reject(new Error('no memory')) }
  const writer = await tileWriter(SIZE, { sink: memorySink().sink, deflater: broken })
  await writer.put({ level: 0, x: 0, y: 0 }, new Uint8Array(9))
  await expect(writer.finish()).rejects.toThrow('no memory')
})

test('a cut, a foreign and a newer store say so', async () => {
  const whole = await stored()
  await expect(openTileStore(sourceOf(whole.subarray(0, whole.length - 1)))).rejects.toThrow(
    'its end is missing',
  )
  await expect(openTileStore(sourceOf(whole.subarray(0, 5)))).rejects.toThrow('it is none')
  await expect(openTileStore(sourceOf(whole.subarray(0, 20)))).rejects.toThrow('its end is missing')
  const newer = Uint8Array.from(whole)
  newer[7] = 9
  await expect(openTileStore(sourceOf(newer))).rejects.toThrow('version 9')
})

test('invariant: no changed byte of head, index or foot is taken for a store', async () => {
  const whole = await stored()
  const store = await openTileStore(sourceOf(whole))
  const guarded = whole.length - 24 * store.tiles - 32
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: guarded, max: whole.length - 1 }),
      fc.integer({ min: 1, max: 255 }),
      async (at, change) => {
        const damaged = Uint8Array.from(whole)
        damaged[at] = (damaged[at] ?? 0) ^ change
        await expect(openTileStore(sourceOf(damaged))).rejects.toMatchObject({
          kind: 'unreadable file',
        })
      },
    ),
    { seed: 23 },
  )
})

import { afterAll, describe, expect, test } from 'vitest'
import { deflater } from '../../decode/deflater.ts'
import { sourceOf } from '../../formats/bytes.ts'
import { memorySink } from '../../formats/sink.testing.ts'
import { openTileStore, type StoredPlace } from '../../formats/tileStore.ts'
import type { Film } from '../../raster/film.ts'
import { drawBar, filmOf, seeded } from '../../raster/testFilms.testing.ts'
import { filmPicture } from '../../workflow/filmForecast.ts'
import { filmFindings } from '../../workflow/filmForecastFindings.ts'
import { DEFAULT_SETUP } from '../../workflow/setup.ts'
import { buffersOf, type Hands, hands } from './hands.ts'

/** Strokes in a grain as pencil has, some right across where parts of the film meet. */
function drawn(widthPx: number, heightPx: number): Float32Array {
  const densities = new Float32Array(widthPx * heightPx)
  const next = seeded(46)
  for (let bar = 0; bar < 50; bar += 1) {
    drawBar(densities, widthPx, {
      x: next() * widthPx,
      y: next() * heightPx,
      turn: next() * Math.PI,
      length: 100 + next() * 900,
      width: 3 + next() * 12,
      density: 0.5 + 2 * next(),
    })
  }
  return densities.map((density) => (density === 0 ? 0 : density * (0.6 + 0.8 * next())))
}

const LARGE: Film = filmOf(drawn(900, 2700), { widthPx: 900, pixelUm: 84.67 })
const CODED: Film = {
  ...LARGE,
  transmissionOf: Float32Array.from({ length: 65_536 }, (_, sample) => 10 ** (-sample / 20_000)),
  async *bands() {
    for await (const { samples, ...band } of LARGE.bands()) {
      yield { ...band, samples: Uint16Array.from(samples, (density) => 20_000 * density) }
    }
  },
}

const nameOf = ({ level, x, y }: StoredPlace): string => `${level}/${x}/${y}`

const threads: readonly Hands[] = [1, 2, 3].map(hands)
afterAll(() => Promise.all(threads.map(({ end }) => end())))

async function forecastOf(film: Film, others: Hands | null) {
  const { sink, bytes } = memorySink()
  const rows: number[] = []
  const onRows = (done: number): void => void rows.push(done)
  const picture = await filmPicture(film, DEFAULT_SETUP, {
    sink,
    deflater: deflater({ runs: true }),
    onRows,
    ...(others === null ? {} : { hands: others.picture }),
  })
  const findings = await filmFindings(film, DEFAULT_SETUP, {
    marksAbove: 0.3,
    onRows,
    ...(others === null ? {} : { hands: others.marks }),
  })
  return { picture, findings, rows, bytes: bytes() }
}

describe.each([
  ['densities', LARGE],
  ['coded samples', CODED],
])('a film of %s in three parts', async (_, film) => {
  const alone = await forecastOf(film, null)

  test.each([1, 2, 3])('is the same by %i threads as by this one, to the byte', async (count) => {
    const shared = await forecastOf(film, threads[count - 1] ?? null)
    expect(Buffer.compare(shared.bytes, alone.bytes)).toBe(0)
    expect(shared.picture).toEqual(alone.picture)
    expect(shared.findings).toEqual(alone.findings)
    expect(alone.findings.findings.length).toBeGreaterThan(2)
  })

  test.each([1, 2])(
    'has the same tiles when those below level %i are made later',
    async (finest) => {
      const { sink, bytes } = memorySink()
      const packer = deflater({ runs: true })
      const two = threads[1] ?? null
      const options = { sink, deflater: packer, finest }
      const shown = await filmPicture(film, DEFAULT_SETUP, {
        ...options,
        ...(two === null ? {} : { hands: two.picture }),
      })
      expect(shown.leakCounts).toEqual(alone.picture.leakCounts)
      expect(shown.pyramid).toEqual({ ...alone.picture.pyramid, finest })
      const tiles = new Map<string, Uint8Array | null>()
      const store = await openTileStore(sourceOf(bytes()))
      for (const place of store.places()) tiles.set(nameOf(place), await store.tile(place))
      expect(Math.min(...store.places().map(({ level }) => level))).toBe(finest)
      const findings = await filmFindings(film, DEFAULT_SETUP, {
        marksAbove: 0.3,
        ...(two === null ? {} : { hands: two.marks }),
        fine: {
          ...options,
          put: ({ place, deflated }) => {
            tiles.set(nameOf(place), deflated)
            return Promise.resolve()
          },
        },
      })
      expect(findings).toEqual(alone.findings)
      const whole = await openTileStore(sourceOf(alone.bytes))
      expect(tiles.size).toBe(whole.tiles)
      for (const place of whole.places()) {
        const own = tiles.get(nameOf(place)) ?? new Uint8Array()
        expect(Buffer.compare(own, (await whole.tile(place)) ?? new Uint8Array())).toBe(0)
      }
    },
  )

  test('progress rises to the film’s whole height, twice', async () => {
    const { rows } = await forecastOf(film, threads[1] ?? null)
    const half = rows.indexOf(2700) + 1
    for (const part of [rows.slice(0, half), rows.slice(half)]) {
      expect(part).toEqual(part.toSorted((a, b) => a - b))
      expect(part.at(-1)).toBe(2700)
      expect(part.length).toBeGreaterThan(2)
    }
  })
})

test('what a film throws while it is read ends the work, and the threads go on with the next', async () => {
  const broken: Film = {
    ...LARGE,
    async *bands() {
      for await (const band of LARGE.bands()) {
        if (band.top > 1500) throw new Error('cut off')
        yield band
      }
    },
  }
  const [, two] = threads
  await expect(forecastOf(broken, two ?? null)).rejects.toThrow('cut off')
  const small = filmOf(drawn(300, 1200), { widthPx: 300, pixelUm: 84.67 })
  const [alone, shared] = [await forecastOf(small, null), await forecastOf(small, two ?? null)]
  expect(Buffer.compare(shared.bytes, alone.bytes)).toBe(0)
})

test('memory is handed over once for each array, wherever it stands in a record', () => {
  const one = new Uint8Array(3)
  const record = { a: one, b: [{ c: new Float32Array(2), d: null }, 'text'], e: one.subarray(1) }
  expect(buffersOf(record)).toEqual([one.buffer, new ArrayBuffer(8)])
})

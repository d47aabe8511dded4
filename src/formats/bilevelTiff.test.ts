import fc from 'fast-check'
import sharp from 'sharp'
import UTIF from 'utif2'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { type BilevelTiffOutput, writeBilevelTiff } from './bilevelTiff.ts'
import { bandsOf, type Pixels, packedRows, type Size, seeded } from './bits.testing.ts'
import { sourceOf } from './bytes.ts'
import { readDirectory } from './directory.ts'
import { readResolution } from './resolution.ts'
import { memorySink } from './sink.testing.ts'

type Asked = Size & { rows: Uint8Array; pixelUm?: number; rowsEach?: number; big?: boolean }

async function written(asked: Asked): Promise<Uint8Array<ArrayBuffer>> {
  const { widthPx, heightPx, rows, pixelUm = 25400 / 1440, rowsEach = 64, big } = asked
  const { sink, bytes } = memorySink()
  const output: BilevelTiffOutput = big === undefined ? { sink } : { sink, big }
  const bands = bandsOf(rows, asked, rowsEach)
  await writeBilevelTiff({ widthPx, heightPx, pixelUm, bands }, output)
  return bytes()
}

function byUtif(bytes: Uint8Array<ArrayBuffer>): UTIF.IFD {
  const [page] = UTIF.decode(bytes.buffer)
  if (page === undefined) throw new Error('utif2 found no page')
  UTIF.decodeImage(bytes.buffer, page)
  return page
}

async function byLibtiff(bytes: Uint8Array, size: Size): Promise<Uint8Array> {
  const raw = await sharp(bytes, { limitInputPixels: false }).toColourspace('b-w').raw().toBuffer()
  return packedRows(size, (x, y) => raw[y * size.widthPx + x] === 0)
}

/** A poster and a photograph in one: solids, fine stripes, a dot screen, noise. */
function mixed({ widthPx, heightPx }: Size): Pixels {
  const next = seeded(7)
  return (x, y) => {
    if (y < heightPx / 4) return (x - widthPx / 2) ** 2 + (y - 300) ** 2 < 250 ** 2
    if (y < heightPx / 2) return (x + 2 * y) % 23 < 5
    if (y < (19 * heightPx) / 20) return Math.cos(x / 3) + Math.cos((y + x / 9) / 3) > 0.3
    return next() < x / widthPx
  }
}

const SIZE = { widthPx: 4001, heightPx: 3001 }
const ROWS = packedRows(SIZE, mixed(SIZE))

describe('a film of 4001 by 3001 pixels, in two strips', async () => {
  const bytes = await written({ ...SIZE, rows: ROWS })

  test('utif2 reads the same bits, size and resolution', () => {
    const page = byUtif(bytes)
    expect([page.width, page.height]).toEqual([4001, 3001])
    expect([page['t282'], page['t283'], page['t296']]).toEqual([[[1440, 1]], [[1440, 1]], [2]])
    expect(Buffer.compare(page.data.subarray(0, ROWS.length), ROWS)).toBe(0)
  })

  test('libtiff reads the same bits, size and resolution', async () => {
    const head = await sharp(bytes).metadata()
    const kept = ['width', 'height', 'channels', 'density', 'resolutionUnit'] as const
    expect(kept.map((key) => head[key])).toEqual([4001, 3001, 1, 1440, 'inch'])
    expect(head.bitsPerSample).toBe(1)
    expect(Buffer.compare(await byLibtiff(bytes, SIZE), ROWS)).toBe(0)
  })

  test('oracle tiff6: the tags of a baseline bilevel image, and T.6', async () => {
    const tags = [254, 256, 257, 258, 259, 262, 266, 273, 277, 278, 279, 282, 283, 293, 296, 338]
    const found = await readDirectory(sourceOf(bytes), { tags })
    const [offsets = [], counts = []] = [found?.get(273), found?.get(279)]
    expect([...(found ?? [])].filter(([tag]) => tag !== 273 && tag !== 279)).toEqual([
      [256, [4001]],
      [257, [3001]],
      [258, [1]],
      [259, [4]],
      [262, [0]],
      [266, [1]],
      [277, [1]],
      [278, [Math.floor(2 ** 20 / 501)]],
      [282, [1440]],
      [283, [1440]],
      [293, [0]],
      [296, [2]],
    ])
    expect(offsets).toEqual([16, 16 + (counts[0] ?? 0)])
    // each strip ends in two end-of-line codes, 11 zeros and a one each (T.6, 2.4.1.1)
    for (const [at, offset] of offsets.entries()) {
      const end = bytes.subarray(offset, offset + (counts[at] ?? 0)).slice(-4)
      const bits = [...end].map((byte) => byte.toString(2).padStart(8, '0')).join('')
      expect(bits).toMatch(/000000000001000000000001/)
    }
  })

  test('the bytes do not depend on how the rows came', async () => {
    for (const rowsEach of [1, 1000, 3001]) {
      const others = await written({ ...SIZE, rows: ROWS, rowsEach })
      expect(Buffer.compare(others, bytes)).toBe(0)
    }
  })
})

test('a BigTIFF says the same', async () => {
  const size = { widthPx: 1234, heightPx: 8000 }
  const rows = packedRows(size, mixed(size))
  const bytes = await written({ ...size, rows, big: true })
  expect([...bytes.subarray(0, 8)]).toEqual([0x49, 0x49, 43, 0, 8, 0, 0, 0])
  expect(Buffer.compare(await byLibtiff(bytes, size), rows)).toBe(0)
  expect((await sharp(bytes).metadata()).density).toBe(1440)
})

test('370 pixels per cm, 939.8 per inch, stand per cm', async () => {
  const size = { widthPx: 33, heightPx: 3 }
  const page = byUtif(await written({ ...size, rows: new Uint8Array(15), pixelUm: 10000 / 370 }))
  expect([page['t282'], page['t283'], page['t296']]).toEqual([[[370, 1]], [[370, 1]], [3]])
})

test('invariant: any size comes back with its bits and its pixel', async () => {
  const films = fc.record({
    widthPx: fc.integer({ min: 1, max: 300 }),
    heightPx: fc.integer({ min: 1, max: 40 }),
    pixelUm: fc.double({ min: 1, max: 300, noNaN: true }),
    seed: fc.nat(),
  })
  await fc.assert(
    fc.asyncProperty(films, async ({ widthPx, heightPx, pixelUm, seed }) => {
      const next = seeded(seed)
      const rows = packedRows({ widthPx, heightPx }, () => next() < 0.4)
      const bytes = await written({ widthPx, heightPx, rows, pixelUm, rowsEach: 7 })
      const page = byUtif(bytes)
      expect([page.width, page.height]).toEqual([widthPx, heightPx])
      expect(Buffer.compare(page.data.subarray(0, rows.length), rows)).toBe(0)
      expect(Buffer.compare(await byLibtiff(bytes, { widthPx, heightPx }), rows)).toBe(0)
      const perMm = (await readResolution(sourceOf(bytes)))?.horizontalPerMm ?? Number.NaN
      near(1000 / perMm / pixelUm, 1, { within: 1e-13, because: 'fractions of 32-bit numbers' })
    }),
    { seed: 6, numRuns: 100 },
  )
})

test('rows that do not fill the film, and sides that cannot be, are refused', async () => {
  const write = (asked: Partial<Asked>): Promise<unknown> =>
    written({ widthPx: 33, heightPx: 3, rows: new Uint8Array(15), ...asked })
  const bands = [{ rows: 2, bits: new Uint8Array(10) }]
  const film = { widthPx: 33, heightPx: 3, pixelUm: 20, bands }
  await expect(writeBilevelTiff(film, memorySink())).rejects.toThrow('expected 3 rows, got 2')
  await expect(writeBilevelTiff({ ...film, heightPx: 1 }, memorySink())).rejects.toThrow(
    'do not fit',
  )
  await expect(write({ widthPx: 31 })).rejects.toThrow('do not fit 3 rows of 4 bytes')
  await expect(write({ pixelUm: Number.NaN })).rejects.toThrow('pixelUm: expected')
})

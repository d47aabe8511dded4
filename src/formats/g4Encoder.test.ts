import fc from 'fast-check'
import sharp from 'sharp'
import UTIF from 'utif2'
import { describe, expect, test } from 'vitest'
import { type Pixels, packedRows, type Size } from './bits.testing.ts'
import { g4Encoder } from './g4Encoder.ts'
import { handTiff } from './handTiff.testing.ts'
import { plainG4 } from './plainG4.ts'

function encoded({ widthPx }: Size, rows: Uint8Array): Uint8Array {
  const encoder = g4Encoder({ widthPx })
  return Uint8Array.from([...encoder.push(rows), ...encoder.end()])
}

/** The stream in a TIFF by hand, so that readers of TIFF decode it. */
function inTiff(size: Size, strip: Uint8Array): Uint8Array {
  return handTiff({ ...size, bits: 1, compression: 4, photometric: 0, strip })
}

/** The bits that utif2 decodes, packed. */
function byUtif(size: Size, strip: Uint8Array): Uint8Array {
  const bytes = Buffer.from(inTiff(size, strip))
  const [page] = UTIF.decode(bytes)
  if (page === undefined) throw new Error('utif2 found no page')
  UTIF.decodeImage(bytes, page)
  return page.data.slice(0, Math.ceil(size.widthPx / 8) * size.heightPx)
}

/** The bits that libtiff decodes, packed. */
async function byLibtiff(size: Size, strip: Uint8Array): Promise<Uint8Array> {
  const pixels = await sharp(inTiff(size, strip), { limitInputPixels: false })
    .toColourspace('b-w')
    .raw()
    .toBuffer()
  expect(pixels.length).toBe(size.widthPx * size.heightPx)
  return packedRows(size, (x, y) => pixels[y * size.widthPx + x] === 0)
}

async function expectSame(size: Size, rows: Uint8Array): Promise<void> {
  const strip = encoded(size, rows)
  expect(Buffer.compare(byUtif(size, strip), rows), 'utif2').toBe(0)
  expect(Buffer.compare(await byLibtiff(size, strip), rows), 'libtiff').toBe(0)
}

const tiny: readonly (readonly [string, number, number, Pixels, string])[] = [
  ['all white', 16, 4, () => false, 'f0010010'],
  ['all black', 16, 4, () => true, '26a0bfe0020020'],
  ['four black, eight white, four black', 16, 4, (x) => x < 4 || x >= 12, '26accdfff8008008'],
  [
    'checkerboard',
    8,
    8,
    (x, y) => (x + y) % 2 === 0,
    '26a88e88e82569249524924ad2492a492495a4925492492b4924a0020020',
  ],
  ['a white funnel', 16, 6, (x, y) => x < 4 + y || x >= 12 - y, '26accddadadac780080080'],
]

test.each(tiny)('oracle libtiff-g4: %s', (_, widthPx, heightPx, black, hex) => {
  const size = { widthPx, heightPx }
  expect(Buffer.from(encoded(size, packedRows(size, black))).toString('hex')).toBe(hex)
})

/** Rows of one white and one black run, a white row under each so that both are said in full. */
function twoRuns(
  widthPx: number,
  runs: readonly (readonly [number, number])[],
): [Size, Uint8Array] {
  const size = { widthPx, heightPx: 2 * runs.length }
  const black: Pixels = (x, y) => {
    const [first, second] = runs[y >> 1] ?? [0, 0]
    return y % 2 === 0 && x >= first && x < first + second
  }
  return [size, packedRows(size, black)]
}

test('oracle t4: runs of 0 to 2660 have the codes that libtiff and utif2 know', async () => {
  const runs = Array.from({ length: 2661 }, (_, run) => [run, 2660 - run] as const)
  await expectSame(...twoRuns(2671, runs))
})

test('oracle t4: and so have runs of many make-up codes', async () => {
  const ends = [2560, 5120, 7680, 10240].flatMap((at) =>
    [-1, 0, 1, 63, 64, 65].map((by) => at + by),
  )
  await expectSame(
    ...twoRuns(
      20_700,
      ends.map((run) => [run, 20_640 - 2 * run > 0 ? run + 1 : 77]),
    ),
  )
})

describe('edges of the page', () => {
  const widths = [
    1, 2, 7, 8, 9, 15, 16, 17, 31, 32, 33, 63, 64, 65, 127, 128, 129, 2560, 2624, 4000,
  ]
  const pictures: readonly (readonly [string, (size: Size) => Pixels])[] = [
    ['white', () => () => false],
    ['black', () => () => true],
    ['checker', () => (x, y) => (x + y) % 2 === 1],
    ['stripes down', () => (x) => x % 2 === 0],
    ['stripes across', () => (_, y) => y % 2 === 0],
    ['first pixel', () => (x) => x === 0],
    [
      'last pixel',
      ({ widthPx }) =>
        (x) =>
          x === widthPx - 1,
    ],
    [
      'ends in turn',
      ({ widthPx }) =>
        (x, y) =>
          x === (y % 2) * (widthPx - 1),
    ],
    [
      'all but the ends',
      ({ widthPx }) =>
        (x) =>
          x > 0 && x < widthPx - 1,
    ],
    ['a diagonal', () => (x, y) => x === 3 * y],
  ]
  test.each(pictures)('%s, at every width', async (_, black) => {
    for (const widthPx of widths) {
      const size = { widthPx, heightPx: 5 }
      await expectSame(size, packedRows(size, black(size)))
    }
  })
})

test('invariant: random rows decode to themselves', async () => {
  const pictures = fc.record({
    widthPx: fc.integer({ min: 1, max: 4000 }),
    heightPx: fc.integer({ min: 1, max: 8 }),
    bits: fc.infiniteStream(fc.nat({ max: 255 })),
    grain: fc.constantFrom(1, 2, 9, 40, 700),
    kept: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  await fc.assert(
    fc.asyncProperty(pictures, async ({ widthPx, heightPx, bits, grain, kept }) => {
      const size = { widthPx, heightPx }
      const drops = Array.from({ length: 64 }, () => bits.next().value)
      const drop = (x: number, y: number): number =>
        drops[(x * 7 + y * 29 + ((x * y) >> 3)) & 63] ?? 0
      // a row repeats parts of the one above, shifted by a pixel or so, as drawings do
      const black: Pixels = (x, y) =>
        drop(Math.floor((x + (y & 3)) / grain), drop(x >> 6, y) < 256 * kept ? 0 : y) % 2 === 1
      await expectSame(size, packedRows(size, black))
    }),
    { seed: 4, numRuns: 120 },
  )
})

test('invariant: pure noise decodes to itself', async () => {
  const noise = fc.uint8Array({ minLength: 1, maxLength: 1500 })
  await fc.assert(
    fc.asyncProperty(noise, fc.integer({ min: 1, max: 12 }), async (bytes, heightPx) => {
      const widthPx = 8 * Math.max(1, Math.floor(bytes.length / heightPx))
      const rows = Uint8Array.from({ length: (heightPx * widthPx) / 8 }, (_, at) => bytes[at] ?? 0)
      await expectSame({ widthPx, heightPx }, rows)
    }),
    { seed: 5, numRuns: 120 },
  )
})

test('bits past the width do not count, and rows may come in any portions', () => {
  const size = { widthPx: 37, heightPx: 9 }
  const rows = packedRows(size, (x, y) => (x * y) % 5 < 2)
  const dirty = rows.map((byte, at) => (at % 5 === 4 ? byte | 0b111 : byte))
  const whole = encoded(size, rows)
  expect(encoded(size, dirty)).toEqual(whole)
  const encoder = g4Encoder(size)
  const parts = [0, 1, 2, 6, 9].flatMap((row, at, all) => [
    ...encoder.push(rows.subarray(5 * (all[at - 1] ?? 0), 5 * row)),
  ])
  expect(Uint8Array.from([...parts, ...encoder.end()])).toEqual(whole)
  expect(Uint8Array.from([...encoder.push(rows), ...encoder.end()]), 'a second picture').toEqual(
    whole,
  )
})

test('what are no rows is refused', () => {
  expect(() => g4Encoder({ widthPx: 0 })).toThrow('widthPx: expected')
  expect(() => g4Encoder({ widthPx: 16 }).push(new Uint8Array(3))).toThrow('rows of 2 bytes')
})

test('invariant: machine code writes the bytes of the plain loops, whatever the rows and how they come', () => {
  const widths = fc.oneof(fc.integer({ min: 1, max: 300 }), fc.constantFrom(2560, 5183, 9000))
  const pieces = fc.array(
    fc.tuple(fc.integer({ min: 1, max: 900 }), fc.constantFrom(0, 0, 1, 0x55, 0x0f)),
    { minLength: 1, maxLength: 30 },
  )
  fc.assert(
    fc.property(widths, pieces, fc.integer({ min: 1, max: 6 }), (widthPx, runs, heightPx) => {
      const rowBytes = Math.ceil(widthPx / 8)
      const rows = new Uint8Array(rowBytes * heightPx)
      let at = 0
      for (const [length, kind] of runs) {
        for (let bit = 0; bit < length; bit++, at++) {
          if (((kind >> (bit & 7)) & 1) === 1) rows[(at >> 3) % rows.length] |= 0x80 >> (at & 7)
        }
      }
      const [own, plain] = [g4Encoder({ widthPx }), plainG4({ widthPx })]
      for (const picture of [rows, rows.toReversed()]) {
        const bytes: number[] = []
        const cut = rowBytes * Math.floor(heightPx / 2)
        bytes.push(...own.push(picture.subarray(0, cut)))
        bytes.push(...own.push(picture.subarray(cut)), ...own.end())
        expect(bytes).toEqual([...plain.push(picture), ...plain.end()])
      }
    }),
  )
})

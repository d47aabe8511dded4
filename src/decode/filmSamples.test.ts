import { deflateSync } from 'node:zlib'
import sharp, { type Sharp } from 'sharp'
import UTIF from 'utif2'
import { describe, expect, test } from 'vitest'
import { handTiff, packed } from '../formats/handTiff.testing.ts'
import { withFilm } from './openFilm.ts'
import { samplesOf, temporary } from './temporary.testing.ts'

const { put, leftovers } = temporary()
const dpi = { resolutionDpi: 720 }

/** A ramp whose rows and columns all differ. */
const WIDTH = 23
const HEIGHT = 11
const ramp = Uint8Array.from({ length: WIDTH * HEIGHT }, (_, at) => at)
const ramp16 = Uint16Array.from({ length: WIDTH * HEIGHT }, (_, at) => (at * 8191) % 65536)
const black = Uint8Array.from(ramp, (value) => (value % 3 === 0 ? 0 : 255))
const picture = (of: Uint8Array | Uint16Array): Sharp =>
  sharp(of, { raw: { width: WIDTH, height: HEIGHT, channels: 1 } }).toColourspace(
    of instanceof Uint16Array ? 'grey16' : 'b-w',
  )

describe('every depth and packing gives the stored values', () => {
  const files: readonly (readonly [string, () => Promise<Uint8Array>, ArrayLike<number>])[] = [
    ['8-bit PNG', () => picture(ramp).png().toBuffer(), ramp],
    ['interlaced PNG', () => picture(ramp).png({ progressive: true }).toBuffer(), ramp],
    ['16-bit PNG', () => picture(ramp16).png().toBuffer(), ramp16],
    ['1-bit PNG', () => picture(black).png({ colours: 2 }).toBuffer(), black],
    ['lossless WebP', () => picture(ramp).webp({ lossless: true }).toBuffer(), ramp],
    ...(['none', 'deflate', 'lzw', 'packbits'] as const).flatMap(
      (compression) =>
        [
          [`8-bit ${compression} TIFF`, () => picture(ramp).tiff({ compression }).toBuffer(), ramp],
          [
            `16-bit ${compression} TIFF`,
            () => picture(ramp16).tiff({ compression }).toBuffer(),
            ramp16,
          ],
        ] as const,
    ),
    ...(['ccittfax4', 'packbits', 'none'] as const).map(
      (compression) =>
        [
          `1-bit ${compression} TIFF`,
          () => picture(black).tiff({ compression, bitdepth: 1 }).toBuffer(),
          black,
        ] as const,
    ),
    [
      'tiled TIFF',
      () =>
        picture(ramp)
          .tiff({ compression: 'none', tile: true, tileWidth: 16, tileHeight: 16 })
          .toBuffer(),
      ramp,
    ],
    [
      'BigTIFF',
      () => picture(ramp16).tiff({ compression: 'none', bigtiff: true }).toBuffer(),
      ramp16,
    ],
  ]
  test.each(files)('%s', async (name, bytes, expected) => {
    const file = put(name.replaceAll(' ', '-'), await bytes())
    await withFilm(file, dpi, async ({ film, warnings }) => {
      expect([film.widthPx, film.heightPx]).toEqual([WIDTH, HEIGHT])
      expect(await samplesOf(film)).toEqual(Array.from(expected))
      expect(await samplesOf(film), 'a second pass').toEqual(Array.from(expected))
      expect(warnings.filter((words) => !/stored in colour|states/.test(words))).toEqual([])
    })
    expect(leftovers()).toEqual([])
  })

  test('a JPEG comes within what its compression loses', async () => {
    const file = put('a.jpg', await picture(ramp).jpeg({ quality: 100 }).toBuffer())
    await withFilm(file, dpi, async ({ film }) => {
      const off = (await samplesOf(film)).map((sample, at) => Math.abs(sample - (ramp[at] ?? 0)))
      expect(Math.max(...off)).toBeLessThanOrEqual(2)
    })
  })

  test('Group 4: the bits that utif2 decodes', async () => {
    const bytes = await picture(black).tiff({ compression: 'ccittfax4', bitdepth: 1 }).toBuffer()
    const [page] = UTIF.decode(bytes)
    if (page === undefined) throw new Error('utif2 found no page')
    UTIF.decodeImage(bytes, page)
    const rgba = UTIF.toRGBA8(page)
    const expected = Array.from({ length: WIDTH * HEIGHT }, (_, at) => rgba[4 * at])
    await withFilm(put('g4.tif', bytes), dpi, async ({ film }) => {
      expect(await samplesOf(film)).toEqual(expected)
    })
  })

  test('oracle t4: Group 3, white 2, black 8, white 6 are 0111 000101 1110', async () => {
    const strip = Uint8Array.of(0b0000_0000, 0b0001_0111, 0b0001_0111, 0b1000_0000)
    const of = { widthPx: 16, heightPx: 1, bits: 1, compression: 3, photometric: 0, strip }
    await withFilm(put('g3.tif', handTiff(of)), dpi, async ({ film }) => {
      const row = (await samplesOf(film)).map((sample) => (sample === 0 ? '#' : '.')).join('')
      expect(row).toBe('..########......')
    })
  })

  test.each([true, false])('16 bits in either byte order, low first: %s', async (little) => {
    const strip = packed([0, 258, 770, 65535], 16, little)
    const of = { widthPx: 2, heightPx: 2, bits: 16, little, strip }
    await withFilm(put('order.tif', handTiff(of)), dpi, async ({ film }) => {
      expect(await samplesOf(film)).toEqual([0, 258, 770, 65535])
    })
    const white = handTiff({ ...of, photometric: 0 })
    await withFilm(put('white.tif', white), dpi, async ({ film }) => {
      expect(await samplesOf(film)).toEqual([65535, 65277, 64765, 0])
    })
  })

  test.each([true, false])('a float map in either byte order, low first: %s', async (little) => {
    const values = [0, 0.3125, 3.5, -0.0625, 10, 1.75]
    for (const photometric of [0, 1]) {
      for (const compression of [1, 8]) {
        const plain = packed(values, 32, little)
        const strip = compression === 8 ? new Uint8Array(deflateSync(plain)) : plain
        const of = { widthPx: 3, heightPx: 2, bits: 32, sampleFormat: 3 }
        const file = put('map.tif', handTiff({ ...of, photometric, compression, little, strip }))
        await withFilm(file, dpi, async ({ film }) => {
          expect(film.transmissionOf).toBeNull()
          expect(await samplesOf(film)).toEqual(values)
        })
      }
    }
  })
})

import sharp, { type Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { handTiff, packed } from '../formats/handTiff.testing.ts'
import { openFilm, withFilm } from './openFilm.ts'
import { samplesOf, temporary, transmissionsOf } from './temporary.testing.ts'

const { put, leftovers } = temporary()
const dpi = { resolutionDpi: 720 }

/** A ramp whose rows and columns all differ. */
const WIDTH = 23
const HEIGHT = 11
const ramp = Uint8Array.from({ length: WIDTH * HEIGHT }, (_, at) => at)
const picture = (of: Uint8Array, width = WIDTH, height = HEIGHT): Sharp =>
  sharp(of, { raw: { width, height, channels: 1 } }).toColourspace('b-w')
const near32 = { within: 1e-7, because: 'the table is 32-bit' }

describe('what a grey value means', () => {
  test('transmission: the share of full scale, no less than the solid lets through', async () => {
    const file = put(
      'v.png',
      await picture(Uint8Array.of(0, 51, 102, 255), 4, 1)
        .png()
        .toBuffer(),
    )
    await withFilm(file, { ...dpi, solidDensity: 2 }, async ({ film }) => {
      const [solid, fifth, twoFifths, clear] = await transmissionsOf(film)
      near(solid ?? 0, 0.01, near32) // 10^-2
      near(fifth ?? 0, 0.2, near32)
      near(twoFifths ?? 0, 0.4, near32)
      expect(clear).toBe(1)
    })
    await withFilm(file, dpi, async ({ film }) => {
      near((await transmissionsOf(film))[0] ?? 0, 10 ** -3.5, near32)
    })
  })

  test('coverage: the share of solid area beside clear film', async () => {
    const file = put(
      'c.png',
      await picture(Uint8Array.of(0, 51, 204, 255), 4, 1)
        .png()
        .toBuffer(),
    )
    const options = { ...dpi, solidDensity: 1, as: 'coverage' } as const
    await withFilm(file, options, async ({ film }) => {
      const [solid, dense, thin, clear] = await transmissionsOf(film)
      near(solid ?? 0, 0.1, near32) // 1 − 1·(1 − 0.1)
      near(dense ?? 0, 0.28, near32) // 1 − 0.8·0.9
      near(thin ?? 0, 0.82, near32) // 1 − 0.2·0.9
      expect(clear).toBe(1)
    })
  })

  test('a density map says when coverage was asked of it', async () => {
    const of = { widthPx: 1, heightPx: 1, bits: 32, sampleFormat: 3, strip: packed([1], 32) }
    const file = put('as.tif', handTiff(of))
    await withFilm(file, { ...dpi, as: 'coverage' }, ({ warnings }) => {
      expect(warnings).toEqual([expect.stringContaining('reading as coverage does not apply')])
      return Promise.resolve()
    })
  })
})

describe('how large a pixel is', () => {
  const pixelUm = async (
    file: string,
    resolutionDpi?: number,
  ): Promise<[number, readonly string[]]> =>
    withFilm(file, { resolutionDpi }, ({ film, warnings }) =>
      Promise.resolve([film.pixelUm, warnings]),
    )

  test('the file says it, exactly', async () => {
    const strip = new Uint8Array(1)
    const of = { widthPx: 1, heightPx: 1, bits: 8, strip }
    const file = put('size.tif', handTiff({ ...of, resolution: [15000, 127, 15000, 127, 3] }))
    const [size, warnings] = await pixelUm(file)
    near(size, 25400 / 300, { within: 1e-12, because: '15000/127 per cm is 300 per inch' })
    expect(warnings).toEqual([])
  })

  test('an option wins, and says so when it differs by more than a thousandth', async () => {
    const file = put('o.png', await picture(ramp).withDensity(300).png().toBuffer())
    expect(await pixelUm(file, 300)).toEqual([25400 / 300, []])
    const [size, warnings] = await pixelUm(file, 720)
    expect(size).toBe(25400 / 720)
    expect(warnings).toEqual([
      expect.stringMatching(/states 299\.999 dpi; the 720 dpi given are used\.$/),
    ])
  })

  test('72 dpi is read with a warning, for programs write it when they do not know', async () => {
    const file = put('72.png', await picture(ramp).withDensity(72).png().toBuffer())
    const [, warnings] = await pixelUm(file)
    expect(warnings).toEqual([expect.stringContaining('when they do not know')])
  })
})

describe('what is not plain grey is read with a warning', () => {
  const rgb = (colours: readonly number[], channels: 3 | 4 = 3): Sharp =>
    sharp(Uint8Array.from(colours), {
      raw: { width: colours.length / channels, height: 1, channels },
    })

  test('grey stored as colour keeps its values', async () => {
    const file = put('rgb.png', await rgb([7, 7, 7, 130, 130, 130, 251, 251, 251]).png().toBuffer())
    await withFilm(file, dpi, async ({ film, warnings }) => {
      expect(await samplesOf(film)).toEqual([7, 130, 251])
      expect(warnings).toContainEqual(expect.stringContaining('stored in colour'))
    })
  })

  test('what is transparent is clear film', async () => {
    const file = put(
      'rgba.png',
      await rgb([0, 0, 0, 0, 0, 0, 0, 255, 9, 9, 9, 255], 4).png().toBuffer(),
    )
    await withFilm(file, dpi, async ({ film, warnings }) => {
      expect(await samplesOf(film)).toEqual([255, 0, 9])
      expect(warnings).toContainEqual(expect.stringContaining('clear film'))
    })
  })

  test('16 bits with alpha: clear is clear to the last bit', async () => {
    const grey16 = Uint16Array.of(0, 0, 0, 65535, 1234, 65535, 65534, 65535, 20000, 32768)
    const raw = { width: 5, height: 1, channels: 2 } as const
    const bytes = await sharp(grey16, { raw }).toColourspace('grey16').png().toBuffer()
    await withFilm(put('la16.png', bytes), dpi, async ({ film }) => {
      const [clear, solid, dark, light, half] = await samplesOf(film)
      expect([clear, solid, dark, light]).toEqual([65535, 0, 1234, 65534])
      const laid = (20000 * 32768 + 65535 * 32767) / 65535
      near(half ?? 0, laid, { within: 1, because: 'one of 65535 is lost to rounding' })
    })
    expect(leftovers()).toEqual([])
  })

  test('a profile does not change the values', async () => {
    const file = put(
      'icc.png',
      await rgb([40, 40, 40, 200, 200, 200]).withIccProfile('p3').png().toBuffer(),
    )
    await withFilm(file, dpi, async ({ film, warnings }) => {
      const plain = await sharp(file, { ignoreIcc: true }).toColourspace('b-w').raw().toBuffer()
      expect(await samplesOf(film)).toEqual([...plain])
      expect(warnings).toContainEqual(expect.stringContaining('profile'))
    })
  })

  test.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'orientation %i is the picture that libvips turns',
    async (orientation) => {
      const of = { widthPx: WIDTH, heightPx: HEIGHT, bits: 8, strip: ramp, orientation }
      const bytes = handTiff(of)
      const turned = sharp(bytes).autoOrient().toColourspace('b-w').raw()
      const { data, info } = await turned.toBuffer({ resolveWithObject: true })
      await withFilm(put('turned.tif', bytes), dpi, async ({ film, warnings }) => {
        expect([film.widthPx, film.heightPx]).toEqual([info.width, info.height])
        expect(await samplesOf(film)).toEqual([...data])
        expect(warnings).toHaveLength(orientation === 1 ? 0 : 1)
      })
    },
  )

  test('turned films larger than a band are whole', async () => {
    const [width, height] = [1500, 1300]
    const large = Uint16Array.from({ length: width * height }, (_, at) => (at * 40503) % 65521)
    for (const orientation of [3, 4, 6, 8]) {
      const strip = new Uint8Array(large.buffer)
      const bytes = handTiff({ widthPx: width, heightPx: height, bits: 16, strip, orientation })
      const turned = await sharp(bytes)
        .autoOrient()
        .toColourspace('grey16')
        .raw({ depth: 'ushort' })
        .toBuffer()
      await withFilm(put('large.tif', bytes), dpi, async ({ film }) => {
        const all = Uint16Array.from(await samplesOf(film))
        expect(Buffer.compare(Buffer.from(all.buffer), turned)).toBe(0)
      })
    }
  })

  test.each([1, 4, 8])(
    'read while it is being decoded it is the same, turned by %i',
    async (orientation) => {
      const [width, height] = [1200, 1000]
      const grey = Uint8Array.from({ length: width * height }, (_, at) => (at * 40503) >> 5)
      const png = await picture(grey, width, height).withMetadata({ orientation }).png().toBuffer()
      const file = put('ahead.png', png)
      const [whole, ahead] = [
        await withFilm(file, dpi, ({ film }) => samplesOf(film)),
        await withFilm(file, { ...dpi, ahead: true }, ({ film }) => samplesOf(film)),
      ]
      expect(Buffer.compare(Buffer.from(ahead), Buffer.from(whole))).toBe(0)
      expect(leftovers()).toEqual([])
    },
  )

  test('of several pages the first is read', async () => {
    const rows = Uint8Array.of(10, 11, 12, 13, 14, 15, 200, 201, 202, 203, 204, 205)
    const pages = sharp(rows, { raw: { width: 3, height: 4, channels: 1, pageHeight: 2 } })
    const tiff = await pages.clone().toColourspace('b-w').tiff({ compression: 'none' }).toBuffer()
    const webp = await pages.clone().webp({ lossless: true }).toBuffer()
    for (const [name, bytes] of [
      ['pages.tif', tiff],
      ['pages.webp', webp],
    ] as const) {
      await withFilm(put(name, bytes), dpi, async ({ film, warnings }) => {
        expect(film.heightPx).toBe(2)
        expect(await samplesOf(film)).toEqual([10, 11, 12, 13, 14, 15])
        expect(warnings).toContainEqual(expect.stringContaining('holds 2 pictures; the first'))
      })
    }
  })
})

describe('closing', () => {
  test('a closed film gives no bands, and closing twice is nothing', async () => {
    const opened = await openFilm(put('close.png', await picture(ramp).png().toBuffer()), dpi)
    await opened.close()
    await opened.close()
    expect(() => opened.film.bands()).toThrow('the film is closed')
    expect(leftovers()).toEqual([])
  })

  test('withFilm closes after a failure of its user', async () => {
    const file = put('use.png', await picture(ramp).png().toBuffer())
    const use = withFilm(file, dpi, () => Promise.reject(new RangeError('user')))
    await expect(use).rejects.toThrow('user')
    expect(leftovers()).toEqual([])
  })
})

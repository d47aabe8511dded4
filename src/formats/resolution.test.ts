import sharp from 'sharp'
import UTIF from 'utif2'
import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { sourceOf } from './bytes.ts'
import { handTiff } from './handTiff.testing.ts'
import { type Resolution, readResolution } from './resolution.ts'

const read = (bytes: Uint8Array): Promise<Resolution | null> => readResolution(sourceOf(bytes))
const grey = () => sharp(new Uint8Array(6).fill(90), { raw: { width: 3, height: 2, channels: 1 } })
const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (of) => of.charCodeAt(0))
const joined = (...parts: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(parts))

/** 300 dots in an inch of 25.4 mm. */
const PER_MM = 300 / 25.4

const is300 = (
  resolution: Resolution | null,
  allowed: Readonly<{ within: number; because: string }>,
): void => {
  expect(resolution).not.toBeNull()
  near(resolution?.horizontalPerMm ?? Number.NaN, PER_MM, allowed)
  near(resolution?.verticalPerMm ?? Number.NaN, PER_MM, allowed)
}
const exact = { within: 1e-12, because: 'whole numbers per inch are kept whole' }

describe('300 dpi as independent writers state it', () => {
  test('PNG by libpng: pixels per metre', async () => {
    const png = await grey().withDensity(300).png().toBuffer()
    is300(await read(png), { within: 0.0006, because: 'pHYs keeps whole pixels per metre' })
  })

  test('JPEG by libjpeg: JFIF and EXIF agree', async () => {
    is300(await read(await grey().withMetadata({ density: 300 }).jpeg().toBuffer()), exact)
  })

  test('WebP by libwebp: the EXIF part after the picture', async () => {
    is300(await read(await grey().withMetadata({ density: 300 }).webp().toBuffer()), exact)
  })

  test.each(['inch', 'cm'] as const)('TIFF by libtiff: per %s', async (resolutionUnit) => {
    const options = { xres: PER_MM, yres: PER_MM, resolutionUnit }
    const because = 'libtiff keeps the figure in 32 bits'
    for (const bigtiff of [false, true]) {
      const tiff = await grey()
        .tiff({ ...options, bigtiff })
        .toBuffer()
      is300(await read(tiff), { within: 2e-6, because })
    }
  })

  test('TIFF by utif2, high byte first: per inch and per cm', async () => {
    const write = (over: number, under: number, unit: number): Uint8Array => {
      const tags = { t282: [[over, under]], t283: [[over, under]], t296: [unit] }
      return new Uint8Array(UTIF.encodeImage(new Uint8Array(24), 3, 2, tags as never))
    }
    const big = write(300, 1, 2)
    expect(String.fromCharCode(...big.subarray(0, 2))).toBe('MM')
    is300(await read(big), exact)
    is300(await read(write(15000, 127, 3)), exact)
    expect(await read(write(300, 1, 1))).toBeNull()
  })
})

describe('the same in bytes laid out after the standards', () => {
  const jfif = (unit: number, x: number, y: number): Uint8Array =>
    joined(
      bytesOf('\xff\xd8\xff\xe0\0\x10JFIF\0\x01\x02'),
      Uint8Array.of(unit, x >> 8, x & 255, y >> 8, y & 255, 0, 0),
      bytesOf('\xff\xd9'),
    )

  test('JFIF: per inch, per cm, an aspect, nothing', async () => {
    is300(await read(jfif(1, 300, 300)), exact)
    const perCm = await read(jfif(2, 118, 59))
    expect(perCm).toEqual({ horizontalPerMm: 11.8, verticalPerMm: 5.9 })
    expect(await read(jfif(0, 1, 1))).toBeNull()
    expect(await read(jfif(1, 0, 0))).toBeNull()
  })

  test('EXIF wins over JFIF, in either byte order and unit, unless it has no unit', async () => {
    const exif = (little: boolean, unit: number, over: number, under: number): Uint8Array => {
      const block = handTiff({
        widthPx: 1,
        heightPx: 1,
        bits: 8,
        strip: new Uint8Array(0),
        little,
        resolution: [over, under, over, under, unit],
      })
      const length = block.length + 8
      const head = joined(bytesOf('\xff\xe1'), Uint8Array.of(length >> 8, length & 255))
      const part = joined(head, bytesOf('Exif\0\0'), block)
      return joined(jfif(1, 72, 72).subarray(0, 20), part, bytesOf('\xff\xd9'))
    }
    is300(await read(exif(true, 2, 300, 1)), exact)
    is300(await read(exif(false, 2, 600, 2)), exact)
    is300(await read(exif(false, 3, 15000, 127)), exact)
    const fallsBack = await read(exif(true, 1, 300, 1))
    near((fallsBack?.horizontalPerMm ?? 0) * 25.4, 72, { ...exact, within: 1e-9 })
  })

  test('PNG: an unknown unit is an aspect, and a count per metre is exact', async () => {
    const png = (unit: number): Uint8Array =>
      joined(
        bytesOf('\x89PNG\r\n\x1a\n'),
        bytesOf('\0\0\0\x04teXt1234....'),
        bytesOf('\0\0\0\x09pHYs'),
        Uint8Array.of(0, 0, 46, 35, 0, 0, 92, 70, unit),
        bytesOf('....\0\0\0\0IEND....'),
      )
    expect(await read(png(1))).toEqual({ horizontalPerMm: 11.811, verticalPerMm: 23.622 })
    expect(await read(png(0))).toBeNull()
  })

  test('TIFF: fractions stay fractions, both sides apart; a zero below is nothing', async () => {
    const tiff = (resolution: readonly [number, number, number, number, number]): Uint8Array =>
      handTiff({ widthPx: 1, heightPx: 1, bits: 8, strip: new Uint8Array(1), resolution })
    const fax = await read(tiff([204, 1, 1961, 10, 2]))
    near(fax?.horizontalPerMm ?? 0, 204 / 25.4, exact)
    near(fax?.verticalPerMm ?? 0, 196.1 / 25.4, exact)
    expect(await read(tiff([300, 0, 300, 1, 2]))).toBeNull()
    expect(await read(tiff([0, 1, 0, 1, 2]))).toBeNull()
    expect(await read(tiff([300, 1, 300, 1, 9]))).toBeNull()
    expect(
      await read(handTiff({ widthPx: 1, heightPx: 1, bits: 8, strip: new Uint8Array(1) })),
    ).toBeNull()
  })

  test('other files and cut heads state nothing', async () => {
    const heads = [
      '',
      'hello',
      'II*\0',
      'II*\0\xff\xff\xff\xff',
      '\x89PNG\r\n\x1a\n',
      '\xff\xd8\xff\xe0',
    ]
    for (const head of heads) expect(await read(bytesOf(head)), JSON.stringify(head)).toBeNull()
    const whole = handTiff({
      widthPx: 3,
      heightPx: 2,
      bits: 8,
      strip: new Uint8Array(6),
      resolution: [300, 1, 300, 1, 2],
    })
    for (let length = 0; length < whole.length - 220; length++) {
      expect(await read(whole.subarray(0, length))).toBeNull()
    }
  })
})

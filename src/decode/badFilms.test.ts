import { chmodSync, mkdirSync, truncateSync } from 'node:fs'
import { crc32, deflateSync } from 'node:zlib'
import sharp, { type Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { type Failure, type FailureKind, isFailure } from '../core/failure.ts'
import { handTiff, packed } from '../formats/handTiff.testing.ts'
import { type FilmOptions, openFilm, withFilm } from './openFilm.ts'
import { samplesOf, temporary } from './temporary.testing.ts'

const { path, put, leftovers } = temporary()
const dpi = { resolutionDpi: 720 }

/** One sentence that names the file and tells what to do; nothing left lying about. */
async function refusal(file: string, options: FilmOptions = dpi): Promise<Failure> {
  const caught: unknown = await withFilm(file, options, ({ film }) => samplesOf(film)).then(
    () => 'it was read',
    (error: unknown) => error,
  )
  if (!isFailure(caught)) throw new Error('expected a Failure', { cause: caught })
  expect(caught.message).toMatch(/^[^\n]+[,;] [^\n]+\.$/)
  expect(caught.message).not.toMatch(/vips|sharp|libpng|errno|undefined|NaN dpi/i)
  expect(leftovers()).toEqual([])
  return caught
}

async function refused(file: string, kind: FailureKind, words: string, options?: FilmOptions) {
  const failure = await refusal(file, options)
  expect([failure.kind, failure.message]).toEqual([kind, expect.stringContaining(words)])
  expect(failure.message).toContain(`"${file}"`)
}

const noise = Uint8Array.from({ length: 300 * 200 }, (_, at) => (at * 2654435761) >>> 24)
const picture = (): Sharp =>
  sharp(noise, { raw: { width: 300, height: 200, channels: 1 } }).toColourspace('b-w')
const bits = (): Sharp =>
  sharp(
    noise.map((value) => (value > 128 ? 255 : 0)),
    {
      raw: { width: 300, height: 200, channels: 1 },
    },
  ).toColourspace('b-w')

describe('what is no film picture', () => {
  test('a missing file, a missing folder, a file taken for a folder', async () => {
    await refused(path('nowhere.png'), 'missing file', 'There is no file')
    await refused(path('no/where.png'), 'missing file', 'check its name and folder')
    await refused(`${put('plain.txt', 'a')}/film.png`, 'missing file', 'There is no file')
    await refused(path(`${'x'.repeat(300)}.png`), 'missing file', 'There is no file')
  })

  test('a folder and a device', async () => {
    mkdirSync(path('folder.png'))
    await refused(path('folder.png'), 'unreadable file', 'is a folder')
    await refused('/dev/null', 'unreadable file', 'is no plain file')
  })

  test.skipIf(process.getuid?.() === 0)(
    'a file that may not be read (the superuser may)',
    async () => {
      const file = put('secret.png', await picture().png().toBuffer())
      chmodSync(file, 0)
      await refused(file, 'unreadable file', 'change its permissions')
    },
  )

  const kinds: readonly (readonly [string, string | Uint8Array, string])[] = [
    ['empty.png', '', 'is empty'],
    ['text.png', 'Dose 43, latitude 2 steps\n', 'is a text'],
    ['pdf.tif', '%PDF-1.4\n%\xe2\xe3\xcf\xd3\n', 'is damaged or no PDF'],
    ['zip.png', 'PK\x03\x04\x14\0\0\0\x08\0', 'is a zip'],
    ['svg.svg', '<svg xmlns="http://www.w3.org/2000/svg" width="3" height="2"/>', 'SVG'],
    ['xml.png', '<?xml version="1.0"?>\n<!-- made by hand -->\n<svg width="3"/>', 'SVG'],
    ['heic.jpg', '\0\0\0\x18ftypheic\0\0\0\0', 'is a HEIC'],
    ['gif.png', 'GIF89a\x01\0\x01\0', 'is a GIF'],
    ['noise.tif', Uint8Array.of(7, 0, 1, 2, 250, 99, 0, 3), 'is no picture'],
    ['head.tif', 'II*\0', 'is damaged, cut off'],
    ['head.png', '\x89PNG\r\n\x1a\n', 'is damaged, cut off'],
    ['head.jpg', '\xff\xd8\xff\xe0', 'is damaged, cut off'],
    ['head.webp', 'RIFF\x10\0\0\0WEBPVP8 ', 'is damaged, cut off'],
  ]
  test.each(kinds)('%s', async (name, bytes, words) => {
    const raw = typeof bytes === 'string' ? Buffer.from(bytes, 'latin1') : bytes
    await refused(put(name, raw), 'unreadable file', words)
  })

  test('a name with a line break stays on its line', async () => {
    const failure = await refusal(put('two\nlines.png', 'text'))
    expect(failure.message).toContain('two?lines.png')
  })
})

describe('cut off or damaged, never read as grey', () => {
  const strip = new Uint8Array(deflateSync(noise, { level: 1 }))
  const of = { widthPx: 300, heightPx: 200, bits: 8, directoryFirst: true }
  const makers: readonly (readonly [string, () => Promise<Uint8Array>])[] = [
    ['PNG', () => picture().png().toBuffer()],
    ['interlaced PNG', () => picture().png({ progressive: true }).toBuffer()],
    ['JPEG', () => picture().jpeg().toBuffer()],
    ['progressive JPEG', () => picture().jpeg({ progressive: true }).toBuffer()],
    ['WebP', () => picture().webp().toBuffer()],
    ['lossless WebP', () => picture().webp({ lossless: true }).toBuffer()],
    ['deflated TIFF', () => picture().tiff({ compression: 'deflate' }).toBuffer()],
    ['Group 4 TIFF', () => bits().tiff({ compression: 'ccittfax4', bitdepth: 1 }).toBuffer()],
    ['plain TIFF, directory first', () => Promise.resolve(handTiff({ ...of, strip: noise }))],
    [
      'deflated TIFF, directory first',
      () => Promise.resolve(handTiff({ ...of, compression: 8, strip })),
    ],
  ]
  describe.each(makers)('%s', (name, make) => {
    test.each([0.5, 0.97])('cut at the share %d', async (share) => {
      const bytes = await make()
      const file = put(`cut-${name}`, bytes.subarray(0, Math.floor(bytes.length * share)))
      await refused(file, 'unreadable file', 'is damaged, cut off')
      await refused(file, 'unreadable file', 'is damaged, cut off', { ...dpi, ahead: true })
    })
  })

  test.each(makers.slice(0, 4))('%s with 200 bytes overwritten', async (name, make) => {
    const bytes = Uint8Array.from(await make())
    // With markers among them: a JPEG has no checksum, and other bytes could be a picture.
    for (let at = 0; at < 200; at++) bytes[(bytes.length >> 1) + at] = (at * 37) & 255
    await refused(put(`hurt-${name}`, bytes), 'unreadable file', 'is damaged')
  })

  test('Group 4 with codes that are none', async () => {
    const bytes = Uint8Array.from(
      await bits().tiff({ compression: 'ccittfax4', bitdepth: 1 }).toBuffer(),
    )
    bytes.fill(0, 100, 300)
    await refused(put('hurt-g4.tif', bytes), 'unreadable file', 'is damaged')
  })
})

describe('too large', () => {
  /** A PNG head of the given size: nothing behind it is looked at before it is refused. */
  const bomb = (width: number, height: number, interlaced = 0): Uint8Array => {
    const chunk = (type: string, data: Uint8Array): Buffer => {
      const body = Buffer.concat([Buffer.from(type), data])
      const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)]
      length.writeUInt32BE(data.length)
      sum.writeUInt32BE(crc32(body))
      return Buffer.concat([length, body, sum])
    }
    const head = Buffer.alloc(13)
    head.writeUInt32BE(width, 0)
    head.writeUInt32BE(height, 4)
    head.set([1, 0, 0, 0, interlaced], 8)
    const signature = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1')
    const data = deflateSync(new Uint8Array(1000))
    return Buffer.concat([
      signature,
      chunk('IHDR', head),
      chunk('IDAT', data),
      chunk('IEND', Buffer.alloc(0)),
    ])
  }

  test('pixels, sides, and less of what must be whole in memory', async () => {
    await refused(put('bomb.png', bomb(60_000, 60_000)), 'too large', 'at most 1500 million')
    await refused(put('ribbon.png', bomb(400_000, 2)), 'too large', '200000 a side')
    const words = 'save it as a plain PNG or TIFF'
    await refused(put('interlaced.png', bomb(15_000, 15_000, 1)), 'too large', words)
  })

  test('a TIFF head that claims 4 000 million pixels', async () => {
    const of = { widthPx: 65_000, heightPx: 65_000, bits: 8, strip: new Uint8Array(9) }
    await refused(put('bomb.tif', handTiff(of)), 'too large', 'at most 1500 million')
  })

  test('bytes', async () => {
    const file = put('long.png', await picture().png().toBuffer())
    truncateSync(file, 513 * 2 ** 20)
    await refused(file, 'too large', 'has 513 MB and 512 MB is the most')
    truncateSync(file, 0)
  })
})

test('no temporary folder is the world, not the film', async () => {
  const file = put('whole.png', await picture().png().toBuffer())
  const before = process.env['TMPDIR']
  process.env['TMPDIR'] = path('gone')
  const caught: unknown = await openFilm(file, dpi).catch((error: unknown) => error)
  process.env['TMPDIR'] = before
  expect(isFailure(caught, 'world failed') && caught.message).toContain('set TMPDIR to another')
})

describe('size unknown or impossible', () => {
  const tiff = (resolution?: readonly [number, number, number, number, number]): string => {
    const of = { widthPx: 2, heightPx: 2, bits: 8, strip: new Uint8Array(4) }
    return put('size.tif', handTiff(resolution === undefined ? of : { ...of, resolution }))
  }
  const cases: readonly (readonly [string, Parameters<typeof tiff>[0], string])[] = [
    ['no resolution', undefined, 'does not state its resolution'],
    ['an aspect only', [1, 1, 1, 1, 1], 'does not state its resolution'],
    ['pixels that are not square', [204, 1, 98, 1, 2], 'not square (204 x 98 dpi)'],
    ['one pixel an inch', [1, 1, 1, 1, 2], 'states 1 dpi, and a film has 50 to 6000 dpi'],
    ['6000 per cm', [6000, 1, 6000, 1, 3], 'states 15240 dpi'],
  ]
  test.each(cases)('%s', async (_, resolution, words) => {
    const failure = await refusal(tiff(resolution), {})
    expect([failure.kind, failure.field]).toEqual(['wrong input', 'resolutionDpi'])
    expect(failure.message).toContain(words)
    expect(failure.message).toContain('--resolution-dpi')
  })

  test('all of them are read once the resolution is given', async () => {
    for (const [, resolution] of cases) {
      await withFilm(tiff(resolution), dpi, ({ film, warnings }) => {
        expect(film.pixelUm).toBe(25400 / 720)
        expect(warnings.length).toBe(resolution === undefined || resolution[4] === 1 ? 0 : 1)
        return Promise.resolve()
      })
    }
  })
})

test('options out of range are refused by name before the file is opened', async () => {
  const options: readonly (readonly [FilmOptions, string])[] = [
    ...[Number.NaN, -720, 0, 49, 6001, Infinity].map(
      (resolutionDpi) => [{ resolutionDpi }, 'resolutionDpi'] as const,
    ),
    ...[Number.NaN, 0, -1, 0.2, 6.1].map(
      (solidDensity) => [{ solidDensity }, 'solidDensity'] as const,
    ),
  ]
  for (const [option, field] of options) {
    const caught: unknown = await openFilm(path('nowhere.png'), option).catch(
      (error: unknown) => error,
    )
    expect(isFailure(caught, 'wrong input') && caught.field, JSON.stringify(option)).toBe(field)
  }
})

describe('samples that mean nothing here', () => {
  const raw = { width: 4, height: 3, channels: 4 } as const
  const four = (): Sharp => sharp(new Uint8Array(48).fill(60), { raw })
  const hand = (of: {
    bits: number
    sampleFormat: number
    channels?: number
    photometric?: number
  }) => put('kind.tif', handTiff({ widthPx: 2, heightPx: 1, strip: new Uint8Array(64), ...of }))

  test('CMYK', async () => {
    const tiff = await four()
      .removeAlpha()
      .toColourspace('cmyk')
      .tiff({ compression: 'none' })
      .toBuffer()
    const jpeg = await four().removeAlpha().toColourspace('cmyk').jpeg().toBuffer()
    await refused(put('cmyk.tif', tiff), 'unreadable file', 'is a CMYK picture')
    await refused(put('cmyk.jpg', jpeg), 'unreadable file', 'is a CMYK picture')
  })

  test('32-bit and signed whole numbers, 64-bit floats, floats in three channels', async () => {
    await refused(hand({ bits: 32, sampleFormat: 1 }), 'unreadable file', 'rare kind')
    await refused(hand({ bits: 16, sampleFormat: 2 }), 'unreadable file', 'rare kind')
    await refused(hand({ bits: 64, sampleFormat: 3 }), 'unreadable file', 'rare kind')
    const three = hand({ bits: 32, sampleFormat: 3, channels: 3, photometric: 2 })
    await refused(three, 'unreadable file', 'a density map has one')
  })

  test('five channels', async () => {
    const five = hand({ bits: 8, sampleFormat: 1, channels: 5, photometric: 2 })
    await refused(five, 'unreadable file', 'holds 5 channels')
  })

  const values: readonly number[] = [Number.NaN, Infinity, -Infinity, -0.2, 10.5, 3e38]
  test.each(values)('a density of %d, with its place', async (value) => {
    const densities = [0, 1, 2, 0.5, value, 3]
    const of = { widthPx: 3, heightPx: 2, bits: 32, sampleFormat: 3, strip: packed(densities, 32) }
    const file = put('map.tif', handTiff(of))
    // At 127 dpi a pixel is 0.2 mm: the middle of the second is 0.3 mm from the edge.
    const place = 'at 0.30 mm from the left and 0.30 mm from the top'
    await refused(file, 'unreadable file', place, { resolutionDpi: 127 })
  })
})

import { crc32, deflateSync } from 'node:zlib'
import sharp, { type Sharp } from 'sharp'
import { handTiff, packed } from '../../src/formats/handTiff.testing.ts'

/** A file that is no film: what it is called, and what the sentence about it says. */
export type BadFilm = Readonly<{
  name: string
  bytes: () => Promise<Uint8Array>
  words: string
  /** What is said with it. */
  query: string
}>

const noise = Uint8Array.from({ length: 300 * 200 }, (_, at) => (at * 2654435761) >>> 24)
const grey = (): Sharp =>
  sharp(noise, { raw: { width: 300, height: 200, channels: 1 } }).toColourspace('b-w')
const cut = async (bytes: Promise<Uint8Array>): Promise<Uint8Array> => {
  const whole = await bytes
  return whole.subarray(0, Math.floor(whole.length / 2))
}
const latin = (text: string): Promise<Uint8Array> => Promise.resolve(Buffer.from(text, 'latin1'))
const tiff = (of: Partial<Parameters<typeof handTiff>[0]>): Promise<Uint8Array> =>
  Promise.resolve(handTiff({ widthPx: 2, heightPx: 2, bits: 8, strip: new Uint8Array(64), ...of }))

/** A PNG head that claims so many pixels, and hardly any behind it. */
function bomb(width: number, height: number): Promise<Uint8Array> {
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
  head.set([1, 0, 0, 0, 0], 8)
  const data = deflateSync(new Uint8Array(1000))
  const parts = [chunk('IHDR', head), chunk('IDAT', data), chunk('IEND', Buffer.alloc(0))]
  return Promise.resolve(Buffer.concat([Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'), ...parts]))
}

/** A film that can be read. */
export function goodFilm(): Promise<Uint8Array> {
  return grey().png().toBuffer()
}

const densities = packed([0, 1, Number.NaN, 0.5], 32)
const KINDS: readonly (readonly [string, () => Promise<Uint8Array>, string, string?])[] = [
  ['nothing.png', () => latin(''), 'is empty'],
  ['text.png', () => latin('Dose 43, latitude 2 steps\n'), 'is a text'],
  ['page.tif', () => latin('%PDF-1.4\n%\xe2\xe3\xcf\xd3\n'), 'is damaged or no PDF'],
  ['office.png', () => latin('PK\x03\x04\x14\0\0\0\x08\0'), 'is a zip'],
  ['drawing.svg', () => latin('<svg xmlns="http://www.w3.org/2000/svg"/>'), 'SVG'],
  ['phone.jpg', () => latin('\0\0\0\x18ftypheic\0\0\0\0'), 'is a HEIC'],
  ['moving.png', () => latin('GIF89a\x01\0\x01\0'), 'is a GIF'],
  ['noise.tif', () => tiff({}).then(() => noise.slice(0, 90)), 'is no picture'],
  ['head.tif', () => latin('II*\0'), 'is damaged, cut off'],
  ['head.png', () => latin('\x89PNG\r\n\x1a\n'), 'is damaged, cut off'],
  ['head.jpg', () => latin('\xff\xd8\xff\xe0'), 'is damaged, cut off'],
  ['head.webp', () => latin('RIFF\x10\0\0\0WEBPVP8 '), 'is damaged, cut off'],
  ['half.png', () => cut(grey().png().toBuffer()), 'is damaged, cut off'],
  ['half.jpg', () => cut(grey().jpeg().toBuffer()), 'is damaged, cut off'],
  ['half.webp', () => cut(grey().webp().toBuffer()), 'is damaged, cut off'],
  ['half.tif', () => cut(grey().tiff({ compression: 'deflate' }).toBuffer()), 'is damaged'],
  ['bomb.png', () => bomb(60_000, 60_000), 'at most 1500 million'],
  ['ribbon.png', () => bomb(400_000, 2), '200000 a side'],
  ['bomb.tif', () => tiff({ widthPx: 65_000, heightPx: 65_000 }), 'at most 1500 million'],
  ['cmyk.tif', () => grey().toColourspace('cmyk').tiff().toBuffer(), 'is a CMYK picture'],
  ['signed.tif', () => tiff({ bits: 16, sampleFormat: 2 }), 'rare kind'],
  ['five.tif', () => tiff({ channels: 5, photometric: 2 }), 'holds 5 channels'],
  ['map.tif', () => tiff({ bits: 32, sampleFormat: 3, strip: densities }), 'densities are'],
  ['no size.tif', () => tiff({}), 'give it in pixels per inch', ''],
  ['oblong.tif', () => tiff({ resolution: [204, 1, 98, 1, 2] }), 'not square', ''],
]

export const badFilms: readonly BadFilm[] = KINDS.map(
  ([name, bytes, words, query = '?resolutionDpi=720']) => ({ name, bytes, words, query }),
)

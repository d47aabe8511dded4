import { deflateSync } from 'node:zlib'
import sharp, { type Sharp } from 'sharp'
import { handTiff, packed } from '../formats/handTiff.testing.ts'
import { latin, pngClaiming } from './artworkFiles.testing.ts'

/** A file, its bytes, and words of the sentence about it. */
export type BadArtwork = readonly [
  name: string,
  bytes: () => Uint8Array | Promise<Uint8Array>,
  words: string,
]

const noise = Uint8Array.from({ length: 120 * 80 * 3 }, (_, at) => (at * 2_654_435_761) >>> 24)
const rgb = (): Sharp => sharp(noise, { raw: { width: 120, height: 80, channels: 3 } })
const half = (bytes: Uint8Array): Uint8Array => bytes.subarray(0, Math.floor(bytes.length / 2))
const tiff = (of: Partial<Parameters<typeof handTiff>[0]>): Uint8Array =>
  handTiff({ widthPx: 4, heightPx: 4, bits: 8, strip: new Uint8Array(256), ...of })

/** One field of a TIFF's directory changed, by its number. */
function withField(bytes: Uint8Array, field: number, value: number): Uint8Array {
  const copy = bytes.slice()
  const view = new DataView(copy.buffer, copy.byteOffset)
  const directory = view.getUint32(4, true)
  for (let at = 0; at < view.getUint16(directory, true); at++) {
    const place = directory + 2 + 12 * at
    if (view.getUint16(place, true) === field) view.setUint32(place + 8, value, true)
  }
  return copy
}

export const BAD_PICTURES: readonly BadArtwork[] = [
  ['empty.png', () => latin(''), 'is empty'],
  ['text.svg', () => latin('Dose 43, latitude 2 steps\n'), 'is a text'],
  ['moving.gif', () => latin('GIF89a\x01\0\x01\0'), 'is a GIF'],
  ['phone.jpg', () => latin('\0\0\0\x18ftypheic\0\0\0\0'), 'is a HEIC'],
  ['noise.tif', () => noise.slice(3, 90), 'is no artwork'],
  ['head.png', () => latin('\x89PNG\r\n\x1a\n'), 'is damaged'],
  ['head.jpg', () => latin('\xff\xd8\xff\xe0'), 'is damaged'],
  ['head.webp', () => latin('RIFF\x10\0\0\0WEBPVP8 '), 'is damaged'],
  ['head.tif', () => latin('II*\0'), 'is damaged'],
  ['half.png', async () => half(await rgb().png().toBuffer()), 'is damaged'],
  ['half.jpg', async () => half(await rgb().jpeg().toBuffer()), 'is damaged'],
  ['half.webp', async () => half(await rgb().webp().toBuffer()), 'is damaged'],
  ['half.tif', async () => half(await rgb().tiff().toBuffer()), 'is damaged'],
  ['nothing-by-nothing.png', () => pngClaiming([0, 0]), 'is damaged'],
  ['few-rows.png', () => pngClaiming([300, 200]), 'is damaged'],
  ['billions.png', () => pngClaiming([90_000, 90_000]), 'million in all'],
  ['interlaced.png', () => pngClaiming([20_000, 20_000], { interlaced: 1 }), '150 million'],
  ['endless-row.png', () => pngClaiming([900_000, 2]), 'a side are the most'],
  ['no-palette.png', () => pngClaiming([30, 20], { colour: 3 }), 'is damaged'],
  ['no-such-colour.png', () => pngClaiming([30, 20], { colour: 5 }), 'is damaged'],
  ['nothing-by-nothing.tif', () => tiff({ widthPx: 0, heightPx: 0 }), 'is damaged'],
  ['lying-strip.tif', () => withField(tiff({}), 273, 0x7fff_ffff), 'is damaged'],
  [
    'endless.tif',
    () => withField(withField(tiff({}), 256, 0x7fff_ffff), 257, 0x7fff_ffff),
    'is damaged',
  ],
  [
    'float.tif',
    () =>
      tiff({
        bits: 32,
        sampleFormat: 3,
        strip: packed(
          Array.from({ length: 16 }, () => 0.5),
          32,
        ),
      }),
    'rare kind',
  ],
  ['signed.tif', () => tiff({ bits: 16, sampleFormat: 2, strip: new Uint8Array(32) }), 'rare kind'],
  ['six-channels.tif', () => tiff({ channels: 6, photometric: 2 }), 'is damaged'],
  ['unknown-packing.tif', () => tiff({ compression: 34_712 }), 'is damaged'],
  [
    'torn-packing.tif',
    () => tiff({ compression: 8, strip: deflateSync(noise).subarray(0, 40) }),
    'is damaged',
  ],
]

import { type Zippable, zipSync } from 'fflate'
import sharp from 'sharp'
import { latin, pngClaiming } from './artworkFiles.testing.ts'
import type { BadArtwork } from './badPictures.testing.ts'

/** A square of one colour as a PNG; the fourth part is alpha. */
export async function square(
  [r, g, b, alpha]: readonly [number, number, number, number],
  side = 10,
): Promise<Uint8Array> {
  const background = { r, g, b, alpha }
  return new Uint8Array(
    await sharp({ create: { width: side, height: side, channels: 4, background } })
      .png()
      .toBuffer(),
  )
}

/** An OpenRaster file: a list of layers, and the files that it names. */
export function openRaster(
  layers: string,
  files: Readonly<Record<string, Uint8Array>> = {},
  image = 'w="30" h="20" xres="72" yres="72"',
): Uint8Array {
  return zipSync({
    mimetype: [latin('image/openraster'), { level: 0 }],
    'stack.xml': latin(`<?xml version="1.0"?><image ${image}><stack>${layers}</stack></image>`),
    ...files,
  } satisfies Zippable)
}

const LAYER = '<layer name="one" src="data/one.png"/>'

/** A zip whose lists claim another length of its last file. */
function lying(bytes: Uint8Array, length: number): Uint8Array {
  const copy = Buffer.from(bytes)
  copy.writeUInt32LE(length, copy.lastIndexOf('PK\x01\x02', undefined, 'latin1') + 24)
  return copy
}

export const BAD_LAYERS: readonly BadArtwork[] = [
  ['office.ora', () => zipSync({ 'word.xml': latin('<a/>') }), 'is a zip or office file'],
  ['head.ora', () => latin('PK\x03\x04\x14\0\0\0\x08\0'), 'is a zip that cannot be unpacked'],
  ['half.ora', () => openRaster(LAYER).subarray(0, 120), 'is a zip that cannot be unpacked'],
  [
    'no-list.ora',
    () => zipSync({ mimetype: latin('image/openraster') }),
    'without a list of layers',
  ],
  ['torn-list.ora', () => openRaster('</stack></stack>'), 'groups that do not close'],
  ['no-size.ora', () => openRaster('', {}, 'w="0" h="0"'), 'states no size'],
  // what a search that begins anew at each sign would be at for hours
  [
    'comments-that-never-end.ora',
    () => openRaster(`</stack></stack>${'<!--'.repeat(900_000)}`),
    'groups that do not close',
  ],
  ['entities.ora', () => openRaster('<!ENTITY a "b">'), 'entities'],
  ['endless.ora', () => openRaster('', {}, 'w="100000" h="100000"'), '100 million'],
  ['deep.ora', () => openRaster(`${'<stack>'.repeat(40)}${'</stack>'.repeat(40)}`), '32 deep'],
  ['300-layers.ora', () => openRaster(LAYER.repeat(300)), '200 are the most'],
  ['missing-layer.ora', () => openRaster(LAYER), 'does not hold its layer'],
  [
    'layer-elsewhere.ora',
    () => openRaster('<layer src="../../etc/hostname"/>'),
    'does not hold its layer',
  ],
  [
    'layer-of-text.ora',
    () => openRaster(LAYER, { 'data/one.png': latin('words') }),
    'is no picture',
  ],
  [
    'layer-of-drawing.ora',
    () =>
      openRaster(LAYER, {
        'data/one.png': latin('<svg xmlns="http://www.w3.org/2000/svg" width="3" height="2"/>'),
      }),
    'is no PNG',
  ],
  [
    'layer-bomb.ora',
    () => openRaster(LAYER, { 'data/one.png': pngClaiming([30_000, 30_000]) }),
    '100 million pixels',
  ],
  [
    'half-layer.ora',
    async () =>
      openRaster(LAYER, { 'data/one.png': (await square([255, 0, 0, 1], 40)).subarray(0, 60) }),
    'layer "one"',
  ],
  [
    'zeros.ora',
    async () =>
      lying(openRaster(LAYER, { 'data/one.png': await square([255, 0, 0, 1]) }), 0x7fff_ffff),
    'holds too much of it',
  ],
]

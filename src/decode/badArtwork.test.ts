import { createServer } from 'node:net'
import sharp, { type Sharp } from 'sharp'
import { describe, expect, test } from 'vitest'
import { isFailure } from '../core/failure.ts'
import { filmSize } from '../workflow/makeFilms/filmSize.ts'
import { openArtwork } from './artwork.ts'
import { latin, pdfPage, pdfStream, svgFile } from './artworkFiles.testing.ts'
import { BAD_DRAWINGS, ODD_DRAWINGS } from './badDrawings.testing.ts'
import { BAD_LAYERS, openRaster, square } from './badLayers.testing.ts'
import { BAD_PAGES, ODD_PAGES } from './badPages.testing.ts'
import { BAD_PICTURES } from './badPictures.testing.ts'
import { temporary } from './temporary.testing.ts'

const { path, put, leftovers } = temporary()

/** These would never end; the others take the time they need. */
const HANGS = /pattern-in-itself|forms-tenfold/
const PATIENCE_MS = 300

type Taken = Readonly<{ warnings: readonly string[]; samples: readonly Uint8Array[] }>

/** All of an artwork as a film of its own size, or 30 mm wide where it states none. */
async function taken(file: string): Promise<Taken> {
  const opened = await openArtwork(file, HANGS.test(file) ? { patienceMs: PATIENCE_MS } : {})
  try {
    const size = filmSize(
      {
        size:
          opened.widthMm === null ? { kind: 'width', widthMm: 30 } : { kind: 'scale', scale: 1 },
        resolutionDpi: 50,
      },
      opened,
    )
    const film = { ...size, keepsCmyk: false, inks: ['black'] }
    const samples: Uint8Array[] = []
    for await (const band of (await opened.samples(film)).bands())
      samples.push(band.samples.slice())
    return { warnings: opened.warnings, samples }
  } finally {
    await opened.close()
  }
}

const LISTS = { BAD_PICTURES, BAD_DRAWINGS, BAD_PAGES, BAD_LAYERS }

test('there are more than 60 kinds of it', () => {
  const names = Object.values(LISTS).flatMap((list) => list.map(([name]) => name))
  expect(new Set(names).size).toBe(names.length)
  expect(names.length).toBeGreaterThan(60)
})

describe.each(Object.entries(LISTS))('%s: each gets one sentence and leaves nothing', (_, list) => {
  test.each(list)('%s', async (name, bytes, words) => {
    const file = put(name, await bytes())
    const caught: unknown = await taken(file).then(
      () => 'it was read',
      (error: unknown) => error,
    )
    if (!isFailure(caught)) throw new Error(`${name}: expected a Failure`, { cause: caught })
    expect(caught.message).toContain(words)
    expect(caught.message).toMatch(/^[^\n]+[,;] [^\n]+\.$/)
    expect(caught.message).not.toMatch(/vips|sharp|libpng|pdfium|undefined|NaN|\be\+/i)
    expect(leftovers().filter((left) => !left.startsWith('yellowroom-fonts-'))).toEqual([])
  })
})

test.each([...ODD_DRAWINGS, ...ODD_PAGES])(
  'odd and read all the same: %s',
  async (name, bytes, words) => {
    const { warnings, samples } = await taken(put(name, await bytes()))
    expect(samples.length).toBeGreaterThan(0)
    expect(warnings.join(' ')).toContain(words)
  },
)

/** A JPEG with the head of a profile that speaks of such colours. */
function withProfile(jpeg: Uint8Array, colours: string): Uint8Array {
  const profile = Buffer.alloc(132)
  profile.writeUInt32BE(profile.length, 0)
  profile.write(colours, 16, 'latin1')
  profile.write('acsp', 36, 'latin1')
  const body = Buffer.concat([latin('ICC_PROFILE\0\x01\x01'), profile])
  const length = Buffer.alloc(2)
  length.writeUInt16BE(body.length + 2)
  return Buffer.concat([jpeg.subarray(0, 2), latin('\xff\xe2'), length, body, jpeg.subarray(2)])
}

describe('what is read with a sentence', () => {
  const raw = { width: 12, height: 8, channels: 4 } as const
  const rgba = (): Sharp => sharp(new Uint8Array(12 * 8 * 4).fill(128), { raw })
  const cases: readonly (readonly [string, () => Promise<Uint8Array>, string])[] = [
    ['no profile', () => rgba().png().toBuffer(), 'taken as sRGB'],
    ['alpha', () => rgba().png().toBuffer(), 'laid on white'],
    ['grey and alpha', () => rgba().toColourspace('b-w').png().toBuffer(), 'laid on white'],
    ['16 bit', () => rgba().toColourspace('rgb16').png().toBuffer(), 'laid on white'],
    [
      'CMYK without a profile',
      () => rgba().removeAlpha().toColourspace('cmyk').tiff().toBuffer(),
      'CMYK without a profile',
    ],
    [
      'a profile of other inks',
      async () => withProfile(await rgba().removeAlpha().jpeg().toBuffer(), 'CMYK'),
      'does not fit it',
    ],
    ['letters', () => Promise.resolve(svgFile('<text y="9">a</text>')), 'turn text to outlines'],
    [
      'unknown laying',
      async () =>
        openRaster('<layer src="data/a.png" composite-op="svg:hue"/>', {
          'data/a.png': await square([255, 0, 0, 1]),
        }),
      'laid plainly',
    ],
  ]
  test.each(cases)('%s', async (name, bytes, words) => {
    const { warnings } = await taken(put(`said-${name}`, await bytes()))
    expect(warnings.join(' ')).toContain(words)
  })
})

test('nothing in artwork is read from other files or fetched from the network', async () => {
  const canary = put('canary.png', await square([255, 0, 255, 1]))
  put('canary.svg', svgFile('<path id="all" d="M0 0h30v20h-30z" fill="#f0f"/>'))
  let calls = 0
  const server = createServer((socket) => {
    calls += 1
    socket.destroy()
  })
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const address = server.address()
  const net = `http://127.0.0.1:${typeof address === 'object' ? address?.port : 0}/canary.png`
  const image = (href: string): string => `<image width="30" height="20" href="${href}"/>`
  const data = (bytes: Uint8Array): string =>
    `data:image/svg+xml;base64,${Buffer.from(bytes).toString('base64')}`
  const places = [canary, `file://${canary}`, net, 'canary.png', './canary.png']
  const drawings = [
    ...places.flatMap((place) => [
      svgFile(image(place)),
      svgFile(image(data(svgFile(image(place))))),
      svgFile(
        image(
          `data:image/svg+xml,${encodeURIComponent(Buffer.from(svgFile(image(place))).toString())}`,
        ),
      ),
      svgFile(image(place.replaceAll('/', '&#x2f;').replaceAll('.', '&#46;'))),
      svgFile(
        `<style>@font-face { font-family: a; src: url(${place}) } text { font-family: a }</style><text y="9">a</text>`,
      ),
      latin(`<!DOCTYPE svg SYSTEM "${place}">${Buffer.from(svgFile('')).toString()}`),
      latin(`<?xml-stylesheet href="${place}"?>${Buffer.from(svgFile('')).toString()}`),
    ]),
    svgFile(`<use href="${path('canary.svg')}#all"/>`),
    svgFile('<use href="canary.svg#all"/>'),
    svgFile(`<script href="${net}"/><path d="M0 0h1v1z"/>`),
  ]
  const pages = places.flatMap((place) => {
    const file = `/F << /Type /Filespec /FS /${place.startsWith('http') ? 'URL' : 'File'} /F (${place}) >>`
    return [
      pdfPage('90 0 0 70 0 0 cm /I Do', {
        resources: '/XObject << /I 5 0 R >>',
        more: [
          pdfStream(
            '',
            `/Type /XObject /Subtype /Image /Width 10 /Height 10 /BitsPerComponent 8 /ColorSpace /DeviceRGB ${file}`,
          ),
        ],
      }),
      pdfPage('', { page: `/MediaBox [0 0 100 80] /AA << /O << /S /URI /URI (${place}) >> >>` }),
    ]
  })
  const layers = places.map((place) => openRaster(`<layer src="${place}"/>`))
  const kinds = { svg: drawings, pdf: pages, ora: layers }
  const read: string[] = []
  for (const [kind, files] of Object.entries(kinds)) {
    for (const [at, bytes] of files.entries()) {
      const name = put(`asks-${at}.${kind}`, bytes)
      const { samples } = await taken(name).catch((error: unknown) => {
        if (isFailure(error)) return { samples: [] }
        throw error
      })
      const isSeen = samples.some((band) =>
        band.some((red, place) => place % 3 === 0 && red > 200 && (band[place + 1] ?? 255) < 60),
      )
      if (isSeen) read.push(name)
    }
  }
  await new Promise((done) => server.close(done))
  expect(read).toEqual([])
  expect(calls).toBe(0)
  // the canary itself is seen where it is given
  const { samples } = await taken(canary)
  expect([...(samples[0] ?? []).subarray(0, 3)]).toEqual([255, 0, 255])
})

import { readFile } from 'node:fs/promises'
import { crc32, deflateSync } from 'node:zlib'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { densityTiff } from '../../fixtures/photos/densityTiff.ts'
import { drawnFilm, type FilmDensities, patchFilm } from '../../fixtures/photos/film.ts'
import { type FilmTruth, photoOfFilm } from '../../fixtures/photos/photoOfFilm.ts'
import { photoOfScreen } from '../../fixtures/photos/photoOfScreen.ts'
import { photoOfWedge } from '../../fixtures/photos/photoOfWedge.ts'
import type { Film } from '../../src/api/films.ts'
import type { LightAnswer } from '../../src/api/light.ts'
import { filmPath, PATHS, photoAskPath, photoFilmPath, photoPath } from '../../src/api/paths.ts'
import { type Photo, type PhotoFilm, photo as photoSchema } from '../../src/api/photos.ts'
import { choices, refusal } from '../../src/api/shop.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { type Room, room } from './room.ts'
import { PENCIL, readyForecast, sent, settledFilm, until } from './shopRoom.ts'

let shop: Room
beforeAll(async () => {
  shop = await room()
  await shop.ask(PATHS.ownShop, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: '{"fabric":"90-48","colour":"white"}',
  })
})
afterAll(() => shop.close())

/** What the shop answers to a photo's file. */
function bring(
  name: string,
  bytes: Uint8Array,
  { query = '?subject=film', headers = {} } = {},
): Promise<Response> {
  return shop.ask(`${PATHS.photos}${query}`, {
    method: 'POST',
    headers: { 'x-file-name': encodeURIComponent(name), ...headers },
    body: new Uint8Array(bytes),
  })
}

/** The photo when nothing more is done with it. */
async function settled(response: Response): Promise<Photo> {
  const { id } = photoSchema.parse(await response.json())
  return until(async () => {
    const photo = photoSchema.parse(await (await shop.ask(photoPath(id))).json())
    return photo.status === 'waiting' || photo.status === 'reading' ? null : photo
  }, `photo ${id}`)
}

const json = (body: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
})

async function askedAgain(photo: Photo, ask: unknown): Promise<Photo> {
  return settled(await shop.ask(photoAskPath(photo.id), json(ask)))
}

async function filmFrom(photo: Photo, ask: PhotoFilm): Promise<Film> {
  const response = await shop.ask(photoFilmPath(photo.id), json(ask))
  expect(response.status).toBe(201)
  return settledFilm(shop.ask, ((await response.json()) as Film).id)
}

/** A plain picture: dark at the left, clear at the right. */
function halves(widthPx: number, heightPx: number) {
  const dark = {
    create: { width: Math.ceil(widthPx / 2), height: heightPx, channels: 3, background: '#202020' },
  } as const
  return sharp({
    create: { width: widthPx, height: heightPx, channels: 3, background: '#e8e8e0' },
  }).composite([{ input: dark, left: 0, top: 0 }])
}

describe('a photo that came', () => {
  test('is shown upright as its camera meant it, made small, with the size of the whole', async () => {
    // EXIF orientation 6: the picture's top is at the right; upright it is turned clockwise
    const bytes = await halves(2400, 1600).jpeg().withMetadata({ orientation: 6 }).toBuffer()
    const photo = await settled(await bring('heron on glass.jpg', bytes))
    expect([photo.name, photo.widthPx, photo.heightPx]).toEqual(['heron on glass.jpg', 1600, 2400])
    const response = await shop.ask(photo.preview ?? '')
    expect(response.headers.get('content-type')).toBe('image/jpeg')
    const shown = sharp(Buffer.from(await response.arrayBuffer()))
    const { width, height } = await shown.metadata()
    expect([width, height]).toEqual([1333, 2000])
    const { data, info } = await shown.greyscale().raw().toBuffer({ resolveWithObject: true })
    const at = (x: number, y: number): number => data[y * info.width + x] ?? 0
    expect(at(600, 100)).toBeLessThan(60) // its left side, dark, is at the top now
    expect(at(600, 1900)).toBeGreaterThan(200)
    const etag = response.headers.get('etag') ?? ''
    const again = await shop.ask(photo.preview ?? '', { headers: { 'if-none-match': etag } })
    expect(again.status).toBe(304)
  })

  test('is forgotten, and then there is no such photo', async () => {
    const photo = await settled(await bring('gone.jpg', await halves(400, 300).jpeg().toBuffer()))
    expect((await shop.ask(photoPath(photo.id), { method: 'DELETE' })).status).toBe(204)
    const gone = await shop.ask(photoPath(photo.id))
    expect(gone.status).toBe(404)
    expect(refusal.parse(await gone.json()).error.message).toContain('There is no such photo')
  })
})

describe('what is no photo gets one sentence', () => {
  const cases: readonly (readonly [string, () => Promise<Uint8Array>, RegExp])[] = [
    ['empty.jpg', async () => new Uint8Array(0), /"empty.jpg" is empty; /],
    ['letter.txt', async () => Buffer.from('Dear all, the lamp is new.'), /is a text; /],
    ['page.pdf', async () => Buffer.from('%PDF-1.7\n'), /is a PDF and no picture; export/],
    ['phone.heic', async () => heic(), /is a HEIC or AVIF photo, which cannot be read; /],
    [
      'cut.jpg',
      async () => (await readJpeg()).subarray(0, 40_000),
      /damaged or broke off on its way; /,
    ],
    [
      'stamp.jpg',
      async () => halves(120, 90).jpeg().toBuffer(),
      /only 120 by 90 pixels, .*; take the photo itself/,
    ],
    ['huge.png', async () => bigHead(9000, 7000), /63 million pixels and 60 million is the most; /],
  ]
  test.each(cases)('%s', async (name, make, says) => {
    const photo = await settled(await bring(name, await make()))
    expect([photo.status, photo.preview, photo.widthPx]).toEqual(['failed', null, null])
    expect(photo.message).toMatch(says)
    expect(photo.message).toMatch(/^[^\n]*[.]$/)
    expect(photo.message).not.toContain(shop.folder)
  })

  test('a file of more than 80 MB is refused by its head alone', async () => {
    const headers = { 'content-length': String(81 * 2 ** 20) }
    const response = await bring('long.jpg', new Uint8Array(10), { headers })
    expect(response.status).toBe(413)
    expect(refusal.parse(await response.json()).error.message).toContain('80 MB')
  })

  test('a file that broke off on its way is not taken', async () => {
    const headers = { 'content-length': '1000' }
    const response = await bring('short.jpg', new Uint8Array(10), { headers })
    expect(response.status).toBe(422)
    expect(refusal.parse(await response.json()).error.message).toContain('send it again')
  })
})

describe('what is asked of a photo', () => {
  test.each([
    ['?subject=portrait', 'subject'],
    ['?subject=screen', 'film'],
    ['', 'subject'],
  ])('of %s one field is wrong', async (query, field) => {
    const response = await bring('a.jpg', await halves(400, 300).jpeg().toBuffer(), { query })
    expect(response.status).toBe(422)
    expect(refusal.parse(await response.json()).error.field).toBe(field)
  })

  test('a screen needs a film that is there', async () => {
    const query = `?subject=screen&film=${'0'.repeat(26)}`
    expect((await bring('a.jpg', await readJpeg(), { query })).status).toBe(404)
  })

  test('three corners are none', async () => {
    const photo = await settled(await bring('c.jpg', await halves(400, 300).jpeg().toBuffer()))
    const three = [1, 2, 3].map((x) => ({ x, y: 1 }))
    const response = await shop.ask(photoAskPath(photo.id), json({ corners: three }))
    expect(response.status).toBe(422)
    expect(refusal.parse(await response.json()).error.field).toContain('corners')
  })
})

describe('a photo of a film on a light table', () => {
  const drawing = patchFilm({ seed: 3, pixelUm: 160 })
  let photo: Photo
  let plain: Film
  let truth: FilmTruth

  beforeAll(async () => {
    const camera = { widthPx: 1600, heightPx: 1200 }
    const made = await photoOfFilm({ film: drawing, seed: 4, camera })
    truth = made.truth
    photo = await settled(await bring('patches.jpg', made.jpeg))
  })

  test('without mat or corners is shown, and one sentence says what to do', () => {
    expect([photo.status, photo.reading]).toEqual(['seen', null])
    expect(photo.preview).not.toBeNull()
    expect(photo.message).toMatch(/^No reading mat is seen[^\n]*[.]$/)
    expect(photo.message).not.toContain('--')
  })

  test('by its corners and its wedge has its true size and densities, and becomes a film', async () => {
    const { widthMm, heightMm, wedgeEnds, corners } = truth
    photo = await askedAgain(photo, { corners, sizeMm: { widthMm, heightMm }, wedge: wedgeEnds })
    expect([photo.message, photo.status]).toEqual([null, 'done'])
    const reading = photo.reading
    near(reading?.widthMm ?? 0, widthMm, {
      within: 0.2,
      because: 'its size is told with its corners',
    })
    expect(reading?.densitySd).toBeLessThan(0.2)
    plain = await filmFrom(photo, { mirrored: false })
    const film = plain
    expect([film.status, film.name]).toEqual(['ready', 'patches'])
    near(film.widthMm ?? 0, widthMm, {
      within: 0.2,
      because: 'a film is as large as its photo says',
    })
    expect(film.warnings).toEqual([])
  })

  test('says what its marks look like, of the shop’s own media, and is made with what is chosen', async () => {
    const { looksLike } = photo.reading ?? {}
    expect(looksLike?.says).toMatch(/^Looks like /)
    const { media } = choices.parse(await (await shop.ask(PATHS.choices)).json())
    const named = media.find(({ name }) => name === looksLike?.media[0]?.name)
    expect(named).toBeDefined()
    const film = await filmFrom(photo, { mirrored: false, medium: named?.id ?? '' })
    expect(film.medium).toBe(named?.id)
    const { densitySd, smallestLineUm, densityRange } = photo.reading ?? {}
    const wedge = true
    expect(film.byPhoto).toEqual({ densitySd, smallestLineUm, densityRange, wedge, looksLike })
    const doseIn = async (medium: string): Promise<number> => {
      const { id = '' } = media.find(({ name }) => name === medium) ?? {}
      const change = { ...json({ medium: id }), method: 'PATCH' }
      expect(((await (await shop.ask(filmPath(film.id), change)).json()) as Film).medium).toBe(id)
      await readyForecast(shop.ask, film.id)
      const light = (await (await shop.ask(`${PATHS.light}?film=${film.id}`)).json()) as LightAnswer
      return light.dose.value
    }
    expect(await doseIn('cut masking film')).toBeGreaterThan(await doseIn('graphite wash'))
    const ask = json({ mirrored: false, medium: '0'.repeat(26) })
    expect((await shop.ask(photoFilmPath(photo.id), ask)).status).toBe(404)
  })

  test('is turned over and round where somebody says that it is mirrored and upside down', async () => {
    const turned = await filmFrom(photo, { mirrored: true, upsideDown: true })
    const [as, not] = [
      await readyForecast(shop.ask, plain.id),
      await readyForecast(shop.ask, turned.id),
    ]
    expect(as.findings.length).toBeGreaterThan(0)
    const heightMm = plain.heightMm ?? 0
    type Place = Readonly<{ xMm: number; yMm: number }>
    /** How far it is from each place of the one to the nearest of the other, on the whole. */
    const apartMm = (one: readonly Place[], other: readonly Place[]): number =>
      one.reduce((sum, a) => {
        const ways = other.map((b) => Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm))
        return sum + Math.min(...ways)
      }, 0)
    const swapped = not.findings.map(({ xMm, yMm }) => ({ xMm, yMm: heightMm - yMm }))
    expect(apartMm(as.findings, swapped)).toBeLessThan(apartMm(as.findings, not.findings) / 2)
    const over = await filmFrom(photo, { mirrored: true })
    const { findings } = await readyForecast(shop.ask, over.id)
    const widthMm = plain.widthMm ?? 0
    const back = findings.map(({ xMm, yMm }) => ({ xMm: widthMm - xMm, yMm }))
    expect(apartMm(as.findings, back)).toBeLessThan(apartMm(as.findings, findings) / 2)
  })

  test('whose reading is ended stays, and can be asked again', async () => {
    const response = await shop.ask(photoAskPath(photo.id), { method: 'DELETE' })
    const stopped = photoSchema.parse(await response.json())
    expect([stopped.status, stopped.reading, stopped.message]).toEqual(['seen', null, null])
    const refused = await shop.ask(photoFilmPath(photo.id), json({ mirrored: false }))
    expect(refused.status).toBe(422)
  })
})

describe('a photo of a screen', () => {
  let filmId = ''
  let film: FilmDensities

  beforeAll(async () => {
    film = drawnFilm({ seed: 2, pixelUm: 160, widthMm: 150, heightMm: 110, solidDensity: 3 })
    filmId = (
      await settledFilm(
        shop.ask,
        (
          await sent(shop.ask, { name: 'heron.tif', bytes: densityTiff(film) })
        ).id,
      )
    ).id
  })

  test('is laid over its film: a hole is found at its place, with pictures of both', async () => {
    const camera = { widthPx: 2000, heightPx: 1500 }
    const faults = [{ kind: 'pinhole', sizeMm: 2.4 }] as const
    const { jpeg, truth } = await photoOfScreen({ film, seed: 6, camera, faults })
    const query = `?subject=screen&film=${filmId}`
    const photo = await settled(await bring('screen.jpg', jpeg, { query }))
    expect([photo.message, photo.status]).toEqual([null, 'done'])
    const found = photo.inspection
    const [hole] = found?.findings ?? []
    const [made] = truth.findings
    expect([found?.verdict, found?.mirrored, hole?.kind]).toEqual(['spot it', false, 'pinhole'])
    near(hole?.xMm ?? 0, made?.xMm ?? -9, { within: 0.5, because: 'places are right to 0.5 mm' })
    near(hole?.yMm ?? 0, made?.yMm ?? -9, { within: 0.5, because: 'places are right to 0.5 mm' })
    const sizes = await Promise.all(
      [found?.screenPicture, found?.filmPicture].map(async (path) => {
        const bytes = await (await shop.ask(path ?? '')).arrayBuffer()
        const { width, height } = await sharp(Buffer.from(bytes)).metadata()
        return [width, height]
      }),
    )
    expect(sizes[0]).toEqual(sizes[1])
  })

  test('that is none gets one sentence, and no findings', async () => {
    const query = `?subject=screen&film=${filmId}`
    const bytes = await halves(900, 700).jpeg().toBuffer()
    const photo = await settled(await bring('wall.jpg', bytes, { query }))
    expect([photo.status, photo.inspection]).toEqual(['seen', null])
    expect(photo.message).toMatch(/^[^\n]+[.]$/)
  })
})

describe('a photo of a washed-out test', () => {
  test('of a wedge waits until its corners are shown, then tells two steps with their chances', async () => {
    const camera = { widthPx: 900, heightPx: 450 }
    const { jpeg, truth } = await photoOfWedge({ seed: 3, doseLu: 90, camera })
    const came = await settled(await bring('wedge.jpg', jpeg, { query: '?subject=wedge' }))
    expect(came).toMatchObject({ status: 'seen', test: null, message: null })
    expect((await askedAgain(came, {})).message).toMatch(/^Show where the four corners/)
    const { status, test: told } = await askedAgain(came, { corners: truth.corners })
    expect(status).toBe('done')
    if (told?.kind !== 'wedge') throw new Error('no wedge was read')
    expect(Math.abs(told.lastSolid.step - truth.lastSolid)).toBeLessThanOrEqual(1)
    expect(Math.abs(told.firstClear.step - truth.firstClear)).toBeLessThanOrEqual(1)
    expect(told.lastSolid.chance).toBeLessThan(1)
  })

  test('of a strip says in one sentence what is missing, or that no strip is seen', async () => {
    const bytes = await halves(600, 900).png().toBuffer()
    const came = await settled(await bring('strip.png', bytes, { query: '?subject=strip' }))
    expect((await askedAgain(came, {})).message).toMatch(/^Say which doses stand/)
    const strip = { bandCounts: [60, 40, 26], countsIn: 'light units', paper: 'a4' }
    const { message, test: told } = await askedAgain(came, {
      strip: { ...strip, marks: 'printed' },
    })
    expect(told).toBeNull()
    expect(message).toMatch(/^I do not find the whole test film/)
  })
})

test('the reading mat is a PDF on each paper', async () => {
  for (const [size, widthMm] of [
    ['a4', 210],
    ['letter', 215.9],
    ['a3', 297],
  ] as const) {
    const response = await shop.ask(`${PATHS.mat}?size=${size}`)
    expect(response.headers.get('content-type')).toBe('application/pdf')
    const text = Buffer.from(await response.arrayBuffer()).toString('latin1')
    const [, width = ''] = /MediaBox ?\[ ?0 0 ([\d.]+)/.exec(text) ?? []
    near((Number(width) / 72) * 25.4, widthMm, {
      within: 0.05,
      because: 'PDF counts 72 to an inch',
    })
  }
})

test('nothing went wrong behind the answers', () => {
  expect(shop.troubles).toEqual([])
})

async function readJpeg(): Promise<Buffer> {
  return sharp(await readFile(PENCIL))
    .jpeg({ quality: 95 })
    .toBuffer()
}

/** A PNG that claims to be large: its head alone refuses it. */
function bigHead(widthPx: number, heightPx: number): Uint8Array {
  const chunk = (name: string, data: Buffer): Buffer => {
    const named = Buffer.concat([Buffer.from(name), data])
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)]
    length.writeUInt32BE(data.length)
    check.writeUInt32BE(crc32(named))
    return Buffer.concat([length, named, check])
  }
  const head = Buffer.alloc(13)
  head.writeUInt32BE(widthPx)
  head.writeUInt32BE(heightPx, 4)
  head.writeUInt8(8, 8) // 8 bits of grey
  const signature = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10])
  const rows = chunk('IDAT', deflateSync(Buffer.alloc(1000)))
  return Buffer.concat([signature, chunk('IHDR', head), rows, chunk('IEND', Buffer.alloc(0))])
}

/** The head of an ISO base media file of the brand that phones write. */
function heic(): Uint8Array {
  return Buffer.concat([
    Buffer.from([0, 0, 0, 24]),
    Buffer.from('ftypheic\0\0\0\0mif1heic'),
    Buffer.alloc(2000),
  ])
}

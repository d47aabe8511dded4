import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { inflateSync } from 'node:zlib'
import { PDFDocument, PDFName } from 'pdf-lib'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Artwork, artworkList, artwork as artworkSchema } from '../../src/api/artwork.ts'
import type { Film } from '../../src/api/films.ts'
import {
  artworkFilmsPath,
  artworkPath,
  artworkTilePath,
  editionCardPath,
  jobTicketPath,
  madeShopFilmPath,
  mixingCardPath,
  PATHS,
  planColourPath,
  ticketActsPath,
  toneCurvePath,
} from '../../src/api/paths.ts'
import { printPlan } from '../../src/api/printPlan.ts'
import { screenChoice } from '../../src/api/screenChoice.ts'
import { refusal } from '../../src/api/shop.ts'
import { type TicketAct, ticket as ticketSchema } from '../../src/api/tickets.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { type Room, room } from './room.ts'
import { settledFilm, until } from './shopRoom.ts'

const PATIENCE_MS = 240_000
const POSTER = fileURLToPath(new URL('../../docs/example/poster.svg', import.meta.url))

let shop: Room
beforeAll(async () => {
  shop = await room()
  await send('POST', PATHS.ownShop, { fabric: '90-48', colour: 'white' })
})
afterAll(() => shop.close())

function send(method: string, path: string, body: unknown): Promise<Response> {
  const headers = { 'content-type': 'application/json' }
  return shop.ask(path, { method, headers, body: JSON.stringify(body) })
}

async function brought(name: string, bytes: Uint8Array, query = ''): Promise<Artwork> {
  const response = await shop.ask(`${PATHS.artworks}${query}`, {
    method: 'POST',
    headers: { 'x-file-name': encodeURIComponent(name) },
    body: new Uint8Array(bytes),
  })
  expect(response.status).toBe(202)
  return told(response)
}
const told = async (response: Response): Promise<Artwork> =>
  artworkSchema.parse(await response.json())
const asked = async (id: string): Promise<Artwork> => told(await shop.ask(artworkPath(id)))

/** The artwork once somebody has looked at it. */
const lookedAt = (id: string): Promise<Artwork> =>
  until(async () => {
    const artwork = await asked(id)
    return artwork.status === 'waiting' ? null : artwork
  }, `looking at ${id}`)

/** Once its making has come to an end. */
const settled = (id: string): Promise<Artwork> =>
  until(async () => {
    const artwork = await asked(id)
    const { status = 'waiting' } = artwork.making ?? {}
    return status === 'waiting' || status === 'making' ? null : artwork
  }, `films of ${id}`)

const bytesAt = async (path: string): Promise<Buffer> =>
  Buffer.from(await (await shop.ask(path)).arrayBuffer())

test(
  'a drawing of a ticket gets a plan in its inks, is made into films that other readers open, and each goes into its layer',
  async () => {
    const inks = [
      { name: 'lamp yellow', colour: '#f6c945' },
      { name: 'brick red', colour: '#c3402f' },
      { name: 'brush black', colour: '#1d1d1b' },
    ]
    const opened = await send('POST', PATHS.tickets, { name: 'Jar of brushes', inks })
    const ticket = ticketSchema.parse(await opened.json())
    const { id } = await brought('poster.svg', await readFile(POSTER), `?ticket=${ticket.id}`)
    const seen = await lookedAt(id)
    expect([seen.status, seen.name, seen.message]).toEqual(['ready', 'poster', null])
    near(seen.widthMm ?? 0, 90, { within: 1e-9, because: 'the drawing says 90 mm' })
    expect(seen.plan).toMatchObject({ mode: 'spot', widthMm: 90, inks: [{}, {}, {}] })

    // its samples: the lamp is white, the ground the colour that the drawing gives it
    const { small } = seen.picture ?? { small: { widthPx: 0, heightPx: 0 } }
    const pixels = inflateSync(await bytesAt(artworkTilePath(id, { level: 1, x: 0, y: 0 })))
    expect(pixels.length).toBe(3 * small.widthPx * small.heightPx)
    const at = (xMm: number, yMm: number): readonly number[] => {
      const [x, y] = [xMm, yMm].map((mm) => Math.floor((mm * small.widthPx) / 90)) as [
        number,
        number,
      ]
      const plane = small.widthPx * small.heightPx
      return [0, 1, 2].map((part) => pixels[part * plane + y * small.widthPx + x] ?? 0)
    }
    expect([at(63, 28), at(4, 4)]).toEqual([
      [255, 255, 255],
      [0xf6, 0xc9, 0x45],
    ])
    // 3000 by 4000 pixels: the last tile to the right is what is left
    const last = inflateSync(await bytesAt(artworkTilePath(id, { level: 0, x: 5, y: 0 })))
    expect(last.length).toBe(3 * (3000 - 5 * 512) * 512)

    const plan = { ...seen.plan, mode: 'line', resolutionDpi: 200, marks: null, halftone: null }
    const changed = await told(await send('PATCH', artworkPath(id), { plan }))
    expect(changed.plan).toEqual(plan)
    expect((await shop.ask(artworkFilmsPath(id), { method: 'POST' })).status).toBe(202)
    const { making, made } = await settled(id)
    expect(making).toMatchObject({ status: 'done', message: null })
    expect(made?.films.map(({ ink }) => ink)).toEqual(inks.map(({ name }) => name))
    for (const [place, film] of (made?.films ?? []).entries()) {
      const pdf = await PDFDocument.load(await bytesAt(film.pdf))
      expect(pdf.getTitle()).toBe(`${ticket.layers[place]?.shortName}, ${film.ink}`)
      const [page] = pdf.getPages()
      near((page?.getWidth() ?? 0) / 72, 90 / 25.4, { within: 0.01 / 25.4, because: '0.01 mm' })
      const tiff = sharp(await bytesAt(film.tiff))
      const { width, height } = await tiff.metadata()
      expect([width, height]).toEqual([709, 945])
      const { channels } = await tiff.greyscale().stats()
      const black = 1 - (channels[0]?.mean ?? 0) / 255
      near(film.coverageShare, black, { within: 1e-6, because: 'counted from the same bits' })
    }
    const proof = await sharp(await bytesAt(made?.proof ?? '')).metadata()
    expect((proof.width ?? 0) / (proof.height ?? 1)).toBeCloseTo(0.75, 2)

    const [, red] = made?.films ?? []
    const taken = await send('POST', madeShopFilmPath(id, red?.id ?? ''), {})
    expect(taken.status).toBe(201)
    const film = await settledFilm(shop.ask, ((await taken.json()) as Film).id)
    expect([film.status, film.name]).toEqual(['ready', 'poster, brick red'])
    near(film.widthMm ?? 0, 90, { within: 25.4 / 200, because: 'a TIFF has whole pixels' })
    const { layers } = ticketSchema.parse(
      await (await shop.ask(`${PATHS.tickets}/${ticket.id}`)).json(),
    )
    expect(layers.map((layer) => layer.film?.id ?? null)).toEqual([null, film.id, null])
    expect((await asked(id)).made?.films[1]?.film).toMatchObject({ id: film.id })
    const { artworks } = artworkList.parse(await (await shop.ask(PATHS.artworks)).json())
    expect(artworks).toMatchObject([
      { id, films: 3, ticket: { name: `${ticket.code} Jar of brushes` } },
    ])
  },
  PATIENCE_MS,
)

/** A page of two inks by another program. */
async function inkPdf(): Promise<Uint8Array> {
  const document = await PDFDocument.create()
  const { context } = document
  const page = document.addPage([60, 40])
  const tint = { FunctionType: 2, Domain: [0, 1], C0: [1, 1, 1], N: 1 }
  const of = (name: string, light: readonly number[]) =>
    context.obj(['Separation', name, 'DeviceRGB', { ...tint, C1: [...light] }])
  const spaces = { A: of('Moss', [0.2, 0.5, 0.1]), B: of('Rust', [0.7, 0.2, 0.1]) }
  page.node.set(PDFName.of('Resources'), context.obj({ ColorSpace: spaces }))
  const content = context.stream('/A cs 1 scn 0 0 30 40 re f /B cs 0.5 scn 30 0 30 40 re f')
  page.node.set(PDFName.of('Contents'), context.register(content))
  return document.save()
}

/** Mean darkness of each plane of artwork made small. */
async function planesOf({ id, picture }: Artwork): Promise<readonly number[]> {
  const { widthPx = 1, heightPx = 1 } = picture?.small ?? {}
  const bytes = inflateSync(await bytesAt(artworkTilePath(id, { level: 1, x: 0, y: 0 })))
  const plane = widthPx * heightPx
  return Array.from({ length: bytes.length / plane }, (_, at) => {
    const own = bytes.subarray(at * plane, (at + 1) * plane)
    return 1 - own.reduce((sum, value) => sum + value, 0) / (255 * plane)
  })
}

test(
  'a PDF’s own inks are proposed and looked at as plates of their own, and as colours where others are chosen',
  async () => {
    const { id } = await brought('inks.pdf', await inkPdf())
    const seen = await lookedAt(id)
    expect(seen.plan).toMatchObject({ mode: 'spot', inks: [{ name: 'Moss' }, { name: 'Rust' }] })
    expect([seen.picture?.passing, seen.looksAgain]).toEqual([['moss', 'rust'], false])
    const [red, green, blue, moss, rust] = await planesOf(seen)
    expect([red, green, blue]).toEqual([0, 0, 0]) // nothing but the two inks is there
    near(moss ?? 0, 0.5, { within: 0.01, because: 'half of the page, solid' })
    near(rust ?? 0, 0.25, { within: 0.01, because: 'half of the page, half a tint' })

    const plan = { ...seen.plan, mode: 'single', inks: [{ name: 'ochre', lab: [65, 15, 55] }] }
    const changed = await told(await send('PATCH', artworkPath(id), { plan }))
    expect(changed.looksAgain).toBe(true)
    const other = await until(async () => {
      const artwork = await asked(id)
      return artwork.looksAgain ? null : artwork
    }, 'looking at its colours')
    expect(other.picture?.passing).toEqual([])
    expect(other.picture?.version).not.toBe(seen.picture?.version)
    const planes = await planesOf(other)
    expect(planes.length).toBe(3)
    expect(Math.min(...planes)).toBeGreaterThan(0.2)
  },
  PATIENCE_MS,
)

test(
  'its three layers go on by calls alone, over screens, light and press, to a closed edition and its card',
  async () => {
    const { artworks } = artworkList.parse(await (await shop.ask(PATHS.artworks)).json())
    const { id = '', ticket } = artworks.find((artwork) => artwork.ticket !== null) ?? {}
    const ticketId = ticket?.id ?? ''
    for (const film of (await asked(id)).made?.films ?? []) {
      if (film.film !== null) continue
      const taken = await send('POST', madeShopFilmPath(id, film.id), {})
      await settledFilm(shop.ask, ((await taken.json()) as Film).id)
    }
    let count = 0
    const act = async (kind: TicketAct['kind'], more: object) => {
      const isTold = ['done', 'pulled', 'spoiled', 'edition'].includes(kind)
      const key = isTold ? { key: `edition-by-call-${++count}` } : {}
      const answer = await send('POST', ticketActsPath(ticketId), { kind, ...key, ...more })
      if (answer.status !== 200) throw new Error(await answer.text())
      return ticketSchema.parse(await answer.json())
    }
    const ready = await act('about', { editionCount: 3, paper: 'thin card' })
    expect(ready.layers.map(({ at }) => at)).toEqual(['screen', 'screen', 'screen'])
    expect(ready.next).toMatchObject({ place: 1, station: 'screen', who: { anybody: false } })
    const choice = await shop.ask(`${PATHS.screenChoice}?layer=${ready.layers[0]?.id}`)
    const [screen] = screenChoice.parse(await choice.json()).screens
    for (const [at, { id: layer }] of ready.layers.entries()) {
      await act('screen', { layer, screen: screen?.id })
      for (const station of ['screen', 'light', 'water']) await act('done', { layer, station })
      await act('pulled', { layer, sheets: 6 - at })
      await act('spoiled', { layer, sheets: 1, why: 'a crease' })
      for (const station of ['print', 'reclaim']) await act('done', { layer, station })
      await act('screen', { layer, screen: null })
    }
    const [, red] = ready.layers
    const reading = { kind: 'measured', layer: red?.id, readings: [red?.ink?.lab] }
    const plan = printPlan.parse(
      await (await send('POST', planColourPath(ticketId), reading)).json(),
    )
    expect(plan.layers[1]?.checks).toMatchObject([{ verdict: 'agrees', deltaE: 0 }])
    for (const as of ['numbered', 'numbered', 'artist proof'])
      await act('edition', { as, sheets: 1 })
    const signed = await act('edition', { as: 'signed', sheets: 3, by: 'Demo Tam' })
    // 4 through the last layer, one of them spoiled: all three are given out
    expect(signed).toMatchObject({
      next: null,
      given: { numbered: 2, artistProofs: 1, proofs: 0, signed: 3, left: 0 },
    })
    const card = { numbered: 2, artistProofs: 1, proofs: 0, archivePlace: 'drawer 3' }
    expect(await act('close', card)).toMatchObject({ next: null, edition: card })
    for (const path of [editionCardPath, jobTicketPath, mixingCardPath]) {
      const paper = await PDFDocument.load(await bytesAt(path(ticketId)))
      expect(paper.getPageCount()).toBeGreaterThan(0)
    }
  },
  PATIENCE_MS,
)

test(
  'measured tints are the shop’s: the next artwork is made with them, and struck out they count no more',
  async () => {
    const ticket = ticketSchema.parse(
      await (
        await send('POST', PATHS.tickets, {
          name: 'Two kites',
          inks: [
            { name: 'kite blue', colour: '#27408b' },
            { name: 'kite red', colour: '#c3402f' },
          ],
        })
      ).json(),
    )
    const ramp = await sharp(
      Buffer.from(Array.from({ length: 64 * 8 }, (_, at) => 4 * (at % 64))),
      {
        raw: { width: 64, height: 8, channels: 1 },
      },
    )
      .png()
      .toBuffer()
    const { id } = await brought('kites.png', new Uint8Array(ramp), `?ticket=${ticket.id}`)
    const seen = await lookedAt(id)
    expect(seen.plan).toMatchObject({ inks: [{ printed: 'shop' }, { printed: 'shop' }] })
    expect([seen.toneCurves, seen.inkLimit, seen.statesCmyk]).toEqual([[], 2.4, false])
    const { rulingPerCm } = (seen.plan ?? {})['halftone'] as { rulingPerCm: number }
    const tints = [
      [0.25, 0.31],
      [0.5, 0.63],
    ]
    const facts = { ink: 'kite blue', fabric: seen.fabric, dots: 'ruled', rulingPerCm, tints }
    const falls = await send('POST', PATHS.toneCurves, { ...facts, tints: tints.toReversed() })
    expect([falls.status, refusal.parse(await falls.json()).error.field]).toEqual([422, 'tints'])
    expect((await send('POST', PATHS.toneCurves, facts)).status).toBe(201)
    expect((await send('POST', PATHS.inkLimit, { coverage: 2.2 })).status).toBe(200)

    const plan = { ...seen.plan, widthMm: 40, resolutionDpi: 150, marks: null }
    await send('PATCH', artworkPath(id), { plan })
    await shop.ask(artworkFilmsPath(id), { method: 'POST' })
    const { made, toneCurves, inkLimit } = await settled(id)
    expect(inkLimit).toBe(2.2)
    const inks = made?.plan['inks'] as readonly Readonly<{ name: string; printed?: unknown }>[]
    expect(inks.map(({ name, printed }) => [name, printed])).toEqual([
      ['kite blue', tints],
      ['kite red', undefined],
    ])
    const next = await brought('kites again.png', new Uint8Array(ramp), `?ticket=${ticket.id}`)
    expect((await lookedAt(next.id)).plan).toMatchObject({ limits: { coverage: 2.2 } })

    const path = toneCurvePath(toneCurves[0]?.id ?? '')
    expect((await shop.ask(path, { method: 'DELETE' })).status).toBe(200)
    expect((await asked(id)).toneCurves).toEqual([])
  },
  PATIENCE_MS,
)

test(
  'a plan that cannot be is refused by its key, what is no artwork in a sentence, and a making can be stopped',
  async () => {
    const { id } = await brought(
      'poster.svg',
      Buffer.from(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"><path d="M0 0h2v3z"/></svg>',
      ),
    )
    const { plan } = await lookedAt(id)
    expect(plan).toMatchObject({ mode: 'single' })
    const wrongs = [
      [{ ...plan, resolutionDpi: 9000 }, 'resolutionDpi'],
      [{ ...plan, widthMm: 4900, resolutionDpi: 3000 }, 'resolutionDpi'],
      [{ ...plan, colour: 'red' }, 'colour'],
      [{ ...plan, mode: 'spot', inks: [{ name: 'red' }] }, 'inks[0].lab'],
    ] as const
    for (const [wrong, field] of wrongs) {
      const response = await send('PATCH', artworkPath(id), { plan: wrong })
      expect([field, response.ok]).toEqual([field, false])
      expect(refusal.parse(await response.json()).error.field).toBe(field)
    }
    expect((await asked(id)).plan).toEqual(plan)
    await shop.ask(artworkFilmsPath(id), { method: 'POST' })
    await shop.ask(artworkFilmsPath(id), { method: 'DELETE' })
    expect((await settled(id)).making).toMatchObject({ status: 'stopped', message: null })
    expect((await asked(id)).made).toBeNull()

    const letter = await brought('letter.txt', Buffer.from('Dear all, the lamp is new.'))
    const failed = await lookedAt(letter.id)
    expect([failed.status, failed.picture]).toEqual(['failed', null])
    expect(failed.message).toMatch(/^"letter.txt" is a text; [^\n]*[.]$/)
    expect((await shop.ask(artworkFilmsPath(letter.id), { method: 'POST' })).status).toBe(422)
    expect((await shop.ask(artworkPath(letter.id), { method: 'DELETE' })).status).toBe(204)
    expect((await shop.ask(artworkPath(letter.id))).status).toBe(404)
    expect(shop.troubles).toEqual([])
  },
  PATIENCE_MS,
)

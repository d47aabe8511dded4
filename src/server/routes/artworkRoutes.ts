import type { Context, Hono } from 'hono'
import {
  type ArtworkChange,
  artwork,
  artworkChange,
  artworkList,
  artworkQuestion,
  inkLimitFacts,
  printsKnownAnswer,
  shopFilm,
  toneCurveFacts,
} from '../../api/artwork.ts'
import { film } from '../../api/films.ts'
import {
  artworkProofPath,
  artworkProofPdfPath,
  artworkTilePath,
  madeFilmPath,
  PATHS,
} from '../../api/paths.ts'
import { Failure } from '../../core/failure.ts'
import {
  type Artwork,
  artworkOf,
  artworks,
  changeArtwork,
  filmsOfArtwork,
  removeArtwork,
} from '../../store/artworks.ts'
import { blobFile, readBlob } from '../../store/blobs/blobStore.ts'
import type { Database } from '../../store/database/database.ts'
import type { Json } from '../../store/database/record.ts'
import { fabricOf } from '../../store/fabrics.ts'
import { ticketOf } from '../../store/tickets.ts'
import { strikeToneCurve } from '../../store/toneCurves.ts'
import { filmSize } from '../../workflow/makeFilms/filmSize.ts'
import { planFromJson } from '../../workflow/makeFilms/readPlan.ts'
import { withShopTones } from '../../workflow/makeFilms/shopTones.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { artworkAnswer, artworksTold } from '../artwork/artworkAnswer.ts'
import type { Seen } from '../artwork/artworkWork.ts'
import { filmOfMade } from '../artwork/filmOfMade.ts'
import { fileStem } from '../artwork/madeNames.ts'
import { keepLimit, keepTones, printsKnown } from '../artwork/printsKnown.ts'
import { proofPdf } from '../artwork/proofPdf.ts'
import { takeInArtwork } from '../artwork/takeInArtwork.ts'
import type { ShopDoor } from '../door.ts'
import { filmAnswer } from '../films/filmAnswer.ts'
import { type Route, route } from '../http/route.ts'
import { streamed } from '../http/streamed.ts'
import { openTileFile } from '../jobs/tileFile.ts'

const ARTWORK = `${PATHS.artworks}/{artwork}`
const MOST_ARTWORKS = 300

/** Artwork, what films are wanted of it, and their making. */
export function artworkRoutes(door: ShopDoor): readonly Route[] {
  const found = (id: string): Promise<Artwork> => artworkOf(door.shop().store.database, id)
  return [
    route({
      method: 'get',
      path: PATHS.artworks,
      summary: 'the artwork that films are made of, newest first',
      answer: artworkList,
      run: async () => {
        const { database } = door.shop().store
        return artworksTold(database, await artworks(database, { limit: MOST_ARTWORKS }))
      },
    }),
    route({
      method: 'post',
      path: PATHS.artworks,
      summary:
        'bring artwork: the file itself is the body, its name stands URI encoded in the header x-file-name; it is looked at once, and a plan for its films is proposed',
      query: artworkQuestion,
      body: 'file',
      answer: artwork,
      status: 202,
      run: async ({ query, request }) => {
        const service = door.shop()
        await service.records()
        return artworkAnswer(service, await takeInArtwork(service, request, query))
      },
    }),
    route({
      method: 'get',
      path: ARTWORK,
      summary: 'one artwork: its plan, how far the making of its films is, and the newest films',
      answer: artwork,
      run: async ({ place }) => artworkAnswer(door.shop(), await found(place('artwork'))),
    }),
    route({
      method: 'patch',
      path: ARTWORK,
      summary: 'its name, its ticket, the fabric of its screens, and the plan for its films',
      body: artworkChange,
      answer: artwork,
      run: async ({ body, place }) =>
        artworkAnswer(door.shop(), await changed(door, await found(place('artwork')), body)),
    }),
    route({
      method: 'delete',
      path: ARTWORK,
      summary: 'forget artwork and the films made of it; films of the shop stay',
      answer: null,
      run: async ({ place }) => {
        const { store, artwork: jobs } = door.shop()
        await jobs.forget(place('artwork'))
        await removeArtwork(store.database, place('artwork'))
        return null
      },
    }),
    ...making(door, found),
    ...ofPrints(door),
  ]
}

function making(door: ShopDoor, found: (id: string) => Promise<Artwork>): readonly Route[] {
  return [
    route({
      method: 'post',
      path: `${ARTWORK}/films`,
      summary: 'make the films of its plan; they take the place of earlier ones when they are done',
      answer: artwork,
      status: 202,
      run: async ({ place }) => {
        const service = door.shop()
        const asked = await found(place('artwork'))
        if (asked.plan === null || asked.seen === null) {
          const message = asked.refusal ?? 'This artwork is still being looked at: wait a moment.'
          throw new Failure('wrong input', message)
        }
        await service.artwork.make(asked)
        return artworkAnswer(service, asked)
      },
    }),
    route({
      method: 'delete',
      path: `${ARTWORK}/films`,
      summary: 'end the making of its films; earlier ones stay',
      answer: artwork,
      run: async ({ place }) => {
        const service = door.shop()
        const asked = await found(place('artwork'))
        await service.artwork.cancel(asked.id)
        return artworkAnswer(service, asked)
      },
    }),
    route({
      method: 'post',
      path: `${ARTWORK}/films/{film}/film`,
      summary:
        'a made film becomes a film of the shop, to be forecast before it is printed; of a ticket it is the film of its layer',
      body: shopFilm,
      answer: film,
      status: 201,
      run: async ({ body, place }) => {
        const service = door.shop()
        const asked = { ...body, film: place('film') }
        const taken = await filmOfMade(service, await found(place('artwork')), asked)
        const { shop } = await service.records()
        return filmAnswer(taken, { jobs: service.jobs, isDemo: shop.kind === 'demo' })
      },
    }),
  ]
}

/** What the shop learns of its prints, for all artwork that comes. */
function ofPrints(door: ShopDoor): readonly Route[] {
  const database = (): Database => door.shop().store.database
  const at = (): { at: Date } => ({ at: door.shop().now() })
  return [
    route({
      method: 'post',
      path: PATHS.toneCurves,
      summary:
        'tints of an ink as they were measured on a print: the next plan with this ink, fabric and ruling uses them',
      body: toneCurveFacts,
      answer: printsKnownAnswer,
      status: 201,
      run: ({ body }) => keepTones(database(), body, at()),
    }),
    route({
      method: 'delete',
      path: `${PATHS.toneCurves}/{curve}`,
      summary: 'strike out measured tints: they are kept and no plan uses them any more',
      answer: printsKnownAnswer,
      run: async ({ place }) => {
        await strikeToneCurve(database(), place('curve'), at())
        return printsKnown(database())
      },
    }),
    route({
      method: 'post',
      path: PATHS.inkLimit,
      summary: 'the most ink at one place that dries in this shop before the next screen',
      body: inkLimitFacts,
      answer: printsKnownAnswer,
      run: ({ body }) => keepLimit(database(), body, at()),
    }),
  ]
}

async function changed(
  door: ShopDoor,
  artwork: Artwork,
  { name, plan, fabric, ticket }: ArtworkChange,
): Promise<Artwork> {
  const { database } = door.shop().store
  if (plan !== undefined) expectPlan(plan, artwork)
  if (fabric !== undefined) await fabricOf(database, fabric)
  if (typeof ticket === 'string') await ticketOf(database, ticket)
  return changeArtwork(database, artwork.id, {
    ...(name === undefined ? {} : { name }),
    ...(plan === undefined ? {} : { plan: plan as Json }),
    ...(fabric === undefined ? {} : { fabricId: fabric }),
    ...(ticket === undefined ? {} : { ticketId: ticket }),
  })
}

/** @throws Failure naming the key that is wrong, or where the films would be too large */
function expectPlan(file: PlanFile, { seen }: Artwork): void {
  const plan = planFromJson(JSON.stringify(withShopTones(file, { known: [], fabric: null })))
  if (seen !== null) filmSize(plan, seen as unknown as Seen)
}

/** Its samples in tiles, its proof, and its films. */
export function addArtworkFiles(app: Hono, door: ShopDoor): void {
  const artworkIn = (context: Context): Promise<Artwork> =>
    artworkOf(door.shop().store.database, context.req.param('artwork') ?? '')
  const tile = artworkTilePath('ARTWORK', { level: 0, x: 0, y: 0 })
    .replace('ARTWORK', ':artwork')
    .replace('/0/0/0', '/:level{[01]}/:x{\\d{1,4}}/:y{\\d{1,4}}')
  app.get(tile, async (context) => {
    const { samplesBlob } = await artworkIn(context)
    if (samplesBlob === null)
      throw new Failure('not found', 'Nobody has looked at this artwork yet.')
    const [level, x, y] = ['level', 'x', 'y'].map((name) => Number(context.req.param(name)))
    const etag = `"${samplesBlob}-${level}-${x}-${y}"`
    const known = { etag, 'cache-control': 'private, no-cache' }
    if (context.req.header('if-none-match') === etag) return context.body(null, 304, known)
    const { path } = await blobFile(door.shop().store.blobs, samplesBlob)
    const { store, close } = await openTileFile(path)
    try {
      const bytes = await store.tile({ level: level ?? 0, x: x ?? 0, y: y ?? 0 })
      if (bytes === null) return context.body(null, 204, known)
      return context.body(new Uint8Array(bytes), 200, {
        ...known,
        'content-type': 'application/octet-stream',
      })
    } finally {
      await close()
    }
  })
  app.get(artworkProofPath('ARTWORK').replace('ARTWORK', ':artwork'), async (context) => {
    const { proofBlob } = await artworkIn(context)
    if (proofBlob === null) throw new Failure('not found', 'No films have been made of it yet.')
    return blobAnswer(context, door, { blob: proofBlob, type: 'image/png', name: 'proof.png' })
  })
  app.get(artworkProofPdfPath('ARTWORK').replace('ARTWORK', ':artwork'), async (context) => {
    const write = await proofPdf(door.shop().store, await artworkIn(context))
    context.header('content-disposition', 'inline; filename="proof.pdf"')
    return streamed(context, 'application/pdf', (sink) =>
      write({ write: async (bytes) => sink(new Uint8Array(bytes)) }),
    )
  })
  for (const [file, type] of [
    ['pdf', 'application/pdf'],
    ['tif', 'image/tiff'],
  ] as const) {
    const path = madeFilmPath('ARTWORK', { film: 'FILM', file })
    const place = path.replace('ARTWORK', ':artwork').replace(`FILM.${file}`, `:film{.+\\.${file}}`)
    app.get(place, async (context) => {
      const asked = (context.req.param('film') ?? '').slice(0, -1 - file.length)
      const { id } = await artworkIn(context)
      const all = await filmsOfArtwork(door.shop().store.database, id)
      const made = all.find((each) => each.id === asked)
      if (made === undefined) {
        throw new Failure('not found', 'There is no such film any more: the films were made anew.')
      }
      const blob = file === 'pdf' ? made.pdfBlob : made.tiffBlob
      const isShared = all.some(({ id: other, pdfBlob }) => other !== asked && pdfBlob === blob)
      const name = isShared ? 'films' : fileStem(made)
      return blobAnswer(context, door, { blob, type, name: `${name}.${file}` })
    })
  }
}

/** A kept file, sent no faster than it is taken. */
async function blobAnswer(
  context: Context,
  door: ShopDoor,
  { blob, type, name }: Readonly<{ blob: string; type: string; name: string }>,
): Promise<Response> {
  const stream = await readBlob(door.shop().store.blobs, blob)
  context.header('content-disposition', `inline; filename="${name}"`)
  return streamed(context, type, async (sink) => {
    for await (const part of stream as AsyncIterable<Uint8Array>) await sink(part)
  })
}

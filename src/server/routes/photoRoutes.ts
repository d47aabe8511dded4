import { readFile } from 'node:fs/promises'
import type { Hono } from 'hono'
import { film } from '../../api/films.ts'
import { PATHS, photoPicturePath } from '../../api/paths.ts'
import {
  matPaper,
  type PhotoAsk,
  photo,
  photoAsk,
  photoFilm,
  photoQuestion,
} from '../../api/photos.ts'
import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { blobFile } from '../../store/blobs/blobStore.ts'
import type { Json } from '../../store/database/record.ts'
import { changePhoto, photoOf, removePhoto } from '../../store/photos.ts'
import { matPage } from '../../workflow/papers/mat.ts'
import type { ShopDoor } from '../door.ts'
import { filmAnswer } from '../films/filmAnswer.ts'
import { asked } from '../http/asked.ts'
import { type Route, route } from '../http/route.ts'
import { inMemory } from '../papers/inMemory.ts'
import { photoAnswer } from '../photos/photoAnswer.ts'
import { takeInPhoto } from '../photos/takeInPhoto.ts'

const PHOTO = `${PATHS.photos}/{photo}`

/** Photos of films, of screens and of washed-out tests. */
export function photoRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'post',
      path: PATHS.photos,
      summary:
        'bring a photo of a film on a light table, of a screen against the light with the film it is checked against, or of a washed-out wedge or strip: the file itself is the body, its name stands URI encoded in the header x-file-name; it is looked at once',
      query: photoQuestion,
      body: 'file',
      answer: photo,
      status: 202,
      run: async ({ query, request }) => {
        const service = door.shop()
        await service.records()
        return photoAnswer(service, await takeInPhoto(service, request, query))
      },
    }),
    route({
      method: 'get',
      path: PHOTO,
      summary: 'one photo, how far its reading is, and what it told',
      answer: photo,
      run: async ({ place }) => {
        const service = door.shop()
        return photoAnswer(service, await photoOf(service.store.database, place('photo')))
      },
    }),
    route({
      method: 'delete',
      path: PHOTO,
      summary: 'forget a photo, and end what is done with it',
      answer: null,
      run: async ({ place }) => {
        const { store, photos } = door.shop()
        await photos.stop(place('photo'))
        await removePhoto(store.database, place('photo'))
        return null
      },
    }),
    ...asking(door),
  ]
}

function asking(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'post',
      path: `${PHOTO}/ask`,
      summary: 'read it anew, where it is said to look; what is left out is looked for',
      body: photoAsk,
      answer: photo,
      status: 202,
      run: async ({ body, place }) => askedAnew(door, { id: place('photo'), ask: body }),
    }),
    route({
      method: 'delete',
      path: `${PHOTO}/ask`,
      summary: 'end its reading: the photo stays',
      answer: photo,
      run: async ({ place }) => askedAnew(door, { id: place('photo'), ask: null }),
    }),
    route({
      method: 'post',
      path: `${PHOTO}/film`,
      summary: 'what was read in it becomes a film, turned over where the photo shows it mirrored',
      body: photoFilm,
      answer: film,
      status: 201,
      run: async ({ body, place }) => {
        const service = door.shop()
        const record = await photoOf(service.store.database, place('photo'))
        const { filmOfPhoto } = await import('../photos/filmOfPhoto.ts') // decodes pixels
        const taken = await filmOfPhoto(service, record, body)
        const { shop } = await service.records()
        return filmAnswer(taken, { jobs: service.jobs, isDemo: shop.kind === 'demo' })
      },
    }),
  ]
}

async function askedAnew(
  door: ShopDoor,
  { id, ask }: Readonly<{ id: string; ask: PhotoAsk | null }>,
): Promise<Awaited<ReturnType<typeof photoAnswer>>> {
  const service = door.shop()
  await service.photos.stop(id)
  const changed = await changePhoto(service.store.database, id, {
    asked: ask as Json,
    answer: null,
    refusal: null,
    mapBlob: null,
    pictureBlob: null,
    listBlob: null,
  })
  return photoAnswer(service, changed)
}

const PICTURES = [
  { which: 'preview.jpg', of: 'previewBlob', type: 'image/jpeg', subject: null },
  { which: 'straightened.png', of: 'pictureBlob', type: 'image/png', subject: null },
  { which: 'film.png', of: 'mapBlob', type: 'image/png', subject: 'screen' },
  { which: 'spotting-list.pdf', of: 'listBlob', type: 'application/pdf', subject: 'screen' },
] as const

/** The printable mat, and the pictures of photos. */
export function addPhotoFiles(app: Hono, door: ShopDoor): void {
  app.get(PATHS.mat, async (context) => {
    const { size = 'a4' } = asked(matPaper, context.req.query())
    const { shop } = await door.shop().records()
    const named = { name: shop.name, demo: shop.kind === 'demo' }
    const page = matPage({ size, shop: named }, { letters: await openLetters() })
    const bytes = await inMemory((sink) =>
      writeFilmPdf([page], { sink, deflater: deflater(), ink: 'grey', title: 'Reading mat' }),
    )
    return context.body(bytes, 200, {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="reading mat ${size}.pdf"`,
      'cache-control': 'no-store',
    })
  })
  for (const { which, of, type, subject } of PICTURES) {
    app.get(photoPicturePath('PHOTO', which).replace('PHOTO', ':photo'), async (context) => {
      const { store } = door.shop()
      const record = await photoOf(store.database, context.req.param('photo') ?? '')
      const blob = record[of]
      if (blob === null || (subject !== null && subject !== record.subject)) {
        throw new Failure('not found', 'There is no such picture of this photo yet: wait a moment.')
      }
      const etag = `"${blob}"`
      const known = { etag, 'cache-control': 'private, no-cache' }
      if (context.req.header('if-none-match') === etag) return context.body(null, 304, known)
      const { path: file } = await blobFile(store.blobs, blob)
      const bytes = new Uint8Array(await readFile(file))
      return context.body(bytes, 200, { ...known, 'content-type': type })
    })
  }
}

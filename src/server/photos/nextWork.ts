import type { PhotoAsk } from '../../api/photos.ts'
import { Failure } from '../../core/failure.ts'
import type { KnownMedium } from '../../core/film/mediumLooks.ts'
import { blobFile } from '../../store/blobs/blobStore.ts'
import { filmOf } from '../../store/films.ts'
import { type Medium, media } from '../../store/media.ts'
import type { OpenShop } from '../../store/openShop.ts'
import type { Photo } from '../../store/photos.ts'
import { theShop } from '../../store/shop.ts'
import { layerNamed } from '../papers/layerNamed.ts'
import { dayText } from '../shop/days.ts'
import type { PhotoWork } from './photoWork.ts'

export type WorkPlace = Readonly<{
  shop: OpenShop
  /** Where the photo's file lies. */
  path: string
  /** What is written lies here, each with an ending of its own. */
  scratch: string
  at: Date
}>

/** What is to be done with a photo next; null when there is nothing. */
export function nextWork(photo: Photo): ((place: WorkPlace) => Promise<PhotoWork>) | null {
  const { subject, previewBlob, asked, answer, refusal, name } = photo
  if (refusal !== null) return null
  if (previewBlob === null) {
    return async ({ path, scratch }) => ({
      kind: 'look',
      photo: { path, name },
      previewPath: `${scratch}.preview`,
    })
  }
  if (asked === null || answer !== null) return null
  if (subject === 'screen') return inspecting(photo)
  if (subject !== 'film') {
    return async ({ path }) => ({
      kind: 'test',
      test: subject,
      photo: { path, name },
      ask: asked as PhotoAsk,
    })
  }
  return async ({ shop, path, scratch }) => ({
    kind: 'read',
    photo: { path, name },
    ask: asked as PhotoAsk,
    media: (await media(shop.database)).map(knownMedium),
    mapPath: `${scratch}.map`,
    picturePath: `${scratch}.picture`,
  })
}

function knownMedium(medium: Medium): KnownMedium {
  const { name, weakestMeanDensity, weakestSdDensity, solidLowDensity, solidHighDensity } = medium
  const isSolidKnown = solidLowDensity !== null && solidHighDensity !== null
  return {
    name,
    weakest: { mean: weakestMeanDensity, sd: weakestSdDensity },
    solid: isSolidKnown ? { low: solidLowDensity, high: solidHighDensity } : null,
  }
}

function inspecting({ name, asked, filmId }: Photo): (place: WorkPlace) => Promise<PhotoWork> {
  return async ({ shop, path, scratch, at }) => {
    const { name: shopName, kind } = await theShop(shop.database)
    const film = await filmFile(shop, filmId)
    return {
      kind: 'inspect',
      photo: { path, name },
      film,
      ask: asked as PhotoAsk,
      screenPath: `${scratch}.picture`,
      filmPath: `${scratch}.map`,
      list: {
        path: `${scratch}.list`,
        shop: { name: shopName, demo: kind === 'demo' },
        title: await layerNamed(shop.database, { filmId, name: film.name }),
        date: dayText(at),
      },
    }
  }
}

async function filmFile(
  { database, blobs }: OpenShop,
  filmId: string | null,
): Promise<Extract<PhotoWork, { kind: 'inspect' }>['film']> {
  if (filmId === null) {
    const message =
      'The film of this screen was taken out of the shop: choose another, or bring it.'
    throw new Failure('wrong input', message, { field: 'film' })
  }
  const film = await filmOf(database, filmId)
  if (film.status !== 'ready') {
    const message = `“${film.name}” has not been read yet: wait until it is, then take the photo again.`
    throw new Failure('wrong input', message, { field: 'film' })
  }
  const { path } = await blobFile(blobs, film.mapBlob ?? film.originalBlob)
  const { resolutionDpi, solidDensity, readAs, fileName } = film
  return {
    kind: 'file',
    path,
    name: fileName ?? film.name,
    resolutionDpi,
    solidDensity,
    as: readAs,
  }
}

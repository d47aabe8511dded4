import type { z } from 'zod'
import {
  type FilmChange,
  film,
  filmChange,
  filmForecast,
  filmList,
  uploadQuestion,
} from '../../api/films.ts'
import { lightQuestion } from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import { changeFilm, type Film, filmOf, films, removeFilm } from '../../store/films.ts'
import type { ShopDoor } from '../door.ts'
import { filmAnswer } from '../films/filmAnswer.ts'
import { filmForecastOf } from '../films/filmForecasts.ts'
import { takeInFilm } from '../films/upload.ts'
import { type Route, type RouteOf, route, type Told } from '../http/route.ts'
import { baseAsked, exposureAsked, mediumAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'

const MOST_FILMS = 500
const FILM = `${PATHS.films}/{film}`
type FilmTold = z.infer<typeof film>

/** Films that were brought or made, and what was forecast of them. */
export function filmRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.films,
      summary: 'the films, newest first',
      answer: filmList,
      run: async () => {
        const service = door.shop()
        const all = await films(service.store.database, { limit: MOST_FILMS })
        const answers = await Promise.all(all.map((each) => told(service, each)))
        return { kind: 'films', films: answers } as const
      },
    }),
    route({
      method: 'post',
      path: PATHS.films,
      summary:
        'bring a film: the file itself is the body, its name stands URI encoded in the header x-file-name; it is read at once',
      query: uploadQuestion,
      body: 'file',
      answer: film,
      status: 202,
      run: async ({ query, request }) => {
        const service = door.shop()
        return told(service, await takeInFilm(service, request, query))
      },
    }),
    ...oneFilm(door),
    route({
      method: 'get',
      path: `${FILM}/forecast`,
      summary:
        'the film on a base, on a screen, under a unit; what is left out is usual; what was not computed yet is begun',
      query: lightQuestion.pick({ base: true, screen: true, unit: true }),
      answer: filmForecast,
      run: async ({ query, place }) => {
        const service = door.shop()
        const asked = await filmOf(service.store.database, place('film'))
        const records = await service.records()
        const exposure = exposureAsked(records, query, { filmBaseId: asked.baseId })
        return filmForecastOf(service, { film: asked, exposure })
      },
    }),
  ]
}

function oneFilm(door: ShopDoor): readonly Route[] {
  const found = async (id: string): Promise<Film> => filmOf(door.shop().store.database, id)
  const look: RouteOf<undefined, undefined, FilmTold> = {
    method: 'get',
    path: FILM,
    summary: 'one film, how far its reading is, and why it failed',
    answer: film,
    run: async ({ place }) => told(door.shop(), await found(place('film'))),
  }
  const change: RouteOf<undefined, FilmChange, FilmTold> = {
    method: 'patch',
    path: FILM,
    summary:
      'its name, its base, what its marks were made with, and whether faint underdrawing prints',
    body: filmChange,
    answer: film,
    run: async ({ body, place }) => {
      const service = door.shop()
      const { name, base, medium, underdrawing } = body
      const records = await service.records()
      const changed = await changeFilm(service.store.database, place('film'), {
        ...(name === undefined ? {} : { name }),
        ...(base === undefined ? {} : { baseId: baseAsked(records, base).id }),
        ...(medium === undefined ? {} : { mediumId: mediumAsked(records, medium).id }),
        ...(underdrawing === undefined ? {} : { faintPrints: underdrawing === 'prints' }),
      })
      service.changed()
      return told(service, changed)
    },
  }
  const remove: RouteOf<undefined, undefined, null> = {
    method: 'delete',
    path: FILM,
    summary: 'forget a film that was never exposed, with its file and forecasts',
    answer: null,
    run: async ({ place }) => {
      const { store, jobs, tiles, changed } = door.shop()
      const { id } = await removeFilm(store.database, place('film'))
      await jobs.cancel(id)
      await tiles.forget(id)
      changed()
      return null
    },
  }
  return [route(look), route(change), route(remove)]
}

async function told(service: ShopService, record: Film): Promise<Told<FilmTold>> {
  const { shop } = await service.records()
  return filmAnswer(record, { jobs: service.jobs, isDemo: shop.kind === 'demo' })
}

import type { z } from 'zod'
import { type FilmQueueAct, filmQueue, filmQueueAct, filmWanted } from '../../api/filmQueue.ts'
import { PATHS } from '../../api/paths.ts'
import { writingAsked } from '../../api/printPlan.ts'
import { Failure } from '../../core/failure.ts'
import type { Database } from '../../store/database/database.ts'
import { changeQueuedFilm, queuedFilmOf, queueFilm } from '../../store/filmQueue.ts'
import { inks } from '../../store/inks.ts'
import { people } from '../../store/people.ts'
import { tickets } from '../../store/tickets.ts'
import type { ShopDoor } from '../door.ts'
import { queueTold } from '../filmQueue/queueTold.ts'
import { type Route, route } from '../http/route.ts'

const MOST_TICKETS = 300

/** Who waits for which film. */
export function filmQueueRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.filmQueue,
      summary: 'films that are waited for: for whom, made when, scale checked, where they lie',
      query: writingAsked,
      answer: filmQueue,
      run: ({ query }) => queueTold(door.shop(), query),
    }),
    route({
      method: 'post',
      path: PATHS.filmQueue,
      summary: 'a film is wanted; asked twice under one key it stands in the queue once',
      query: writingAsked,
      body: filmWanted,
      answer: filmQueue,
      status: 201,
      run: async ({ body, query }) => {
        const service = door.shop()
        await wanted(service.store.database, body, service.now())
        return queueTold(service, query)
      },
    }),
    route({
      method: 'post',
      path: `${PATHS.filmQueue}/{film}/acts`,
      summary:
        'it was made, its scale bar measured, put somewhere, fetched, or is not wanted any more',
      query: writingAsked,
      body: filmQueueAct,
      answer: filmQueue,
      run: async ({ body, place, query }) => {
        const service = door.shop()
        await acted(service.store.database, { id: place('film'), act: body, now: service.now() })
        return queueTold(service, query)
      },
    }),
  ]
}

async function wanted(
  database: Database,
  { key, layer: layerId, what, person }: z.infer<typeof filmWanted>,
  at: Date,
): Promise<void> {
  const name = layerId === undefined ? null : await layerNamed(database, layerId)
  if (person !== undefined && !(await people(database)).some(({ id }) => id === person)) {
    throw notHere('person', 'person')
  }
  const asked = { layerId: layerId ?? null, what: what ?? name ?? '', personId: person ?? null }
  await queueFilm(database, { ...asked, sentKey: key }, { at })
}

/** A layer's film by its print and ink. @throws Failure 'not found' */
async function layerNamed(database: Database, layerId: string): Promise<string> {
  const all = await tickets(database, { limit: MOST_TICKETS })
  const whole = all.find(({ layers }) => layers.some(({ id }) => id === layerId))
  const layer = whole?.layers.find(({ id }) => id === layerId)
  if (whole === undefined || layer === undefined) throw notHere('layer', 'layer')
  const ink = (await inks(database)).find(({ id }) => id === layer.inkId)?.name ?? layer.shortName
  return `${whole.ticket.name}, ${ink}`.slice(0, LONGEST)
}

const LONGEST = 120

const UNMEASURED = {
  barMm: null,
  measuredMm: null,
  acrossBarMm: null,
  acrossMeasuredMm: null,
  measuredAt: null,
} as const

type Doing = Readonly<{ id: string; act: FilmQueueAct; now: Date }>

async function acted(database: Database, { id, act, now }: Doing): Promise<void> {
  const { madeAt } = await queuedFilmOf(database, id)
  const change = (changes: Parameters<typeof changeQueuedFilm>[2]) =>
    changeQueuedFilm(database, id, changes)
  switch (act.kind) {
    case 'made':
      await change({ madeAt: madeAt ?? now })
      return
    case 'measured': {
      const { barMm, measuredMm, across } = act
      const acrossBarMm = across?.barMm ?? null
      const acrossMeasuredMm = across?.measuredMm ?? null
      const measured = { barMm, measuredMm, acrossBarMm, acrossMeasuredMm, measuredAt: now }
      await change({ madeAt: madeAt ?? now, ...measured })
      return
    }
    case 'lies':
      await change({ liesIn: act.where })
      return
    case 'again':
      await change({ ...UNMEASURED, madeAt: null, liesIn: null })
      return
    case 'fetched':
    case 'not wanted':
      await change({ leftAt: now, leftAs: act.kind })
  }
}

function notHere(what: string, field: string): Failure {
  const message = `There is no such ${what} in this shop: choose one that is there.`
  return new Failure('not found', message, { field })
}

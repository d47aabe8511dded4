import type { Place } from '../../api/place.ts'
import { STATIONS } from '../../core/ticket/road.ts'
import type { Database } from '../../store/database/database.ts'
import { newestPlacements } from '../../store/placements.ts'
import { tickets, type WholeTicket } from '../../store/tickets.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import { layersTold, type TicketThings } from '../tickets/ticketAnswer.ts'
import { thingsFor } from '../tickets/ticketWhole.ts'
import { screensTold } from './placeThings.ts'

/** So many of each are offered, the newest first. */
const MOST = 12
const MOST_TICKETS = 300
/** A layer whose film is to be exposed yet. */
const BEFORE_WATER = STATIONS.indexOf('water')

type Offers = NonNullable<Told<Place>['offers']>
type Offered = Offers['waiting'][number]

/**
 * What one may want to lay where nothing was chosen: films of open tickets that are still to be
 * exposed, films on no ticket, and how screens were laid last.
 */
export async function placeOffers(database: Database): Promise<Offers> {
  const open = (await tickets(database, { limit: MOST_TICKETS })).filter(
    ({ ticket }) => ticket.closedAt === null,
  )
  const things = await thingsFor(database, open)
  const waiting = open.flatMap((whole) => waitingOf(whole, things))
  const loose = things.films
    .filter(({ layerId, status }) => layerId === null && status === 'ready')
    .map(
      ({ id, name }): Offered => ({ id, name, layer: null, ink: null, ticket: null, screen: null }),
    )
  return {
    waiting: [...waiting, ...loose].slice(0, MOST),
    laid: await laidBefore(database, things),
  }
}

function waitingOf(whole: WholeTicket, things: TicketThings): readonly Offered[] {
  const { id, name, code } = whole.ticket
  return layersTold(whole, things).flatMap(({ film, at, shortName, ink, screen }) =>
    film === null || film.status !== 'ready' || at === null || STATIONS.indexOf(at) >= BEFORE_WATER
      ? []
      : [
          {
            id: film.id,
            name: film.name,
            layer: shortName,
            ink,
            ticket: { id, name: `${code} ${name}` },
            screen: screen?.name ?? null,
          },
        ],
  )
}

/** The newest placement of each screen in use, of films that are still here. */
async function laidBefore(
  database: Database,
  { films }: Pick<TicketThings, 'films'>,
): Promise<Offers['laid']> {
  const screens = await screensTold(database)
  const newest = await newestPlacements(database)
  return newest
    .flatMap(({ placement, films: placed }) => {
      const screen = screens.find(({ id }) => id === placement.screenId)
      const named = placed.flatMap(({ filmId }) => {
        const film = films.find(({ id }) => id === filmId)
        return film === undefined ? [] : [{ id: film.id, name: film.name }]
      })
      if (screen === undefined || named.length < placed.length) return []
      return [
        {
          screen: { id: screen.id, name: screen.name },
          films: named,
          keptOn: dayText(placement.createdAt),
          laidOn: placement.laidAt === null ? null : dayText(placement.laidAt),
        },
      ]
    })
    .slice(0, MOST)
}

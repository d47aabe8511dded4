import type { FilmQueue } from '../../api/filmQueue.ts'
import { checkScale } from '../../core/filmQueue/scaleCheck.ts'
import { filmQueue, type QueuedFilm } from '../../store/filmQueue.ts'
import { filmsOfLayer } from '../../store/films.ts'
import { tickets, type WholeTicket } from '../../store/tickets.ts'
import { scaleSays } from '../../workflow/filmQueueWords.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { thingsFor } from '../tickets/ticketWhole.ts'

const MOST_TICKETS = 300
const DAY_MS = 24 * 3600_000

/** The whole queue as it stands. */
export async function queueTold({ store, now }: ShopService): Promise<Told<FilmQueue>> {
  const { database } = store
  const all = await tickets(database, { limit: MOST_TICKETS })
  const { people, inks, films } = await thingsFor(database, [])
  const named = ({ id, shortName, inkId }: WholeTicket['layers'][number]) => {
    const ink = inks.find((each) => each.id === inkId)?.name
    return { id, name: ink === undefined ? shortName : `${shortName}, ${ink}` }
  }
  const open = all.filter(({ ticket }) => ticket.closedAt === null).flatMap(({ layers }) => layers)
  const filmed = new Set(films.map(({ layerId }) => layerId))
  const ordered = open.toSorted((a, b) => Number(filmed.has(a.id)) - Number(filmed.has(b.id)))
  const queued = await filmQueue(database, { leftSince: new Date(now().getTime() - DAY_MS) })
  const told = []
  for (const each of queued) {
    const whole = all.find(({ layers }) => layers.some(({ id }) => id === each.layerId))
    const layer = whole?.layers.find(({ id }) => id === each.layerId)
    const person = people.find(({ id }) => id === each.personId)
    const [film] = each.layerId === null ? [] : await filmsOfLayer(database, each.layerId)
    const sides = [film?.widthMm ?? null, film?.heightMm ?? null].flatMap((side) => side ?? [])
    told.push({
      id: each.id,
      what: each.what,
      layer: layer === undefined ? null : named(layer),
      ticket: whole?.ticket.id ?? null,
      person: person === undefined ? null : { id: person.id, name: person.name },
      askedOn: dayText(each.askedAt),
      madeOn: each.madeAt === null ? null : dayText(each.madeAt),
      scale: scaleOf(each, sides.length === 0 ? null : Math.max(...sides)),
      liesIn: each.liesIn,
      left:
        each.leftAt === null || each.leftAs === null
          ? null
          : { on: dayText(each.leftAt), as: each.leftAs },
    })
  }
  return {
    kind: 'film queue',
    films: told.toSorted((a, b) => Number(a.left !== null) - Number(b.left !== null)),
    layers: ordered.map(named),
    people: people.map(({ id, name }) => ({ id, name })),
  }
}

type FilmTold = Told<FilmQueue>['films'][number]

function scaleOf({ barMm, measuredMm }: QueuedFilm, filmMm: number | null): FilmTold['scale'] {
  if (barMm === null || measuredMm === null) return null
  const check = checkScale({ barMm, measuredMm, filmMm })
  return { barMm, measuredMm, is: check.is, says: scaleSays(check) }
}

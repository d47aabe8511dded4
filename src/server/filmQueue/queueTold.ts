import type { FilmQueue } from '../../api/filmQueue.ts'
import { checkScale } from '../../core/filmQueue/scaleCheck.ts'
import type { Database } from '../../store/database/database.ts'
import { filmQueue, hasOwnCrosses, type QueuedFilm } from '../../store/filmQueue.ts'
import { type Film, filmsOfLayer } from '../../store/films.ts'
import { theShop } from '../../store/shop.ts'
import { tickets, type WholeTicket } from '../../store/tickets.ts'
import { scaleSays } from '../../workflow/filmQueueWords.ts'
import { CROSS_FROM_EDGE_MM } from '../../workflow/makeFilms/markItems.ts'
import type { PlanWriting } from '../../workflow/printPlanNumbers.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { thingsFor } from '../tickets/ticketWhole.ts'

const MOST_TICKETS = 300
const DAY_MS = 24 * 3600_000

/** The whole queue as it stands. */
export async function queueTold(
  { store, now }: ShopService,
  { units: wanted }: Readonly<{ units?: PlanWriting['units'] | undefined }> = {},
): Promise<Told<FilmQueue>> {
  const { database } = store
  const units = wanted ?? ((await theShop(database)).units === 'inch' ? 'imperial' : 'metric')
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
      scale: scaleOf(each, { filmMm: sides.length === 0 ? null : Math.max(...sides), units }),
      crosses: await crossesOf(database, film),
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

/** Of a film that was made here with register marks. */
async function crossesOf(database: Database, film: Film | undefined): Promise<FilmTold['crosses']> {
  if (film === undefined || film.widthMm === null || film.heightMm === null) return null
  if (!(await hasOwnCrosses(database, film.id))) return null
  const apart = (side: number): number => Math.round(10 * (side - 2 * CROSS_FROM_EDGE_MM)) / 10
  return { alongMm: apart(film.widthMm), acrossMm: apart(film.heightMm) }
}

function scaleOf(
  { barMm, measuredMm, acrossBarMm, acrossMeasuredMm }: QueuedFilm,
  { filmMm, units }: Readonly<{ filmMm: number | null; units: PlanWriting['units'] }>,
): FilmTold['scale'] {
  if (barMm === null || measuredMm === null) return null
  const across =
    acrossBarMm === null || acrossMeasuredMm === null
      ? null
      : { barMm: acrossBarMm, measuredMm: acrossMeasuredMm }
  const check = checkScale({ barMm, measuredMm, across, filmMm })
  return { barMm, measuredMm, across, is: check.is, says: scaleSays(check, units) }
}

import type { PlanAsked } from '../../api/printPlan.ts'
import type { Layer as LayerTold, Ticket as TicketTold } from '../../api/tickets.ts'
import { countEdition } from '../../core/ticket/edition.ts'
import { nextOnTicket, type Road, type RoadEvent, roadOf } from '../../core/ticket/road.ts'
import {
  countSheets,
  SPOILED_SHARE,
  sheetsToPrepare,
  type Tally,
} from '../../core/ticket/sheets.ts'
import type { EditionTally } from '../../store/editionTallies.ts'
import type { Film } from '../../store/films.ts'
import type { Ink } from '../../store/inks.ts'
import type { LayerEvent } from '../../store/layerEvents.ts'
import type { Person } from '../../store/people.ts'
import type { Screen } from '../../store/screens.ts'
import type { PaperStock } from '../../store/stock.ts'
import type { Edition, WholeTicket } from '../../store/tickets.ts'
import type { Told } from '../http/route.ts'
import { dayText } from '../shop/days.ts'
import type { WhoNext } from './whoNext.ts'

/** What tickets are told with. */
export type TicketThings = Readonly<{
  inks: readonly Ink[]
  people: readonly Person[]
  /** Newest first. */
  films: readonly Film[]
  screens: readonly Screen[]
  papers: readonly PaperStock[]
  /** Of all tickets told, oldest first. */
  events: readonly LayerEvent[]
}>

type InkTold = NonNullable<LayerTold['ink']>

export function inkTold({ id, name, labL, labA, labB, opacity }: Ink): InkTold {
  return { id, name, lab: [labL, labA, labB], opacity }
}

export function layersTold(
  { layers }: WholeTicket,
  { inks, films, screens, events }: TicketThings,
): readonly Told<LayerTold>[] {
  return layers.map(({ id, place, shortName, inkId, screenId }) => {
    const own = events.filter(({ layerId }) => layerId === id)
    const film = films.find(({ layerId }) => layerId === id)
    const ink = inks.find((each) => each.id === inkId)
    const screen = screens.find((each) => each.id === screenId)
    const { at, states } = roadFrom(own, film)
    const tallies = own.filter((event): event is LayerEvent & Tally => event.sheets !== null)
    return {
      id,
      place,
      shortName,
      ink: ink === undefined ? null : inkTold(ink),
      film: film === undefined ? null : { id: film.id, name: film.name, status: statusOf(film) },
      screen: screen === undefined ? null : { id: screen.id, name: `screen ${screen.tag}` },
      at,
      road: states,
      ...countSheets(tallies),
      spoils: tallies.flatMap(({ kind, sheets, why }) =>
        kind === 'spoiled' && why !== null ? [{ sheets, why }] : [],
      ),
    }
  })
}

/** What to do next, in the words of the contract. */
function nextTold(
  layers: readonly Told<LayerTold>[],
  { who, owner }: Readonly<{ who: WhoNext; owner: string | null }>,
): Told<TicketTold>['next'] {
  const roads = layers.map(({ at, road }): Road => ({ at, states: road }))
  const next = nextOnTicket(roads)
  const layer = layers[next?.layer ?? -1]
  if (next === null || layer === undefined) return null
  const { id, place, ink, shortName } = layer
  const { station } = next
  return { layer: id, place, ink: ink?.name ?? shortName, station, who: who(station, owner) }
}

export function ticketTold(
  whole: WholeTicket,
  things: TicketThings &
    Readonly<{
      edition: Edition | null
      tallies: readonly EditionTally[]
      asked: Pick<PlanAsked, 'proofs' | 'spoiledShare'>
      isDemo: boolean
      who: WhoNext
    }>,
): Told<TicketTold> {
  const { ticket } = whole
  const { people, inks, films, papers, edition, tallies, asked, isDemo, who } = things
  const layers = layersTold(whole, things)
  const wanted = ticket.editionCount
  return {
    kind: 'ticket',
    demo: isDemo,
    ...headTold(whole, { people, layers, who }),
    layers,
    sheetsToPrepare:
      wanted === null || layers.length === 0
        ? null
        : sheetsToPrepare(wanted + (asked.proofs ?? 0), {
            layers: layers.length,
            spoiledShare: asked.spoiledShare ?? SPOILED_SHARE,
          }),
    given: countEdition(tallies, layers.at(-1)?.good ?? 0),
    edition:
      edition === null || ticket.closedAt === null
        ? null
        : {
            numbered: edition.numbered,
            artistProofs: edition.artistProofs,
            proofs: edition.proofs,
            archivePlace: edition.archivePlace,
            signedBy: edition.signedBy,
          },
    log: logTold(whole, things),
    films: films.map(({ id, name }) => ({ id, name })),
    inks: inks.map(inkTold),
    people: people.map(({ id, name }) => ({ id, name })),
    papers: papers.map(({ id, name }) => ({ id, name })),
  }
}

export function headTold(
  { ticket }: WholeTicket,
  {
    people,
    layers,
    who,
  }: Pick<TicketThings, 'people'> & Readonly<{ layers: readonly Told<LayerTold>[]; who: WhoNext }>,
): Pick<
  Told<TicketTold>,
  'id' | 'code' | 'name' | 'owner' | 'paper' | 'editionCount' | 'closedOn' | 'next'
> {
  const { id, code, name, ownerId, paper, editionCount, closedAt } = ticket
  const owner = people.find((person) => person.id === ownerId)?.name ?? null
  return {
    id,
    code,
    name,
    owner,
    paper,
    editionCount,
    closedOn: closedAt === null ? null : dayText(closedAt),
    next: closedAt === null ? nextTold(layers, { who, owner }) : null,
  }
}

/** A film that is here says by itself that its artwork is done, and once it is read that it is. */
function roadFrom(events: readonly LayerEvent[], film: Film | undefined): Road {
  const told = events.flatMap(({ kind, station, happenedAt }) =>
    station !== null && (kind === 'done' || kind === 'back')
      ? [{ kind, station, at: happenedAt.getTime() }]
      : [],
  )
  const shown = filmShows(film)
  return roadOf([...told, ...shown].sort((a, b) => a.at - b.at))
}

function filmShows(film: Film | undefined): readonly (RoadEvent & Readonly<{ at: number }>)[] {
  if (film === undefined) return []
  const here = { kind: 'done', station: 'artwork', at: film.createdAt.getTime() } as const
  if (film.readAt === null || film.status !== 'ready') return [here]
  return [here, { kind: 'done', station: 'film', at: film.readAt.getTime() }]
}

function statusOf({ status }: Film): 'waiting' | 'ready' | 'failed' {
  return status === 'refused' ? 'failed' : status
}

/** All that was told of its layers and of its edition, newest first. */
function logTold(
  { ticket, layers }: WholeTicket,
  {
    events,
    tallies,
    people,
  }: Pick<TicketThings, 'events' | 'people'> & Readonly<{ tallies: readonly EditionTally[] }>,
): TicketTold['log'] {
  const told = [
    ...events.map((event) => ({
      ...event,
      of: layers.find(({ id }) => id === event.layerId)?.shortName ?? '',
      says: says(event),
    })),
    ...tallies.map((tally) => ({ ...tally, of: ticket.code, says: editionSays(tally) })),
  ].toSorted((a, b) => b.happenedAt.getTime() - a.happenedAt.getTime() || (a.id < b.id ? 1 : -1))
  return told.map(({ id, happenedAt, of, says: words, personId }) => ({
    id,
    on: dayText(happenedAt),
    layer: of,
    says: words,
    by: people.find((person) => person.id === personId)?.name ?? null,
  }))
}

const GIVEN = {
  numbered: ['numbered print', 'numbered prints'],
  'artist proof': ['artist’s proof', 'artist’s proofs'],
  proof: ['proof', 'proofs'],
  signed: ['signed', 'signed'],
} as const

/** What became of sheets, in a line. */
function editionSays({ kind, sheets, byName }: EditionTally): string {
  const [one, more] = GIVEN[kind]
  return `${sheets} ${sheets === 1 ? one : more}${byName === null ? '' : ` by ${byName}`}`
}

/** What happened to a layer, in a line. */
export function says({ kind, station, sheets, why }: LayerEvent): string {
  switch (kind) {
    case 'done':
      return `${station ?? ''} done`
    case 'back':
      return `back to ${station ?? ''}: ${why ?? ''}`
    case 'pulled':
      return `${sheets ?? 0} pulled`
    case 'spoiled':
      return `${sheets ?? 0} spoiled: ${why ?? ''}`
  }
}

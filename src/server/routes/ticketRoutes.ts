import { PATHS } from '../../api/paths.ts'
import {
  type NewTicket,
  newTicket,
  type TicketAct,
  ticketAct,
  ticket as ticketAnswer,
  ticketList,
} from '../../api/tickets.ts'
import { Failure } from '../../core/failure.ts'
import { layerShortName, nextCode } from '../../core/ticket/codes.ts'
import { countEdition } from '../../core/ticket/edition.ts'
import { expectEdition } from '../../core/ticket/sheets.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import {
  addEditionTally,
  editionTalliesOf,
  isTold,
  takeBackEditionTally,
} from '../../store/editionTallies.ts'
import { changeFilm } from '../../store/films.ts'
import type { Ink } from '../../store/inks.ts'
import { addLayerEvent, takeBackLayerEvent } from '../../store/layerEvents.ts'
import { people } from '../../store/people.ts'
import {
  addLayer,
  changeTicket,
  closeTicket,
  holdTicket,
  openTicket,
  ticketCodes,
  ticketOf,
  tickets,
  type WholeTicket,
} from '../../store/tickets.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import type { PeopleKeeper } from '../people/peopleKeeper.ts'
import { giveScreen } from '../screenChoice/giveScreen.ts'
import { inkFor } from '../tickets/inkAsked.ts'
import { headTold, inkTold, layersTold } from '../tickets/ticketAnswer.ts'
import { thingsFor, wholeTold } from '../tickets/ticketWhole.ts'
import { whoNext } from '../tickets/whoNext.ts'

const MOST_TICKETS = 300
/** A moment that the device's clock told: no later than ours by more than this. */
const CLOCKS_APART_MS = 5 * 60_000
const TICKET = `${PATHS.tickets}/{ticket}`

/** Prints from artwork to edition. */
export function ticketRoutes(door: ShopDoor, keeper: PeopleKeeper): readonly Route[] {
  const database = (): Database => door.shop().store.database
  return [
    route({
      method: 'get',
      path: PATHS.tickets,
      summary: 'the tickets, open ones first, then the newest, each with its next thing to do',
      answer: ticketList,
      run: async ({ request }) => {
        const { person } = await keeper.whoIs(door.shop(), request)
        const all = mineFirst(await tickets(database(), { limit: MOST_TICKETS }), person?.id)
        const things = await thingsFor(database(), all)
        const who = await whoNext(database(), { at: door.shop().now() })
        return {
          kind: 'tickets' as const,
          tickets: all.map((whole) => {
            const layers = layersTold(whole, things)
            return {
              ...headTold(whole, { people: things.people, layers, who }),
              inks: layers.flatMap(({ ink }) => ink ?? []),
              openLayers: layers.filter(({ at }) => at !== null).length,
              drawn: layers.flatMap(({ film, ink }) =>
                film?.status === 'ready' && ink !== null ? [{ film: film.id, ink }] : [],
              ),
            }
          }),
          people: things.people.map(({ id, name }) => ({ id, name })),
          inks: things.inks.map(inkTold),
          papers: things.papers.map(({ id, name }) => ({ id, name })),
        }
      },
    }),
    route({
      method: 'post',
      path: PATHS.tickets,
      summary: 'opens a ticket with a layer for each of its inks, in the order of printing',
      body: newTicket,
      answer: ticketAnswer,
      status: 201,
      run: async ({ body }) => {
        const { now } = door.shop()
        return wholeTold(database(), await opened(database(), body, now()), { at: now() })
      },
    }),
    route({
      method: 'get',
      path: TICKET,
      summary: 'one ticket: its layers with their roads and tallies, what is next, its log',
      answer: ticketAnswer,
      run: async ({ place }) =>
        wholeTold(database(), await ticketOf(database(), place('ticket')), {
          at: door.shop().now(),
        }),
    }),
    route({
      method: 'post',
      path: `${TICKET}/acts`,
      summary:
        'something happened on a ticket or was settled: a station done, sheets pulled or spoiled, a film for a layer, the edition; what is sent twice under one key is taken down once',
      body: ticketAct,
      answer: ticketAnswer,
      run: async ({ body, place, request }) => {
        const whole = await ticketOf(database(), place('ticket'))
        const { person } = await keeper.whoIs(door.shop(), request)
        const by = person?.id ?? null
        await done(database(), { whole, act: body, by, now: door.shop().now() })
        return wholeTold(database(), await ticketOf(database(), whole.ticket.id), {
          at: door.shop().now(),
        })
      },
    }),
  ]
}

async function opened(
  database: Database,
  { name, inks: asked, owner, paper, editionCount }: NewTicket,
  at: Date,
): Promise<WholeTicket> {
  await expectPerson(database, owner)
  return inTransaction(database, async (inner) => {
    const chosen: Ink[] = []
    for (const each of asked) chosen.push(await inkFor(inner, each, { at }))
    const code = nextCode(name, await ticketCodes(inner))
    const taken: string[] = []
    const layers = chosen.map((ink, index) => {
      const shortName = layerShortName(code, { ink: ink.name, taken })
      taken.push(shortName)
      return { place: index + 1, inkId: ink.id, shortName }
    })
    const ticket = {
      code,
      name,
      ownerId: owner ?? null,
      paper: paper ?? null,
      editionCount: editionCount ?? null,
    }
    return openTicket(inner, { ticket: { ...ticket, closedAt: null }, layers }, { at })
  })
}

type Doing = Readonly<{ whole: WholeTicket; act: TicketAct; by: string | null; now: Date }>

async function done(database: Database, { whole, act, by, now }: Doing): Promise<void> {
  const { ticket, layers } = whole
  const at = { at: now }
  switch (act.kind) {
    case 'done':
    case 'back':
    case 'pulled':
    case 'spoiled': {
      const { kind, key, layer } = act
      expectLayer(whole, layer)
      const event = {
        sentKey: key,
        layerId: layer,
        kind,
        station: 'station' in act ? act.station : null,
        sheets: 'sheets' in act ? act.sheets : null,
        why: 'why' in act ? act.why : null,
        personId: by,
        happenedAt: momentTold(act.happenedAt, now),
      }
      return addLayerEvent(database, event, at)
    }
    case 'edition': {
      const { key, as, sheets, by: byName = null, happenedAt } = act
      const tally = {
        sentKey: key,
        ticketId: ticket.id,
        kind: as,
        sheets,
        byName: as === 'signed' ? byName : null,
        personId: by,
        happenedAt: momentTold(happenedAt, now),
      }
      return inTransaction(database, async (inner) => {
        // one after another: two who give out the last sheet at once do not both
        await holdTicket(inner, ticket.id)
        if (as !== 'signed' && !(await isTold(inner, key)))
          await expectLeft(inner, { whole, sheets })
        return addEditionTally(inner, tally, at)
      })
    }
    case 'take back': {
      const entry = { id: act.entry, ticketId: ticket.id }
      if (await takeBackEditionTally(database, entry, at)) return
      return takeBackLayerEvent(database, entry, at)
    }
    case 'film':
      expectLayer(whole, act.layer)
      await changeFilm(database, act.film, { layerId: act.layer })
      return
    case 'screen':
      expectLayer(whole, act.layer)
      return giveScreen(database, { layerId: act.layer, screenId: act.screen })
    case 'layer': {
      const ink = await inkFor(database, act.ink, at)
      const taken = layers.map(({ shortName }) => shortName)
      const shortName = layerShortName(ticket.code, { ink: ink.name, taken })
      const place = Math.max(0, ...layers.map((layer) => layer.place)) + 1
      await addLayer(database, { ticketId: ticket.id, place, inkId: ink.id, shortName }, at)
      return
    }
    case 'about': {
      const { name, owner, paper, editionCount } = act
      await expectPerson(database, owner)
      await changeTicket(database, ticket.id, {
        ...(name === undefined ? {} : { name }),
        ...(owner === undefined ? {} : { ownerId: owner }),
        ...(paper === undefined ? {} : { paper }),
        ...(editionCount === undefined ? {} : { editionCount }),
      })
      return
    }
    case 'close': {
      const { numbered, artistProofs, proofs, archivePlace = null, signedBy = null } = act
      const card = { numbered, artistProofs, proofs, archivePlace, signedBy }
      const last = layersTold(whole, await thingsFor(database, [whole])).at(-1)
      expectEdition(card, last?.good ?? 0)
      return closeTicket(database, { ticketId: ticket.id, ...card }, at)
    }
    case 'open again':
      await changeTicket(database, ticket.id, { closedAt: null })
  }
}

/** @throws Failure 'wrong input' where more would be given out than came through */
async function expectLeft(
  database: Database,
  { whole, sheets }: Readonly<{ whole: WholeTicket; sheets: number }>,
): Promise<void> {
  const good = layersTold(whole, await thingsFor(database, [whole])).at(-1)?.good ?? 0
  const { left } = countEdition(await editionTalliesOf(database, whole.ticket.id), good)
  if (sheets <= left) return
  const message = `${good} sheets came through the last layer, and ${Math.max(0, left)} of them are not given out yet: count again, or tally what is missing.`
  throw new Failure('wrong input', message, { field: 'sheets' })
}

/** Somebody's own tickets before the others, each as they stood. */
function mineFirst(
  all: readonly WholeTicket[],
  person: string | undefined,
): readonly WholeTicket[] {
  if (person === undefined) return all
  const isMine = ({ ticket }: WholeTicket): number => Number(ticket.ownerId === person)
  return all.toSorted((a, b) => isMine(b) - isMine(a))
}

function expectLayer({ layers, ticket }: WholeTicket, id: string): void {
  if (layers.some((layer) => layer.id === id)) return
  const message = `There is no such layer on ticket ${ticket.code}: open it again and choose one.`
  throw new Failure('not found', message, { field: 'layer' })
}

async function expectPerson(database: Database, id: string | null | undefined): Promise<void> {
  if (id === undefined || id === null) return
  if ((await people(database)).some((person) => person.id === id)) return
  const message = 'There is no such person in this shop: choose one who is here.'
  throw new Failure('not found', message, { field: 'owner' })
}

/** When it happened, as a device told that was out of reach; never in the time to come. */
function momentTold(told: string | undefined, now: Date): Date {
  const at = told === undefined ? now : new Date(told)
  if (at.getTime() > now.getTime() + CLOCKS_APART_MS) {
    const message = 'What happened is told for a time to come: set the clock of the device right.'
    throw new Failure('wrong input', message, { field: 'happenedAt' })
  }
  return at
}

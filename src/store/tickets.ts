import { type Database, inTransaction } from './database/database.ts'
import { type At, found, isChange, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** One print job. */
export type Ticket = Readonly<{
  id: string
  /** A letter and a number, as on its papers: H7. */
  code: string
  name: string
  ownerId: string | null
  paper: string | null
  editionCount: number | null
  closedAt: Date | null
  createdAt: Date
}>

/** One ink of a ticket. */
export type Layer = Readonly<{
  id: string
  ticketId: string
  /** In the order of printing, from 1. */
  place: number
  inkId: string | null
  /** The ticket's code and the ink's initial: H7-K. */
  shortName: string
  createdAt: Date
}>

/** A ticket with its layers in the order of printing. */
export type WholeTicket = Readonly<{ ticket: Ticket; layers: readonly Layer[] }>

/** @throws Failure 'conflict' for a code or a short name that the shop has used */
export async function openTicket(
  database: Database,
  { ticket, layers }: Readonly<{ ticket: New<Ticket>; layers: readonly New<Layer, 'ticketId'>[] }>,
  { at }: At,
): Promise<WholeTicket> {
  return inTransaction(database, async (inner) => {
    const opened = await inner
      .insertInto('ticket')
      .values({ ...ticket, id: sortableId(at), createdAt: at })
      .returningAll()
      .executeTakeFirstOrThrow()
    const added: Layer[] = []
    for (const layer of layers) {
      added.push(await addLayer(inner, { ...layer, ticketId: opened.id }, { at }))
    }
    return { ticket: opened, layers: added.sort((a, b) => a.place - b.place) }
  })
}

/** @throws Failure 'conflict' for a place or a short name that is taken */
export async function addLayer(database: Database, layer: New<Layer>, { at }: At): Promise<Layer> {
  return database
    .insertInto('layer')
    .values({ ...layer, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/** @throws Failure 'not found' */
export async function ticketOf(database: Database, id: string): Promise<WholeTicket> {
  const ticket = await database
    .selectFrom('ticket')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  const layers = await database
    .selectFrom('layer')
    .selectAll()
    .where('ticketId', '=', id)
    .orderBy('place')
    .execute()
  return { ticket: found(ticket, 'ticket'), layers }
}

/** The tickets that are not closed, newest first, with their layers. */
export async function openTickets(database: Database): Promise<readonly WholeTicket[]> {
  const tickets = await database
    .selectFrom('ticket')
    .selectAll()
    .where('closedAt', 'is', null)
    .orderBy('id', 'desc')
    .execute()
  const layers = await database
    .selectFrom('layer')
    .innerJoin('ticket', 'ticket.id', 'layer.ticketId')
    .where('ticket.closedAt', 'is', null)
    .selectAll('layer')
    .orderBy('layer.place')
    .execute()
  return tickets.map((ticket) => ({
    ticket,
    layers: layers.filter(({ ticketId }) => ticketId === ticket.id),
  }))
}

/** @throws Failure 'not found' */
export async function changeTicket(
  database: Database,
  id: string,
  changes: Partial<Omit<Ticket, 'id' | 'createdAt'>>,
): Promise<WholeTicket> {
  if (isChange(changes)) {
    await database.updateTable('ticket').set(changes).where('id', '=', id).execute()
  }
  return ticketOf(database, id)
}

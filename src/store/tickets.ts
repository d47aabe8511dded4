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
  /** The screen that was chosen for it, or that it was exposed on; null: none yet. */
  screenId: string | null
  createdAt: Date
}>

/** The edition card: what was signed, and where one of it stays. */
export type Edition = Readonly<{
  ticketId: string
  numbered: number
  artistProofs: number
  proofs: number
  archivePlace: string | null
  signedBy: string | null
  createdAt: Date
}>

/** A ticket with its layers in the order of printing. */
export type WholeTicket = Readonly<{ ticket: Ticket; layers: readonly Layer[] }>

/** The layer that a film is for, as papers name it, and its ticket; null: it is loose, or there is no film. */
export async function layerOfFilm(
  database: Database,
  filmId: string | null,
): Promise<LayerOnPapers | null> {
  if (filmId === null) return null
  const row = await database
    .selectFrom('film')
    .innerJoin('layer', 'layer.id', 'film.layerId')
    .innerJoin('ticket', 'ticket.id', 'layer.ticketId')
    .leftJoin('ink', 'ink.id', 'layer.inkId')
    .where('film.id', '=', filmId)
    .select([
      'layer.shortName',
      'ink.name as ink',
      'ticket.id as ticketId',
      'ticket.code',
      'ticket.name',
    ])
    .executeTakeFirst()
  return row ?? null
}

/** Layers of open tickets that were given a screen, the newest first. */
export async function layersGiven(
  database: Database,
): Promise<readonly Readonly<{ screenId: string | null; shortName: string }>[]> {
  return database
    .selectFrom('layer')
    .innerJoin('ticket', 'ticket.id', 'layer.ticketId')
    .where('layer.screenId', 'is not', null)
    .where('ticket.closedAt', 'is', null)
    .orderBy('layer.id', 'desc')
    .select(['layer.screenId', 'layer.shortName'])
    .execute()
}

export type LayerOnPapers = Readonly<{
  shortName: string
  /** Null: nobody chose one. */
  ink: string | null
  ticketId: string
  code: string
  /** The ticket's. */
  name: string
}>

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

/** Which screen a layer has. @throws Failure 'not found' for a layer or a screen that is not there */
export async function setLayerScreen(
  database: Database,
  { layerId, screenId }: Readonly<{ layerId: string; screenId: string | null }>,
): Promise<void> {
  const row = await database
    .updateTable('layer')
    .set({ screenId })
    .where('id', '=', layerId)
    .returning('id')
    .executeTakeFirst()
  found(row, 'layer')
}

/** In a transaction: nobody else changes what hangs on this ticket until it ends. */
export async function holdTicket(database: Database, id: string): Promise<void> {
  await database.selectFrom('ticket').select('id').where('id', '=', id).forUpdate().execute()
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

/** Tickets, those that are not closed first, then the newest first, with their layers. */
export async function tickets(
  database: Database,
  { limit }: Readonly<{ limit: number }>,
): Promise<readonly WholeTicket[]> {
  const all = await database
    .selectFrom('ticket')
    .selectAll()
    .orderBy('closedAt', (order) => order.desc().nullsFirst())
    .orderBy('id', 'desc')
    .limit(limit)
    .execute()
  if (all.length === 0) return []
  const layers = await database
    .selectFrom('layer')
    .selectAll()
    .where(
      'ticketId',
      'in',
      all.map(({ id }) => id),
    )
    .orderBy('place')
    .execute()
  return all.map((ticket) => ({
    ticket,
    layers: layers.filter(({ ticketId }) => ticketId === ticket.id),
  }))
}

/** All codes that were ever given. */
export async function ticketCodes(database: Database): Promise<readonly string[]> {
  const rows = await database.selectFrom('ticket').select('code').execute()
  return rows.map(({ code }) => code)
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

/** Closes the ticket with its edition card, which takes the place of an earlier one. */
export async function closeTicket(
  database: Database,
  card: New<Edition>,
  { at }: At,
): Promise<void> {
  await inTransaction(database, async (inner) => {
    const { ticketId, ...rest } = card
    await changeTicket(inner, ticketId, { closedAt: at })
    await inner
      .insertInto('edition')
      .values({ ...card, createdAt: at })
      .onConflict((conflict) => conflict.column('ticketId').doUpdateSet(rest))
      .execute()
  })
}

/** Null while the ticket was never closed. */
export async function editionOf(database: Database, ticketId: string): Promise<Edition | null> {
  const row = await database
    .selectFrom('edition')
    .selectAll()
    .where('ticketId', '=', ticketId)
    .executeTakeFirst()
  return row ?? null
}

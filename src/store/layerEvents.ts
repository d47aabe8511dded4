import type { StationName } from '../core/ticket/road.ts'
import type { Database } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** What happened to a layer: a station done or gone back to, sheets pulled or spoiled. */
export type LayerEvent = Readonly<{
  id: string
  /** Made where it happened: told twice, it is one. */
  sentKey: string
  layerId: string
  kind: 'done' | 'back' | 'pulled' | 'spoiled'
  /** Of what is done or gone back to. */
  station: StationName | null
  /** Of what is pulled or spoiled. */
  sheets: number | null
  why: string | null
  personId: string | null
  happenedAt: Date
  /** Taken back: kept, and not counted. */
  takenBackAt: Date | null
  createdAt: Date
}>

/**
 * Takes down what happened; what was sent before under the same key is not taken twice.
 *
 * @throws Failure 'not found' for a layer that the shop does not have
 */
export async function addLayerEvent(
  database: Database,
  event: New<LayerEvent, 'takenBackAt'>,
  { at }: At,
): Promise<void> {
  await database
    .insertInto('layerEvent')
    .values({ ...event, id: sortableId(at), createdAt: at })
    .onConflict((conflict) => conflict.column('sentKey').doNothing())
    .execute()
}

/** It is kept and not counted. Taken back twice it is taken back once. @throws Failure 'not found' */
export async function takeBackLayerEvent(
  database: Database,
  { id, ticketId }: Readonly<{ id: string; ticketId: string }>,
  { at }: At,
): Promise<void> {
  const row = await database
    .updateTable('layerEvent')
    .set((row) => ({ takenBackAt: row.fn.coalesce('takenBackAt', row.val(at)) }))
    .where('id', '=', id)
    .where('layerId', 'in', (inner) =>
      inner.selectFrom('layer').select('layer.id').where('layer.ticketId', '=', ticketId),
    )
    .returning('id')
    .executeTakeFirst()
  found(row, 'entry')
}

/** All that happened on tickets' layers and was not taken back, oldest first. */
export async function layerEventsOf(
  database: Database,
  tickets: readonly string[],
): Promise<readonly LayerEvent[]> {
  if (tickets.length === 0) return []
  return database
    .selectFrom('layerEvent')
    .innerJoin('layer', 'layer.id', 'layerEvent.layerId')
    .where('layer.ticketId', 'in', tickets)
    .where('layerEvent.takenBackAt', 'is', null)
    .selectAll('layerEvent')
    .orderBy('layerEvent.happenedAt')
    .orderBy('layerEvent.id')
    .execute()
}

import { expect, test } from 'vitest'
import { isFailure } from '../../../src/core/failure.ts'
import { addLayerEvent, layerEventsOf, takeBackLayerEvent } from '../../../src/store/layerEvents.ts'
import { addLayer, closeTicket, editionOf, tickets } from '../../../src/store/tickets.ts'
import { minute } from '../sampleRoom.ts'
import { fillWithSample } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

const NOBODY = '0'.repeat(26)

/** Layers, what happens to them, and editions. */
export function ticketSuite({ shop }: Bench): void {
  test('a layer is added in a free place, under a name of its own', async () => {
    const { database } = shop()
    const { ticket } = await fillWithSample(shop())
    const layer = { ticketId: ticket.ticket.id, place: 2, shortName: 'H7-Y' }
    await addLayer(database, layer, { at: minute(3) })
    for (const other of [
      { ...layer, place: 3 },
      { ...layer, shortName: 'H7-M' },
    ]) {
      const refused = await addLayer(database, other, { at: minute(4) }).catch(
        (cause: unknown) => cause,
      )
      expect(isFailure(refused, 'conflict') && refused.field).toMatch(/shortName|place/)
    }
    const { id: ticketId } = ticket.ticket
    const card = { ticketId, numbered: 40, artistProofs: 4, proofs: 1, archivePlace: 'drawer 3' }
    await closeTicket(database, card, { at: minute(5) })
    await closeTicket(database, { ...card, numbered: 39 }, { at: minute(6) })
    expect(await editionOf(database, ticketId)).toMatchObject({ numbered: 39, signedBy: null })
    expect(await tickets(database, { limit: 5 })).toMatchObject([
      { ticket: { closedAt: minute(6) }, layers: [{ place: 1 }, { place: 2 }] },
    ])
  })

  test('what is told of a layer twice is taken down once, and what is taken back is not counted', async () => {
    const { database } = shop()
    const { ticket } = await fillWithSample(shop())
    const [layer] = ticket.layers
    const layerId = layer?.id ?? ''
    const pulled = { layerId, sheets: 5, sentKey: 'a-key-of-it', happenedAt: minute(4) }
    const of = () => layerEventsOf(database, [ticket.ticket.id])
    for (let times = 0; times < 2; times++) {
      await addLayerEvent(database, { ...pulled, kind: 'pulled' }, { at: minute(4) })
    }
    const [event, ...more] = await of()
    expect([event, more]).toMatchObject([{ sheets: 5, station: null, takenBackAt: null }, []])
    const back = { id: event?.id ?? '', ticketId: ticket.ticket.id }
    await takeBackLayerEvent(database, back, { at: minute(5) })
    await takeBackLayerEvent(database, back, { at: minute(6) })
    expect(await of()).toEqual([])
    await expect(
      takeBackLayerEvent(database, { ...back, ticketId: NOBODY }, { at: minute(6) }),
    ).rejects.toThrow('There is no such entry')
    const wrong = { ...pulled, kind: 'done', sentKey: 'another-key' } as const
    await expect(addLayerEvent(database, wrong, { at: minute(4) })).rejects.toThrow(RangeError)
  })
}

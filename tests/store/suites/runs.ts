import { expect, test } from 'vitest'
import { density, lu, sec } from '../../../src/core/units/quantity.ts'
import { exposureOf } from '../../../src/store/exposures.ts'
import { layerEventsOf } from '../../../src/store/layerEvents.ts'
import { readings } from '../../../src/store/readings.ts'
import {
  beginRun,
  keepStepList,
  openRuns,
  runEvents,
  runOf,
  stepListOf,
  tellRun,
} from '../../../src/store/runs.ts'
import { changeScreen } from '../../../src/store/screens.ts'
import { ticketOf } from '../../../src/store/tickets.ts'
import { minute } from '../sampleRoom.ts'
import { fillWithSample } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

/** Exposures step by step, and a shop's own lists of their steps. */
export function runSuite({ shop }: Bench): void {
  test('a run begun twice is one, what it tells twice is told once, and its wedge becomes one reading', async () => {
    const { database } = shop()
    const { unit, medium, film, ticket, screen } = await fillWithSample(shop())
    const [layer] = ticket.layers
    if (layer === undefined) throw new RangeError('layers: expected at least 1')
    const exposure = { unitId: unit.id, plannedDoseLu: lu(41.5), why: ['a wedge'] }
    const asked = {
      run: { sentKey: 'begun-once', mediumId: medium.id, about: { at: 'bench' }, steps: ['lamp'] },
      planned: { exposure, filmIds: [film.id] },
    }
    const run = await beginRun(database, asked, { at: minute(4) })
    expect(await beginRun(database, asked, { at: minute(5) })).toEqual(run)
    expect(await openRuns(database, { limit: 5, begunSince: minute(1) })).toEqual([run])
    const wedge = {
      reading: {
        ...({
          kind: 'wedge',
          takenAt: minute(6),
          unitId: unit.id,
          doseLu: lu(40.5),
        } as const),
        firstDensity: density(0.05),
        increment: density(0.15),
        steps: 21,
        lastSolidStep: 7,
      },
      bands: [],
    } as const
    const clock = {
      sentKey: 'told-once',
      kind: 'clock',
      step: 'lamp',
      happenedAt: minute(5),
    } as const
    const news = {
      events: [clock],
      lit: { setCount: 24, readCount: 23.5, litSec: sec(88.5), at: minute(6) },
      wedge,
      outcome: null,
      road: null,
      endedAt: minute(7),
    }
    expect(await tellRun(database, run.id, news, { at: minute(7) })).toEqual({
      taught: true,
      exposed: false,
    })
    const again = await tellRun(database, run.id, { ...news, endedAt: null }, { at: minute(8) })
    expect(again).toEqual({ taught: false, exposed: false })
    expect(await runEvents(database, { runId: run.id })).toMatchObject([clock])
    const kept = (await readings(database)).filter(
      ({ reading }) => reading.exposureId === run.exposureId,
    )
    expect(kept).toMatchObject([{ reading: { kind: 'wedge', doseLu: 40.5 } }])
    expect(await runOf(database, run.id)).toMatchObject({
      endedAt: minute(7),
      outcomeReadingId: null,
    })
    const { exposure: lit } = await exposureOf(database, run.exposureId)
    expect(lit).toMatchObject({ screenId: null, readCount: 23.5, litAt: minute(6) })
    expect(await openRuns(database, { limit: 5, begunSince: minute(1) })).toEqual([])
    // A step that is not right without its cause is refused, and nothing of what came with it stays.
    const bare = { ...clock, sentKey: 'not-right-1', kind: 'not right' } as const
    const both = { ...news, events: [{ ...clock, sentKey: 'told-with-it' }, bare] }
    await expect(tellRun(database, run.id, both, { at: minute(9) })).rejects.toThrow(RangeError)
    expect(await runEvents(database, { runId: run.id })).toHaveLength(1)
    const moved = { sentKey: 'light-told-once', layerId: layer.id, kind: 'done' } as const
    const road = {
      layerId: layer.id,
      events: [{ ...moved, station: 'light', happenedAt: minute(6) }],
    } as const
    const next = await beginRun(
      database,
      {
        ...asked,
        run: { ...asked.run, sentKey: 'begun-on-a-screen' },
        planned: { ...asked.planned, exposure: { ...exposure, screenId: screen.id } },
      },
      { at: minute(9) },
    )
    await changeScreen(database, screen.id, { state: 'coated' })
    const onLayer = { ...news, events: [], wedge: null, road }
    const came = [
      await tellRun(database, next.id, onLayer, { at: minute(9) }),
      await tellRun(database, next.id, onLayer, { at: minute(10) }),
    ]
    expect(came.map(({ exposed }) => exposed)).toEqual([true, false])
    const whole = await ticketOf(database, layer.ticketId)
    expect(whole.layers.find(({ id }) => id === layer.id)?.screenId).toBe(screen.id)
    expect(await layerEventsOf(database, [layer.ticketId])).toMatchObject([moved])
    const own = { unitId: unit.id, entries: [{ name: 'lid', clockSec: 3 }] }
    await keepStepList(database, own, { at: minute(4) })
    expect(await stepListOf(database, own)).toEqual(own.entries)
    await keepStepList(database, { ...own, entries: null }, { at: minute(5) })
    expect(await stepListOf(database, own)).toBeNull()
  })
}

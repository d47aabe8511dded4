import { expect } from 'vitest'
import { clocksWithKeys, runningClocks, tellClock } from '../../../src/store/clocks.ts'
import { allCoatings } from '../../../src/store/coatings.ts'
import type { Database } from '../../../src/store/database/database.ts'
import {
  addDayEvent,
  addDayPlan,
  dayEvents,
  dayPlanIn,
  endDayPlan,
} from '../../../src/store/dayPlans.ts'
import { addFailure, confirmFailure, failures } from '../../../src/store/diagnosisFailures.ts'
import {
  diagnosisRows,
  dropDiagnosisRow,
  keepDiagnosisRow,
} from '../../../src/store/diagnosisRows.ts'
import {
  addEditionTally,
  editionTalliesOf,
  takeBackEditionTally,
} from '../../../src/store/editionTallies.ts'
import { fabrics } from '../../../src/store/fabrics.ts'
import { changeQueuedFilm, filmQueue } from '../../../src/store/filmQueue.ts'
import { changeFilm, filmOf } from '../../../src/store/films.ts'
import { addIncident, incidents } from '../../../src/store/incidents.ts'
import { inkLimitOf, keepInkLimit } from '../../../src/store/inkLimit.ts'
import { currencyOf, keepCurrency } from '../../../src/store/money.ts'
import { allPeople, people } from '../../../src/store/people.ts'
import { readings } from '../../../src/store/readings.ts'
import { screenWithTag } from '../../../src/store/screens.ts'
import { keepShownFirst, theShop } from '../../../src/store/shop.ts'
import { giveSignOff, machineOf } from '../../../src/store/signOffs.ts'
import { addThing, changeThing, retireThing, things } from '../../../src/store/things.ts'
import { addToneCurve, strikeToneCurve, toneCurves } from '../../../src/store/toneCurves.ts'
import { minute } from '../sampleRoom.ts'

/** What the migrations of the room's things and days must have made of older data. */
export const CASES_OF_THE_ROOM: Readonly<
  Record<string, Readonly<{ holds: (database: Database) => Promise<void> }>>
> = {
  '0019_things': {
    holds: async (database) => {
      expect(await things(database)).toEqual([])
      const { id } = await addThing(
        database,
        { kind: 'station', name: 'demo trough', facts: { places: 2 } },
        { at: minute(3) },
      )
      await changeThing(database, id, { name: 'demo trough', facts: { places: 3 }, at: minute(4) })
      expect(await things(database)).toMatchObject([{ facts: { places: 3 } }])
      await retireThing(database, id, { at: minute(5) })
      expect(await things(database)).toEqual([])
      const hurt = { place: 'demo sink', what: 'a cut', hurt: 'somebody' } as const
      await addIncident(database, { ...hurt, happenedAt: minute(2) }, { at: minute(3) })
      expect(await incidents(database, { limit: 9 })).toMatchObject([hurt])
      const failed = { runId: null, yes: ['veil'], no: [], guessed: 'not dry', cause: null }
      const failure = await addFailure(database, failed, { at: minute(3) })
      await confirmFailure(database, failure.id, { cause: 'thin coat', at: minute(4) })
      expect(await failures(database, { limit: 9 })).toMatchObject([
        { yes: ['veil'], cause: 'thin coat', confirmedAt: minute(4) },
      ])
    },
  },
  '0020_day': {
    holds: async (database) => {
      const span = { beginsAt: minute(10), closesAt: minute(50) }
      const asked = { people: [] }
      const { id } = await addDayPlan(
        database,
        { title: 'Demo', ...span, asked },
        { at: minute(3) },
      )
      const failed = { planId: id, kind: 'failed', person: 'Demo Tam', screen: 1 } as const
      const told = { ...failed, sentKey: 'demo-day-2', happenedAt: minute(12) }
      for (let times = 0; times < 2; times++) await addDayEvent(database, told, { at: minute(12) })
      expect(await dayEvents(database, { planId: id })).toMatchObject([failed])
      const today = { from: minute(0), until: minute(60) }
      expect((await dayPlanIn(database, today))?.id).toBe(id)
      await endDayPlan(database, id, { at: minute(40) })
      expect(await dayPlanIn(database, today)).toBeNull()
    },
  },
  '0022_film_by_photo': {
    holds: async (database) => {
      const film = await filmOf(database, '01k5a1b2c3000000000000000j')
      expect(film.byPhoto).toBeNull()
      const change = { byPhoto: { densitySd: 0.03 } }
      expect(await changeFilm(database, film.id, change)).toMatchObject(change)
      expect(
        (await readings(database)).every(({ reading }) => reading.marksDensitySd === null),
      ).toBe(true)
    },
  },
  '0024_edition': {
    holds: async (database) => {
      expect(await currencyOf(database)).toBeNull()
      for (const currency of ['GBP', 'EUR']) {
        await keepCurrency(database, currency, { at: minute(3) })
      }
      expect(await currencyOf(database)).toBe('EUR')
      const [film] = await filmQueue(database, { leftSince: minute(0) })
      expect(film).toMatchObject({ barMm: 100, acrossBarMm: null, acrossMeasuredMm: null })
      const across = { acrossBarMm: 149, acrossMeasuredMm: 148.5 }
      expect(await changeQueuedFilm(database, film?.id ?? '', across)).toMatchObject(across)
      const ticketId = '01k5a1b2c3000000000000000g'
      const signed = { ticketId, kind: 'signed', sheets: 4, byName: 'Demo Tam' } as const
      const told = { ...signed, sentKey: 'demo-signed-4', personId: null, happenedAt: minute(2) }
      for (let times = 0; times < 2; times++)
        await addEditionTally(database, told, { at: minute(3) })
      const [tally, ...others] = await editionTalliesOf(database, ticketId)
      expect([tally?.sheets, others]).toEqual([4, []])
      const entry = { id: tally?.id ?? '', ticketId }
      expect(await takeBackEditionTally(database, entry, { at: minute(4) })).toBe(true)
      expect(await editionTalliesOf(database, ticketId)).toEqual([])
    },
  },
  '0025_clocks': {
    holds: async (database) => {
      // a shop that was there asks for the lamp alone, as it did
      expect((await theShop(database)).shownFirst).toEqual(['light'])
      await keepShownFirst(database, ['coating', 'light'])
      expect((await theShop(database)).shownFirst).toEqual(['coating', 'light'])
      const [person] = await people(database)
      const shown = { personId: person?.id ?? '', machine: 'drying', givenAt: minute(2) } as const
      await giveSignOff(database, shown, { at: minute(3) })
      const { id: screenId } = await screenWithTag(database, '14')
      const clock = { sentKey: 'demo-clock-2', kind: 'remover', screenId, sec: 90 } as const
      for (const endedAt of [null, null, minute(5), minute(9)]) {
        await tellClock(database, { ...clock, startedAt: minute(3), endedAt }, { at: minute(9) })
      }
      expect(await clocksWithKeys(database, ['demo-clock-2'])).toMatchObject([
        { endedAt: minute(5) },
      ])
      expect(await runningClocks(database, { startedSince: minute(0) })).toEqual([])
    },
  },
  '0026_room': {
    holds: async (database) => {
      expect((await allCoatings(database)).every(({ dryNotedAt }) => dryNotedAt === null)).toBe(
        true,
      )
      const link = { kind: 'link', cause: 'not dry', sign: 'veil', isSeen: true } as const
      for (const chance of [0.2, 0.3]) {
        await keepDiagnosisRow(database, { ...link, facts: { chance } }, { at: minute(3) })
      }
      const rows = await diagnosisRows(database)
      expect(rows).toMatchObject([{ ...link, facts: { chance: 0.3 } }])
      await dropDiagnosisRow(database, rows[0]?.id ?? '')
      expect(await diagnosisRows(database)).toEqual([])
    },
  },
  '0028_machines': {
    holds: async (database) => {
      const everybody = await allPeople(database)
      expect(everybody.every(({ forgottenAt }) => forgottenAt === null)).toBe(true)
      const press = { kind: 'machine', name: 'demo press', facts: { of: 'printing' } } as const
      const { id: thingId } = await addThing(database, press, { at: minute(3) })
      const given = { personId: everybody[0]?.id ?? '', machine: 'printing' } as const
      const one = { ...given, thingId, givenAt: minute(3) }
      expect(machineOf(await giveSignOff(database, one, { at: minute(3) }))).toBe(thingId)
    },
  },
  '0029_artwork': {
    holds: async (database) => {
      expect(await toneCurves(database, { limit: 9 })).toEqual([])
      const [fabric] = await fabrics(database)
      const own = { ink: 'demo red', fabricId: fabric?.id ?? '', rulingPerCm: 20 }
      const tints = [[0.5, 0.66] as const]
      const of = { ...own, dots: 'ruled', tints } as const
      const first = await addToneCurve(database, of, { at: minute(3) })
      const newer = await addToneCurve(database, { ...of, tints: [[0.5, 0.6]] }, { at: minute(4) })
      await strikeToneCurve(database, newer.id, { at: minute(5) })
      expect(await toneCurves(database, { limit: 9 })).toEqual([first])
      expect(await inkLimitOf(database)).toBeNull()
      for (const coverage of [2.2, 2.6]) await keepInkLimit(database, coverage, { at: minute(3) })
      expect(await inkLimitOf(database)).toBe(2.6)
    },
  },
}

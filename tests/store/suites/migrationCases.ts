import { expect } from 'vitest'
import { addArtwork, changeArtwork, filmsOfArtwork } from '../../../src/store/artworks.ts'
import { tablesInOrder } from '../../../src/store/backup/tablesInOrder.ts'
import { type Database } from '../../../src/store/database/database.ts'
import { eveningKeys, eveningOf } from '../../../src/store/evenings.ts'
import { newestSurveys } from '../../../src/store/evenness.ts'
import { exposures } from '../../../src/store/exposures.ts'
import { changeQueuedFilm, filmQueue, queueFilm } from '../../../src/store/filmQueue.ts'
import { filmOf } from '../../../src/store/films.ts'
import { openJobs } from '../../../src/store/jobs.ts'
import { lampTimings } from '../../../src/store/lampTimings.ts'
import { addLayerEvent, layerEventsOf } from '../../../src/store/layerEvents.ts'
import { addPerson, people } from '../../../src/store/people.ts'
import { addPhoto, photoOf } from '../../../src/store/photos.ts'
import {
  addGlassMark,
  addPlacement,
  glassMarkIsGone,
  glassMarks,
  newestPlacement,
} from '../../../src/store/placements.ts'
import { keepPrintPlan, printPlanOf } from '../../../src/store/printPlans.ts'
import { readings } from '../../../src/store/readings.ts'
import { newestReference } from '../../../src/store/references.ts'
import { keepStepList, openRuns, runWithKey, stepListOf } from '../../../src/store/runs.ts'
import { addScreenEvent } from '../../../src/store/screenEvents.ts'
import { screenWithTag } from '../../../src/store/screens.ts'
import { credentials } from '../../../src/store/sessions.ts'
import { theShop } from '../../../src/store/shop.ts'
import { countInk, inkStocks } from '../../../src/store/stock.ts'
import { tickets } from '../../../src/store/tickets.ts'
import { setMeterReading, units } from '../../../src/store/units.ts'
import { minute } from '../sampleRoom.ts'
import { CASES_OF_THE_ROOM } from './migrationsOfRoom.ts'

type Case = Readonly<{
  /** What the migration must have made of the old data; the new schema can be used after it. */
  holds: (database: Database) => Promise<void>
}>

/** What each migration must have made of the old data, by its name. */
export const CASES: Readonly<Record<string, Case>> = {
  '0001_materials': {
    holds: async (database) => {
      expect(await tablesInOrder(database)).toContain('lamp')
      expect(await units(database)).toEqual([])
    },
  },
  '0002_shop': {
    holds: async (database) => {
      const [unit] = await units(database)
      expect(unit).toMatchObject({ unit: { luPerCount: 1.7 }, lamp: { litHours: 143.25 } })
      await expect(theShop(database)).rejects.toThrow('There is no shop here yet')
    },
  },
  '0003_films': {
    holds: async (database) => {
      expect((await theShop(database)).usualRecipe).toBe('once on each side')
      expect((await screenWithTag(database, '14')).tensionNewtonPerCm).toBe(22.5)
    },
  },
  '0004_exposures': {
    holds: async (database) => {
      const film = await filmOf(database, '01k5a1b2c3000000000000000j')
      expect(film).toMatchObject({ widthMm: 297.125, marks: [{ xMm: 12.5 }] })
      expect(await exposures(database, { limit: 9 })).toEqual([])
    },
  },
  '0005_jobs': {
    holds: async (database) => {
      const [wedge, outcome] = await readings(database)
      expect(wedge?.reading).toMatchObject({
        lastSolidStep: 6,
        firstClearStep: 8,
        lampHours: 143.5,
      })
      expect(outcome?.bands).toMatchObject([{ doseLu: 42.6, ground: 'sound', marks: 'open' }])
      expect(await openJobs(database)).toEqual([])
    },
  },
  '0006_tests': {
    holds: async (database) => {
      const [wedge] = await readings(database)
      const asked = wedge?.reading
      expect([asked?.lastSolidStep, asked?.xMm, asked?.marksDensity, asked?.noteLine]).toEqual([
        6,
        null,
        null,
        null,
      ])
      const unitId = asked?.unitId ?? ''
      expect(await lampTimings(database, { unitId })).toEqual([])
      expect(await newestSurveys(database)).toEqual([])
      expect(await newestReference(database)).toBeNull()
    },
  },
  '0007_evenings': {
    holds: async (database) => {
      const [told] = (await readings(database)).filter(({ reading }) => reading.xMm !== null)
      expect(told?.reading).toMatchObject({ xMm: 412.5, yMm: 305.25, marksDensity: 0.875 })
      const [timing] = await lampTimings(database, { unitId: told?.reading.unitId ?? '' })
      expect(timing?.pairs[1]).toEqual({ clockSec: 90, count: 52.25 })
      expect((await newestSurveys(database))[0]?.wedges).toHaveLength(2)
      expect((await newestReference(database))?.acceptedAt).toEqual(
        new Date('2026-09-14T12:30:00Z'),
      )
      expect(await eveningKeys(database)).toEqual([])
    },
  },
  '0008_photos': {
    holds: async (database) => {
      const [key = ''] = await eveningKeys(database)
      expect(await eveningOf(database, key)).toMatchObject({ day: 20710, belief: { mean: '' } })
      const id = '01k5a1b2c3000000000000000j'
      const { originalBlob } = await filmOf(database, id)
      const asked = { corners: [{ x: 1, y: 2 }] }
      const photo = { subject: 'screen', name: 'demo.jpg', originalBlob, filmId: id } as const
      const { id: photoId } = await addPhoto(database, { ...photo, asked }, { at: minute(3) })
      expect(await photoOf(database, photoId)).toMatchObject({ filmId: id, asked, answer: null })
    },
  },
  '0009_meter': {
    holds: async (database) => {
      const [before] = await units(database)
      expect(before?.unit.meterReading).toBeNull()
      const read = await setMeterReading(database, before?.unit.id ?? '', { meterReading: 62.5 })
      expect(read).toMatchObject({ meterReading: 62.5, luPerCount: 1.7 })
    },
  },
  '0010_tickets': {
    holds: async (database) => {
      const [known] = await tickets(database, { limit: 5 })
      const layerId = known?.layers[0]?.id ?? ''
      expect(await layerEventsOf(database, [known?.ticket.id ?? ''])).toEqual([])
      const done = { layerId, kind: 'done', station: 'film', sentKey: 'first-of-all' } as const
      await addLayerEvent(database, { ...done, happenedAt: minute(3) }, { at: minute(3) })
      expect(await layerEventsOf(database, [known?.ticket.id ?? ''])).toMatchObject([done])
    },
  },
  '0011_test_photos': {
    holds: async (database) => {
      const { originalBlob } = await photoOf(database, '01k5a1b2c3000000000000000v')
      const test = { subject: 'strip', name: 'demo.jpg', originalBlob, filmId: null } as const
      const { id } = await addPhoto(database, { ...test, asked: null }, { at: minute(3) })
      expect(await photoOf(database, id)).toMatchObject({ subject: 'strip', asked: null })
    },
  },
  '0012_runs': {
    holds: async (database) => {
      const [whole] = await exposures(database, { limit: 9 })
      expect(whole).toMatchObject({ screenId: '01k5a1b2c3000000000000000e', litSec: 93.5 })
      expect(await openRuns(database, { limit: 9, begunSince: minute(0) })).toEqual([])
      expect(await runWithKey(database, 'demo-run-1')).toBeNull()
      const unitId = whole?.unitId ?? ''
      await keepStepList(database, { unitId, entries: [{ name: 'lid' }] }, { at: minute(3) })
      expect(await stepListOf(database, { unitId })).toEqual([{ name: 'lid' }])
    },
  },
  '0013_placements': {
    holds: async (database) => {
      const { id: screenId } = await screenWithTag(database, '14')
      const [lit] = await units(database)
      const unitId = lit?.unit.id ?? ''
      expect(await newestPlacement(database, { screenId })).toBeNull()
      const placement = { screenId, frameClearanceMm: 150, betweenClearanceMm: 80 }
      const onGlass = { unitId, leftMm: 310.5, backMm: 55, turned: false }
      const film = { filmId: '01k5a1b2c3000000000000000j', xMm: 12.5, yMm: -3, turned: true }
      await addPlacement(database, { placement, films: [film] }, { at: minute(3) })
      const again = {
        placement: { ...placement, laidAt: minute(4), ...onGlass },
        films: [{ ...film, xMm: 40 }],
      }
      await addPlacement(database, again, { at: minute(4) })
      expect(await newestPlacement(database, { screenId })).toMatchObject({
        placement: { laidAt: minute(4), ...onGlass },
        films: [{ xMm: 40, yMm: -3, turned: true }],
      })
      const chip = { unitId, what: 'demo chip', xMm: 7, yMm: 9, widthMm: 3, heightMm: 4 }
      const { id } = await addGlassMark(database, chip, { at: minute(5) })
      expect(await glassMarks(database, { unitId })).toMatchObject([chip])
      await glassMarkIsGone(database, id, { at: minute(6) })
      expect(await glassMarks(database, { unitId })).toEqual([])
    },
  },
  '0014_print_plan': {
    holds: async (database) => {
      expect(await inkStocks(database)).toEqual([])
      const inkId = '01k5a1b2c30000000000000009'
      for (const grams of [900, 640]) {
        await countInk(database, { inkId, grams, pricePerKg: 28.5 }, { at: minute(3) })
      }
      expect(await inkStocks(database)).toMatchObject([{ inkId, grams: 640 }])
      const ticketId = '01k5a1b2c3000000000000000g'
      expect(await printPlanOf(database, ticketId)).toBeNull()
      await keepPrintPlan(database, { ticketId, asked: { potCm3: 120 } }, { at: minute(3) })
      expect(await printPlanOf(database, ticketId)).toEqual({ potCm3: 120 })
    },
  },
  '0015_film_queue': {
    holds: async (database) => {
      const [known] = await tickets(database, { limit: 5 })
      expect(known?.layers.map(({ screenId }) => screenId)).toEqual([null])
      const asked = { layerId: known?.layers[0]?.id ?? null, what: 'black', personId: null }
      for (const at of [minute(3), minute(4)]) {
        await queueFilm(database, { ...asked, sentKey: 'asked-for-twice' }, { at })
      }
      const [waiting, ...others] = await filmQueue(database, { leftSince: minute(5) })
      expect([waiting?.askedAt, others]).toEqual([minute(3), []])
      const left = { leftAt: minute(6), leftAs: 'fetched' } as const
      await changeQueuedFilm(database, waiting?.id ?? '', left)
      expect(await filmQueue(database, { leftSince: minute(7) })).toEqual([])
    },
  },
  '0016_artwork': {
    holds: async (database) => {
      const { originalBlob } = await filmOf(database, '01k5a1b2c3000000000000000j')
      const drawing = { name: 'demo heron', fileName: 'demo heron.svg', originalBlob }
      const { id } = await addArtwork(database, { ...drawing, plan: null }, { at: minute(3) })
      const plan = { mode: 'single', widthMm: 412.5 }
      expect(await changeArtwork(database, id, { plan })).toMatchObject({ plan, seen: null })
      expect(await filmsOfArtwork(database, id)).toEqual([])
    },
  },
  '0017_register': {
    holds: async (database) => {
      const screen = await screenWithTag(database, '14')
      expect(screen).toMatchObject({ haze: false, tensionMeasuredAt: null })
      const event = { screenId: screen.id, kind: 'state', state: 'lost' } as const
      const lost = {
        event: { ...event, happenedAt: minute(3) },
        changes: { state: 'lost' } as const,
      }
      expect(await addScreenEvent(database, lost, { at: minute(3) })).toMatchObject({
        state: 'lost',
      })
    },
  },
  '0018_people': {
    holds: async (database) => {
      const [person] = await people(database)
      expect(person).toMatchObject({ role: 'technician', deleteAfter: null })
      expect(await credentials(database)).toEqual([])
      const guest = { name: 'Demo guest', role: 'guest' } as const
      expect(await addPerson(database, guest, { at: minute(3) })).toMatchObject(guest)
    },
  },
  ...CASES_OF_THE_ROOM,
}

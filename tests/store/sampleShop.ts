import { createHash } from 'node:crypto'
import { density, lu, mm, sec, um } from '../../src/core/units/quantity.ts'
import type { BlobRecord } from '../../src/store/blobs/blobRecord.ts'
import { storeBlob } from '../../src/store/blobs/blobStore.ts'
import { addSurvey, type WholeSurvey } from '../../src/store/evenness.ts'
import { type Exposure, planExposure, recordExposure } from '../../src/store/exposures.ts'
import { addFilm, type Film, filmIsReady } from '../../src/store/films.ts'
import { type Forecast, keepForecast } from '../../src/store/forecasts.ts'
import { type Job, queueJob } from '../../src/store/jobs.ts'
import { addLampTiming, type LampTiming } from '../../src/store/lampTimings.ts'
import type { OpenShop } from '../../src/store/openShop.ts'
import { addReading, type WholeReading } from '../../src/store/readings.ts'
import { acceptReference, type CalibrationReference } from '../../src/store/references.ts'
import { openTicket, type WholeTicket } from '../../src/store/tickets.ts'
import { fillRoom, minute, type SampleRoom } from './sampleRoom.ts'

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')

export async function* bytesOf(...texts: readonly string[]): AsyncIterable<Uint8Array> {
  for (const text of texts) yield new TextEncoder().encode(text)
}

export type Sample = SampleRoom &
  Readonly<{
    ticket: WholeTicket
    original: BlobRecord
    film: Film
    forecast: Forecast
    exposure: Exposure
    wedge: WholeReading
    strip: WholeReading
    outcome: WholeReading
    timing: LampTiming
    survey: WholeSurvey
    reference: CalibrationReference
    job: Job
  }>

/** The demo room with one of every record of its work, all numbers different. */
export async function fillWithSample(open: Pick<OpenShop, 'database' | 'blobs'>): Promise<Sample> {
  const { database } = open
  const at = minute(1)
  const room = await fillRoom(database)
  const { person, unit, lamp, fabric, emulsion, batch, base, medium, ink, screen, coating } = room
  const ticket = await openTicket(
    database,
    {
      ticket: {
        code: 'H7',
        name: 'Demo heron',
        ownerId: person.id,
        paper: 'demo 250 g',
        editionCount: 44,
      },
      layers: [{ place: 1, inkId: ink.id, shortName: 'H7-K' }],
    },
    { at },
  )
  const blobs = open.blobs
  const original = await storeBlob(
    blobs,
    bytesOf('a film, ', 'as it came'),
    { mediaType: 'image/png', limitBytes: 1000 },
    { at },
  )
  const map = await storeBlob(
    blobs,
    bytesOf('its density map'),
    { mediaType: 'image/tiff', limitBytes: 1000 },
    { at },
  )
  const leak = await storeBlob(
    blobs,
    bytesOf('its leak map'),
    { mediaType: 'application/octet-stream', limitBytes: 1000 },
    { at },
  )
  const waiting = await addFilm(
    database,
    {
      kind: 'read',
      name: 'Demo heron, black',
      layerId: ticket.layers[0]?.id ?? null,
      ownerId: person.id,
      baseId: base.id,
      mediumId: medium.id,
      originalBlob: original.sha256,
      fileName: 'heron – K.png',
      resolutionDpi: 720,
      solidDensity: density(3.4),
      readAs: 'coverage',
    },
    { at: minute(2) },
  )
  const film = await filmIsReady(
    database,
    waiting.id,
    {
      widthMm: mm(297.125),
      heightMm: mm(420.0625),
      pixelUm: um(35.27),
      mapBlob: map.sha256,
      marks: [{ weakest: { xMm: 12.5, yMm: 180.25 } }, 'two "marks"', null],
    },
    { at: minute(3) },
  )
  const forecast = await keepForecast(
    database,
    {
      filmId: film.id,
      setupHash: sha256('set-up'),
      version: 2,
      setup: { lamp: { distanceMm: 815 } },
      answer: { lowLu: 31.5, shares: [0.25, 0.125] },
      leakBlob: leak.sha256,
    },
    { at: minute(4) },
  )
  const planned = await planExposure(
    database,
    {
      exposure: {
        screenId: screen.id,
        coatingId: coating.id,
        unitId: unit.id,
        lampId: lamp.id,
        personId: person.id,
        plannedDoseLu: lu(42.5),
        plannedLowLu: lu(36),
        plannedHighLu: lu(47),
        chanceGood: 0.8125,
        why: ['last wedge 12 days ago', 'a new bucket'],
      },
      filmIds: [film.id],
    },
    { at: minute(5) },
  )
  const exposure = await recordExposure(
    database,
    planned.exposure.id,
    { setCount: 25, readCount: 25.5, litSec: sec(93.5) },
    { at: minute(6) },
  )
  const under = {
    unitId: unit.id,
    lampHours: 143.5,
    emulsionId: emulsion.id,
    batchId: batch.id,
    fabricId: fabric.id,
    screenId: screen.id,
    recipe: 'once on each side',
  }
  const wedge = await addReading(
    database,
    {
      reading: {
        ...under,
        kind: 'wedge',
        takenAt: minute(7),
        exposureId: exposure.id,
        doseLu: lu(42.5),
        firstDensity: density(0.05),
        increment: density(0.15),
        steps: 21,
        lastSolidStep: 6,
        firstClearStep: 8,
      },
      bands: [],
    },
    { at: minute(8) },
  )
  const strip = await addReading(
    database,
    {
      reading: {
        ...under,
        kind: 'strip',
        takenAt: minute(9),
        mediumId: medium.id,
        baseId: base.id,
      },
      bands: [
        { doseLu: lu(20), grade: 'washed off' },
        { doseLu: lu(28), ground: 'soft', marks: 'open' },
        { doseLu: lu(39.2), grade: 'good' },
      ],
    },
    { at: minute(10) },
  )
  const outcome = await addReading(
    database,
    {
      reading: {
        ...under,
        kind: 'outcome',
        takenAt: minute(11),
        filmId: film.id,
        personId: person.id,
        xMm: mm(412.5),
        yMm: mm(305.25),
        marksDensity: density(0.875),
        noteLine: '2026-09-14; heron; 42.6; good',
      },
      bands: [{ doseLu: lu(42.6), grade: 'good' }],
    },
    { at: minute(12) },
  )
  const timing = await addLampTiming(
    database,
    {
      unitId: unit.id,
      lampId: lamp.id,
      takenAt: minute(14),
      started: 'cold',
      lampHours: 143.75,
      pairs: [
        { clockSec: 95, count: 52.25 },
        { clockSec: 31.5, count: 11 },
      ],
    },
    { at: minute(15) },
  )
  const survey = await addSurvey(
    database,
    {
      survey: {
        unitId: unit.id,
        lampId: lamp.id,
        takenAt: minute(16),
        glassWidthMm: mm(1210),
        glassHeightMm: mm(905.5),
        doseLu: lu(61.5),
        firstDensity: density(0.05),
        increment: density(0.1),
        steps: 31,
      },
      wedges: [
        { xMm: mm(100), yMm: mm(90), lastSolidStep: 8, firstClearStep: 11 },
        { xMm: mm(605), yMm: mm(450), lastSolidStep: 9, firstClearStep: null },
        { xMm: mm(1110), yMm: mm(810), lastSolidStep: 7, firstClearStep: 10 },
      ],
    },
    { at: minute(17) },
  )
  const reference = await acceptReference(database, { byId: person.id }, { at: minute(18) })
  const job = await queueJob(
    database,
    { kind: 'forecast', payload: { filmId: film.id }, workKey: `forecast ${film.id}` },
    { at: minute(13) },
  )
  return {
    ...room,
    ticket,
    original,
    film,
    forecast,
    exposure,
    wedge,
    strip,
    outcome,
    timing,
    survey,
    reference,
    job,
  }
}

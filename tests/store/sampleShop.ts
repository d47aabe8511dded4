import { createHash } from 'node:crypto'
import { density, lu, mm, perCm, sec, share, um } from '../../src/core/units/quantity.ts'
import { addBase, type Base } from '../../src/store/bases.ts'
import { storeBlob } from '../../src/store/blobs/blobStore.ts'
import type { BlobRecord } from '../../src/store/blobs/blobRecord.ts'
import { type Coating, coatScreen } from '../../src/store/coatings.ts'
import {
  addBatch,
  addEmulsion,
  type Batch,
  type Emulsion,
} from '../../src/store/emulsions.ts'
import { type Exposure, planExposure, recordExposure } from '../../src/store/exposures.ts'
import { addFabric, type Fabric } from '../../src/store/fabrics.ts'
import { addFilm, type Film, filmIsReady } from '../../src/store/films.ts'
import { type Forecast, keepForecast } from '../../src/store/forecasts.ts'
import { addFrame, type Frame } from '../../src/store/frames.ts'
import { addInk, type Ink } from '../../src/store/inks.ts'
import { type Job, queueJob } from '../../src/store/jobs.ts'
import { addMedium, type Medium } from '../../src/store/media.ts'
import type { OpenShop } from '../../src/store/openShop.ts'
import { addPerson, type Person } from '../../src/store/people.ts'
import { addReading, type WholeReading } from '../../src/store/readings.ts'
import { addScreen, type Screen } from '../../src/store/screens.ts'
import { foundShop, type Shop } from '../../src/store/shop.ts'
import { openTicket, type WholeTicket } from '../../src/store/tickets.ts'
import { addUnit, fitLamp, type Lamp, type Unit } from '../../src/store/units.ts'

/** A moment in the test's own time: minutes after a day in 2026. */
export function minute(minutes: number): Date {
  return new Date(Date.UTC(2026, 8, 14, 8, minutes, 17, 431))
}

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')

export async function* bytesOf(...texts: readonly string[]): AsyncIterable<Uint8Array> {
  for (const text of texts) yield new TextEncoder().encode(text)
}

export type Sample = Readonly<{
  shop: Shop
  person: Person
  unit: Unit
  lamp: Lamp
  fabric: Fabric
  frame: Frame
  emulsion: Emulsion
  batch: Batch
  base: Base
  medium: Medium
  ink: Ink
  screen: Screen
  coating: Coating
  ticket: WholeTicket
  original: BlobRecord
  film: Film
  forecast: Forecast
  exposure: Exposure
  wedge: WholeReading
  strip: WholeReading
  outcome: WholeReading
  job: Job
}>

/** An invented demo shop with one of every record, all numbers different. */
export async function fillWithSample(open: Pick<OpenShop, 'database' | 'blobs'>): Promise<Sample> {
  const { database } = open
  const at = minute(1)
  const person = await addPerson(
    database,
    { name: 'Demo Ölmez', role: 'technician', className: 'Thursday', units: 'inch' },
    { at },
  )
  const unit = await addUnit(
    database,
    { name: 'the demo lamp', counts: 'light units', luPerCount: 1.7, glassWidthMm: mm(1210) },
    { at },
  )
  const lamp = await fitLamp(
    database,
    {
      unitId: unit.id,
      kind: 'point',
      distanceMm: mm(815),
      sourceRadiusMm: mm(21),
      litHours: 143.25,
    },
    { at },
  )
  const fabric = await addFabric(
    database,
    {
      name: '90-48',
      threadsPerCm: perCm(90),
      threadUm: um(48),
      thicknessUm: um(72.5),
      colour: 'yellow',
      dyed: true,
    },
    { at },
  )
  const frame = await addFrame(
    database,
    { name: 'A2', insideWidthMm: mm(603), insideHeightMm: mm(805), outsideWidthMm: mm(681) },
    { at },
  )
  const emulsion = await addEmulsion(
    database,
    {
      name: 'demo ready-mixed',
      kind: 'ready-mixed',
      model: 'absorbing',
      gelDoseLu: lu(6.3),
      penetrationDepthUm: um(37.1),
      refractiveIndex: 1.52,
    },
    { at },
  )
  const batch = await addBatch(
    database,
    { emulsionId: emulsion.id, name: 'bucket 3', mixedAt: at, expiresAt: minute(90_000) },
    { at },
  )
  const base = await addBase(
    database,
    { name: 'matt film', baseDensity: density(0.16), thicknessUm: um(102), status: 'measured' },
    { at },
  )
  const medium = await addMedium(
    database,
    {
      name: 'soft pencil',
      madeBy: 'hand',
      weakestMeanDensity: density(0.93),
      weakestSdDensity: density(0.2),
      status: 'judged',
    },
    { at },
  )
  const ink = await addInk(
    database,
    { name: 'demo black', labL: 12.5, labA: -0.75, labB: 1.25, opacity: share(0.98), status: 'estimated' },
    { at },
  )
  const shop = await foundShop(
    database,
    {
      name: 'Demo room (invented)',
      kind: 'demo',
      units: 'mm',
      usualUnitId: unit.id,
      usualFabricId: fabric.id,
      usualBaseId: base.id,
      usualRecipe: 'once on each side',
    },
    { at },
  )
  const screen = await addScreen(
    database,
    {
      tag: '14',
      frameId: frame.id,
      fabricId: fabric.id,
      state: 'clean',
      rackSlot: 'B 3',
      ownerId: person.id,
      keptUntil: minute(50_000),
      tensionNewtonPerCm: 22.5,
    },
    { at },
  )
  const coating = await coatScreen(
    database,
    { screenId: screen.id, batchId: batch.id, recipe: 'once on each side', eomUm: um(8.5), coatedAt: at },
    { at },
  )
  const ticket = await openTicket(
    database,
    {
      ticket: { code: 'H7', name: 'Demo heron', ownerId: person.id, paper: 'demo 250 g', editionCount: 44 },
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
      reading: { ...under, kind: 'strip', takenAt: minute(9), mediumId: medium.id, baseId: base.id },
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
      reading: { ...under, kind: 'outcome', takenAt: minute(11), filmId: film.id, personId: person.id },
      bands: [{ doseLu: lu(42.6), grade: 'good' }],
    },
    { at: minute(12) },
  )
  const job = await queueJob(
    database,
    { kind: 'forecast', payload: { filmId: film.id }, workKey: `forecast ${film.id}` },
    { at: minute(13) },
  )
  return {
    shop,
    person,
    unit,
    lamp,
    fabric,
    frame,
    emulsion,
    batch,
    base,
    medium,
    ink,
    screen,
    coating,
    ticket,
    original,
    film,
    forecast,
    exposure,
    wedge,
    strip,
    outcome,
    job,
  }
}

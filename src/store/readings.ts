import { Failure } from '../core/failure.ts'
import type { Density, Lu, Mm } from '../core/units/quantity.ts'
import { type Database, inTransaction } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

export type Grade = 'washed off' | 'soft' | 'good' | 'filling' | 'filled'

/** What was measured, and under what: the truth that all estimates follow from. */
export type Reading = Readonly<{
  id: string
  kind: 'wedge' | 'strip' | 'outcome'
  takenAt: Date
  personId: string | null
  exposureId: string | null
  unitId: string
  lampHours: number | null
  emulsionId: string | null
  batchId: string | null
  recipe: string | null
  fabricId: string | null
  screenId: string | null
  filmId: string | null
  mediumId: string | null
  baseId: string | null
  /** Of a wedge; null for the others. */
  doseLu: Lu | null
  firstDensity: Density | null
  increment: Density | null
  steps: number | null
  /** 0: none held. */
  lastSolidStep: number | null
  /** steps + 1: none was clear; null: nobody looked. */
  firstClearStep: number | null
  /** Where it lay on the glass, from the front left corner; both or neither. */
  xMm: Mm | null
  yMm: Mm | null
  /** What the marks of a film that was read counted as, above its base. */
  marksDensity: Density | null
  /** How far that can be off, of a film read from a photo; null: as films differ. */
  marksDensitySd: Density | null
  note: string | null
  /** The line of the shop's old notes that it was taken from. */
  noteLine: string | null
  /** A reading that was struck out is kept, and not believed. */
  struckAt: Date | null
  struckReason: string | null
  struckById: string | null
  createdAt: Date
}>

/** A dose and how it came out, as a grade or as two ticks. */
export type Band = Readonly<{
  readingId: string
  number: number
  doseLu: Lu
  grade: Grade | null
  ground: 'washed off' | 'soft' | 'sound' | null
  marks: 'open' | 'filling' | 'filled' | null
}>

/** A reading with its bands: several of a strip, one of an outcome, none of a wedge. */
export type WholeReading = Readonly<{ reading: Reading; bands: readonly Band[] }>

export type NewBand = Readonly<{ doseLu: Lu }> &
  (
    | Readonly<{ grade: Grade }>
    | Readonly<{ ground: NonNullable<Band['ground']>; marks: NonNullable<Band['marks']> }>
  )

type Struck = 'struckAt' | 'struckReason' | 'struckById'

export type NewReading = Readonly<{ reading: New<Reading, Struck>; bands: readonly NewBand[] }>

/**
 * Takes down a reading; bands are numbered as they come, from 1.
 *
 * @throws Failure 'not found' for a unit, screen … that the shop does not have; RangeError for a
 * wedge with bands, an outcome without its one, a strip with fewer than two
 */
export async function addReading(
  database: Database,
  reading: NewReading,
  { at }: At,
): Promise<WholeReading> {
  const [taken] = await addReadings(database, [reading], { at })
  if (taken === undefined) throw new RangeError('readings: expected one back, got 0')
  return taken
}

/** Rows in one statement: its parameters stay under what the protocol can count. */
const MOST_ROWS = 1000

/**
 * Takes down many readings, all or none; they come back in their order.
 *
 * @throws as `addReading` does
 */
export async function addReadings(
  database: Database,
  all: readonly NewReading[],
  { at }: At,
): Promise<readonly WholeReading[]> {
  for (const { reading, bands } of all) expectBands(reading.kind, bands.length)
  const rows = all.map(({ reading }) => ({ ...reading, id: sortableId(at), createdAt: at }))
  const bandRows = all.flatMap(({ bands }, index) =>
    bands.map((band, number) => ({
      ...band,
      readingId: rows[index]?.id ?? '',
      number: number + 1,
    })),
  )
  return inTransaction(database, async (inner) => {
    const taken: Reading[] = []
    for (const part of partsOf(rows)) {
      taken.push(...(await inner.insertInto('reading').values(part).returningAll().execute()))
    }
    const bands: Band[] = []
    for (const part of partsOf(bandRows)) {
      bands.push(...(await inner.insertInto('band').values(part).returningAll().execute()))
    }
    const byId = new Map(taken.map((reading) => [reading.id, reading]))
    return withBands(
      rows.map(({ id }) => found(byId.get(id), 'reading')),
      bands,
    )
  })
}

/**
 * Strikes a reading out, with the reason; it is kept.
 *
 * @throws Failure 'not found', or 'conflict' when it is struck out already
 */
export async function strikeReading(
  database: Database,
  id: string,
  { reason, byId }: Readonly<{ reason: string; byId: string | null }>,
  { at }: At,
): Promise<Reading> {
  return inTransaction(database, async (inner) => {
    const row = await inner
      .updateTable('reading')
      .set({ struckAt: at, struckReason: reason, struckById: byId })
      .where('id', '=', id)
      .where('struckAt', 'is', null)
      .returningAll()
      .executeTakeFirst()
    if (row !== undefined) return row
    await readingOf(inner, id)
    throw new Failure('conflict', 'This reading is struck out already.')
  })
}

/** @throws Failure 'not found' */
export async function readingOf(database: Database, id: string): Promise<WholeReading> {
  const row = await database
    .selectFrom('reading')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst()
  const bands = await database
    .selectFrom('band')
    .selectAll()
    .where('readingId', '=', id)
    .orderBy('number')
    .execute()
  return { reading: found(row, 'reading'), bands }
}

/** How the readings stand, in three numbers: whoever kept them knows whether anything is new. */
export type ReadingsStamp = Readonly<{ count: number; struck: number; newestId: string | null }>

export async function readingsStamp(database: Database): Promise<ReadingsStamp> {
  return database
    .selectFrom('reading')
    .select(({ fn }) => [
      fn.countAll<number>().as('count'),
      fn.count<number>('struckAt').as('struck'),
      fn.max<string | null>('id').as('newestId'),
    ])
    .executeTakeFirstOrThrow()
}

/**
 * Readings in the order they were taken, oldest first: what an estimate replays.
 *
 * @param afterId only those whose name is greater: that were taken down later
 */
export async function readings(
  database: Database,
  { withStruck = false, afterId }: Readonly<{ withStruck?: boolean; afterId?: string }> = {},
): Promise<readonly WholeReading[]> {
  let query = database.selectFrom('reading').selectAll().orderBy('takenAt').orderBy('id')
  let bands = database.selectFrom('band').selectAll().orderBy('readingId').orderBy('number')
  if (!withStruck) query = query.where('struckAt', 'is', null)
  if (afterId !== undefined) {
    query = query.where('id', '>', afterId)
    bands = bands.where('readingId', '>', afterId)
  }
  return withBands(await query.execute(), await bands.execute())
}

/** What was struck out, without its bands. */
export async function struckReadings(database: Database): Promise<readonly Reading[]> {
  return database.selectFrom('reading').selectAll().where('struckAt', 'is not', null).execute()
}

/** How often each of the lines of old notes was taken down. */
export async function noteLinesTaken(database: Database): Promise<ReadonlyMap<string, number>> {
  const rows = await database
    .selectFrom('reading')
    .select(({ fn }) => ['noteLine', fn.countAll<number>().as('times')])
    .where('noteLine', 'is not', null)
    .groupBy('noteLine')
    .execute()
  return new Map(rows.map(({ noteLine, times }) => [noteLine ?? '', times]))
}

function withBands(all: readonly Reading[], bands: readonly Band[]): readonly WholeReading[] {
  const byReading = new Map<string, Band[]>()
  for (const band of bands) {
    const same = byReading.get(band.readingId)
    if (same === undefined) byReading.set(band.readingId, [band])
    else same.push(band)
  }
  return all.map((reading) => ({
    reading,
    bands: (byReading.get(reading.id) ?? []).sort((a, b) => a.number - b.number),
  }))
}

function partsOf<Row>(rows: readonly Row[]): readonly (readonly Row[])[] {
  const count = Math.ceil(rows.length / MOST_ROWS)
  return Array.from({ length: count }, (_, at) => rows.slice(at * MOST_ROWS, (at + 1) * MOST_ROWS))
}

function expectBands(kind: Reading['kind'], count: number): void {
  const [low, high] = { wedge: [0, 0], strip: [2, 60], outcome: [1, 1] }[kind] as [number, number]
  if (!(count >= low && count <= high)) {
    throw new RangeError(`bands of a ${kind}: expected ${low} to ${high}, got ${count}`)
  }
}

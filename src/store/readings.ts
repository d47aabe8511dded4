import { Failure } from '../core/failure.ts'
import type { Density, Lu } from '../core/units/quantity.ts'
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
  note: string | null
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

/**
 * Takes down a reading; bands are numbered as they come, from 1.
 *
 * @throws Failure 'not found' for a unit, screen … that the shop does not have; RangeError for a
 * wedge with bands, an outcome without its one, a strip with fewer than two
 */
export async function addReading(
  database: Database,
  { reading, bands }: Readonly<{ reading: New<Reading, Struck>; bands: readonly NewBand[] }>,
  { at }: At,
): Promise<WholeReading> {
  expectBands(reading.kind, bands.length)
  return inTransaction(database, async (inner) => {
    const taken = await inner
      .insertInto('reading')
      .values({ ...reading, id: sortableId(at), createdAt: at })
      .returningAll()
      .executeTakeFirstOrThrow()
    const rows = bands.map((band, index) => ({ ...band, readingId: taken.id, number: index + 1 }))
    const kept =
      rows.length === 0 ? [] : await inner.insertInto('band').values(rows).returningAll().execute()
    return { reading: taken, bands: kept.sort((a, b) => a.number - b.number) }
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

/** Readings in the order they were taken, oldest first: what an estimate replays. */
export async function readings(
  database: Database,
  { withStruck = false }: Readonly<{ withStruck?: boolean }> = {},
): Promise<readonly WholeReading[]> {
  const query = database.selectFrom('reading').selectAll().orderBy('takenAt').orderBy('id')
  const all = await (withStruck ? query : query.where('struckAt', 'is', null)).execute()
  const bands = new Map<string, Band[]>()
  for (const band of await database.selectFrom('band').selectAll().orderBy('number').execute()) {
    bands.set(band.readingId, [...(bands.get(band.readingId) ?? []), band])
  }
  return all.map((reading) => ({ reading, bands: bands.get(reading.id) ?? [] }))
}

function expectBands(kind: Reading['kind'], count: number): void {
  const [low, high] = { wedge: [0, 0], strip: [2, 60], outcome: [1, 1] }[kind] as [number, number]
  if (!(count >= low && count <= high)) {
    throw new RangeError(`bands of a ${kind}: expected ${low} to ${high}, got ${count}`)
  }
}

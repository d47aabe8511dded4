import type { Mm } from '../core/units/quantity.ts'
import { type Database, inTransaction } from './database/database.ts'
import { type At, found, type New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** An exposure unit. */
export type Unit = Readonly<{
  id: string
  name: string
  counts: 'light units' | 'seconds'
  /** One step of its counter in the light units that emulsions are reckoned in. */
  luPerCount: number
  glassWidthMm: Mm | null
  glassHeightMm: Mm | null
  /** What a hand light meter shows where a second gives one count; null: nobody said. */
  meterReading: number | null
  retiredAt: Date | null
  createdAt: Date
}>

/** A lamp, from when it was fitted into a unit until it was taken out. */
export type Lamp = Readonly<{
  id: string
  unitId: string
  kind: 'point' | 'bank'
  distanceMm: Mm
  /** Of a point lamp; a bank has none. */
  sourceRadiusMm: Mm | null
  litHours: number
  fittedAt: Date
  removedAt: Date | null
  createdAt: Date
}>

/** A unit with the lamp that is in it now; null while it has none. */
export type LitUnit = Readonly<{ unit: Unit; lamp: Lamp | null; isFirstLamp: boolean }>

/** @throws Failure 'conflict' for a name that the shop has */
export async function addUnit(database: Database, unit: New<Unit>, { at }: At): Promise<Unit> {
  return database
    .insertInto('unit')
    .values({ ...unit, id: sortableId(at), createdAt: at })
    .returningAll()
    .executeTakeFirstOrThrow()
}

/**
 * Puts a lamp into a unit; the one that was in it is taken out.
 *
 * @throws Failure 'not found' for a unit that the shop does not have
 */
export async function fitLamp(
  database: Database,
  lamp: New<Lamp, 'fittedAt' | 'removedAt'>,
  { at }: At,
): Promise<Lamp> {
  return inTransaction(database, async (inner) => {
    await inner
      .updateTable('lamp')
      .set({ removedAt: at })
      .where('unitId', '=', lamp.unitId)
      .where('removedAt', 'is', null)
      .execute()
    return inner
      .insertInto('lamp')
      .values({ ...lamp, id: sortableId(at), fittedAt: at, createdAt: at })
      .returningAll()
      .executeTakeFirstOrThrow()
  })
}

/** All lamps that the shop's units have had, in the order they were fitted. */
export async function lamps(database: Database): Promise<readonly Lamp[]> {
  return database.selectFrom('lamp').selectAll().orderBy('fittedAt').orderBy('id').execute()
}

/** Counts hours on a lamp, 0 or more. @throws Failure 'not found' */
export async function addLampHours(
  database: Database,
  id: string,
  { hours }: Readonly<{ hours: number }>,
): Promise<Lamp> {
  if (!(hours >= 0 && hours <= 1e6)) {
    throw new RangeError(`hours: expected 0 to 1000000, got ${hours}`)
  }
  const row = await database
    .updateTable('lamp')
    .set((lamp) => ({ litHours: lamp('litHours', '+', hours) }))
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'lamp')
}

/**
 * The light in which a unit's seconds are counted, as a hand meter shows it, in the meter's own unit.
 *
 * @param meterReading 0.000001 to 1000000000
 * @throws Failure 'not found'
 */
export async function setMeterReading(
  database: Database,
  id: string,
  { meterReading }: Readonly<{ meterReading: number }>,
): Promise<Unit> {
  const row = await database
    .updateTable('unit')
    .set({ meterReading })
    .where('id', '=', id)
    .returningAll()
    .executeTakeFirst()
  return found(row, 'exposure unit')
}

/** The units in use with their lamps, in the order they came. */
export async function units(database: Database): Promise<readonly LitUnit[]> {
  const all = await database
    .selectFrom('unit')
    .selectAll()
    .where('retiredAt', 'is', null)
    .orderBy('id')
    .execute()
  const fitted = await lamps(database)
  return all.map((unit) => litUnit(unit, fitted))
}

/** @throws Failure 'not found' */
export async function unitOf(database: Database, id: string): Promise<LitUnit> {
  const unit = await database.selectFrom('unit').selectAll().where('id', '=', id).executeTakeFirst()
  return litUnit(found(unit, 'exposure unit'), await lamps(database))
}

function litUnit(unit: Unit, fitted: readonly Lamp[]): LitUnit {
  const own = fitted.filter(({ unitId }) => unitId === unit.id)
  const lamp = own.find(({ removedAt }) => removedAt === null) ?? null
  return { unit, lamp, isFirstLamp: own.length <= 1 }
}

import type { Database } from './database/database.ts'
import { type At, asJson, found, type Json } from './database/record.ts'

/** A forecast is known by its film, its set-up and the way it was computed. */
export type ForecastKey = Readonly<{
  filmId: string
  /** The sha-256 of the set-up as text. */
  setupHash: string
  /** Of the way of computing; a new one makes the old forecasts worth nothing. */
  version: number
}>

/** What was forecast: kept so that it need not be computed again, and lost without harm. */
export type Forecast = ForecastKey &
  Readonly<{
    setup: Json
    answer: Json
    leakBlob: string | null
    usedAt: Date
    createdAt: Date
  }>

/**
 * Keeps a forecast, in place of an older one of the same key.
 *
 * @throws Failure 'not found' for a film or file that the shop does not have
 */
export async function keepForecast(
  database: Database,
  { setup, answer, ...forecast }: Omit<Forecast, 'usedAt' | 'createdAt'>,
  { at }: At,
): Promise<Forecast> {
  const fresh = { setup: asJson(setup), answer: asJson(answer), usedAt: at, createdAt: at }
  const row = await database
    .insertInto('forecast')
    .values({ ...forecast, ...fresh })
    .onConflict((conflict) =>
      conflict
        .columns(['filmId', 'setupHash', 'version'])
        .doUpdateSet({ ...fresh, leakBlob: forecast.leakBlob }),
    )
    .returningAll()
    .executeTakeFirst()
  return found(row, 'forecast')
}

/** The forecast that is kept; null when it has to be computed. Being asked keeps it longer. */
export async function forecastOrNull(
  database: Database,
  { filmId, setupHash, version }: ForecastKey,
  { at }: At,
): Promise<Forecast | null> {
  const row = await database
    .updateTable('forecast')
    .set({ usedAt: at })
    .where('filmId', '=', filmId)
    .where('setupHash', '=', setupHash)
    .where('version', '=', version)
    .returningAll()
    .executeTakeFirst()
  return row ?? null
}

/** Forgets all forecasts of a film, because it was read anew. */
export async function forgetForecastsOf(database: Database, filmId: string): Promise<void> {
  await database.deleteFrom('forecast').where('filmId', '=', filmId).execute()
}

/** Forgets forecasts nobody asked for since, and those of other versions; says how many. */
export async function forgetOldForecasts(
  database: Database,
  { unusedSince, version }: Readonly<{ unusedSince: Date; version: number }>,
): Promise<number> {
  const { numDeletedRows } = await database
    .deleteFrom('forecast')
    .where((row) => row.or([row('usedAt', '<', unusedSince), row('version', '<>', version)]))
    .executeTakeFirstOrThrow()
  return Number(numDeletedRows)
}

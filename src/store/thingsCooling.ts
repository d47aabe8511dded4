import type { Database } from './database/database.ts'

/** When the lamp of an exposure went out, and when its last step was done. */
export type Cooling = Readonly<{ unitId: string; step: string; runId: string; happenedAt: Date }>

/** Ends of the steps between which lamps cool, oldest first. */
export async function coolings(database: Database): Promise<readonly Cooling[]> {
  return database
    .selectFrom('runEvent')
    .innerJoin('run', 'run.id', 'runEvent.runId')
    .innerJoin('exposure', 'exposure.id', 'run.exposureId')
    .select(['exposure.unitId', 'runEvent.step', 'runEvent.runId', 'runEvent.happenedAt'])
    .where('runEvent.kind', '=', 'done')
    .where('runEvent.step', 'in', ['lamp', 'cool'])
    .orderBy('runEvent.happenedAt')
    .execute()
}

export type YearCounts = Readonly<{
  exposures: number
  coats: number
  pulled: number
  incidents: number
  failures: number
}>

/** What was done in the room since a day. */
export async function yearCounts(
  database: Database,
  { since }: Readonly<{ since: Date }>,
): Promise<YearCounts> {
  const counted = async (
    table: 'exposure' | 'coating' | 'incident' | 'failure',
    column: 'litAt' | 'coatedAt' | 'happenedAt',
  ): Promise<number> => {
    const { count } = await database
      .selectFrom(table)
      .select(({ fn }) => fn.countAll<number | string>().as('count'))
      .where(column as never, '>=', since as never)
      .executeTakeFirstOrThrow()
    // a server gives large counts as text
    return Number(count)
  }
  const { sheets } = await database
    .selectFrom('layerEvent')
    .select(({ fn }) => fn.sum<number | string | null>('sheets').as('sheets'))
    .where('kind', '=', 'pulled')
    .where('takenBackAt', 'is', null)
    .where('happenedAt', '>=', since)
    .executeTakeFirstOrThrow()
  return {
    exposures: await counted('exposure', 'litAt'),
    coats: await counted('coating', 'coatedAt'),
    pulled: Number(sheets ?? 0),
    incidents: await counted('incident', 'happenedAt'),
    failures: await counted('failure', 'happenedAt'),
  }
}

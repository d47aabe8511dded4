import type { Density, Lu, Mm } from '../core/units/quantity.ts'
import { type Database, inTransaction } from './database/database.ts'
import type { At, New } from './database/record.ts'
import { sortableId } from './ids.ts'

/** Wedges that lay at several places of a unit's glass under one dose. */
export type EvennessSurvey = Readonly<{
  id: string
  unitId: string
  lampId: string | null
  takenAt: Date
  glassWidthMm: Mm
  glassHeightMm: Mm
  doseLu: Lu
  firstDensity: Density
  increment: Density
  steps: number
  createdAt: Date
}>

/** One of them; places are from the front left corner of the glass. */
export type EvennessWedge = Readonly<{
  surveyId: string
  number: number
  xMm: Mm
  yMm: Mm
  lastSolidStep: number
  firstClearStep: number | null
}>

export type WholeSurvey = Readonly<{ survey: EvennessSurvey; wedges: readonly EvennessWedge[] }>

/**
 * Takes down a survey; its wedges are numbered as they come, from 1. The glass of the unit is as
 * large as was said here.
 *
 * @throws Failure 'not found' for a unit that the shop does not have; RangeError under 3 wedges
 */
export async function addSurvey(
  database: Database,
  {
    survey,
    wedges,
  }: Readonly<{
    survey: New<EvennessSurvey>
    wedges: readonly Omit<EvennessWedge, 'surveyId' | 'number'>[]
  }>,
  { at }: At,
): Promise<WholeSurvey> {
  if (wedges.length < 3) throw new RangeError(`wedges: expected at least 3, got ${wedges.length}`)
  return inTransaction(database, async (inner) => {
    const taken = await inner
      .insertInto('evennessSurvey')
      .values({ ...survey, id: sortableId(at), createdAt: at })
      .returningAll()
      .executeTakeFirstOrThrow()
    const rows = wedges.map((wedge, index) => ({
      ...wedge,
      surveyId: taken.id,
      number: index + 1,
    }))
    const { glassWidthMm, glassHeightMm } = survey
    await inner
      .updateTable('unit')
      .set({ glassWidthMm, glassHeightMm })
      .where('id', '=', survey.unitId)
      .execute()
    const kept = await inner.insertInto('evennessWedge').values(rows).returningAll().execute()
    return { survey: taken, wedges: kept.sort((a, b) => a.number - b.number) }
  })
}

/** The newest survey of each unit; units without one are left out. */
export async function newestSurveys(database: Database): Promise<readonly WholeSurvey[]> {
  const surveys = await database
    .selectFrom('evennessSurvey')
    .selectAll()
    .distinctOn('unitId')
    .orderBy('unitId')
    .orderBy('takenAt', 'desc')
    .orderBy('id', 'desc')
    .execute()
  if (surveys.length === 0) return []
  const ids = surveys.map(({ id }) => id)
  const wedges = await database
    .selectFrom('evennessWedge')
    .selectAll()
    .where('surveyId', 'in', ids)
    .orderBy('number')
    .execute()
  return surveys.map((survey) => ({
    survey,
    wedges: wedges.filter(({ surveyId }) => surveyId === survey.id),
  }))
}

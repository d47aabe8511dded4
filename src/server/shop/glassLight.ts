import { isFailure } from '../../core/failure.ts'
import { evennessFromWedges } from '../../core/light/evennessFromWedges.ts'
import { type EvennessMap, evennessOnMap } from '../../core/light/evennessMap.ts'
import { mm } from '../../core/units/quantity.ts'
import type { WholeSurvey } from '../../store/evenness.ts'

type Place = Readonly<{ xMm: number; yMm: number }>

/** How even the light is on the glass of each unit that was surveyed. */
export type GlassLight = Readonly<{
  /** Share of the light that the unit's counter counts; null where nobody has measured. */
  shareAt: (unitId: string, place: Place) => number | null
  /** Another text where that answers otherwise. */
  key: string
}>

/** The newest survey of each unit as a map of its glass. */
export function glassLight(surveys: readonly WholeSurvey[]): GlassLight {
  const maps = new Map(surveys.map((whole) => [whole.survey.unitId, mapOf(whole)]))
  return {
    shareAt: (unitId, { xMm, yMm }) => {
      const map = maps.get(unitId)
      return map ? evennessOnMap(map, { xMm: mm(xMm), yMm: mm(yMm) }).value : null
    },
    key: surveys.map(({ survey }) => survey.id).join(),
  }
}

/** Null where the places do not span the glass. */
function mapOf({ survey, wedges }: WholeSurvey): EvennessMap | null {
  const { steps, firstDensity, increment } = survey
  const read = wedges.map(({ firstClearStep, ...place }) => ({
    ...place,
    firstClearStep: firstClearStep ?? undefined,
  }))
  try {
    return evennessFromWedges(read, { wedge: { steps, firstDensity, increment } }).map
  } catch (cause) {
    if (isFailure(cause, 'wrong input')) return null
    throw cause
  }
}

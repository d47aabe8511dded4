import type { Wedge } from '../calibration/wedge.ts'
import { type Density, density, type Mm, mm } from '../units/quantity.ts'
import { expectIn } from '../units/range.ts'
import type { GlassPlace } from './doseField.ts'
import { type EvennessMap, evennessOnMap, fitEvenness } from './evennessMap.ts'

/** What a wedge showed that lay at a place of the glass. */
export type PlacedWedge = Readonly<{
  xMm: Mm
  yMm: Mm
  /** 0: not even step 1 held. */
  lastSolidStep: number
  /** One more than the wedge has: none washed clear. */
  firstClearStep?: number | undefined
}>

/** The light on the glass as wedges have shown it. */
export type WedgedEvenness = Readonly<{
  map: EvennessMap
  /** Light at each wedge by itself, against the middle of the map. */
  shares: readonly number[]
  /** How well one wedge tells its light, and how well the map does, D. */
  readingSd: Density
  mapSd: Density
}>

/** Scatter of a place on one screen beside the wedge's own half step, D; judged. */
const PLACE_SD = 0.05

/**
 * A map of the light from wedges that lay at several places under one dose: where so many steps
 * more are solid there was 10^(increment · steps) times the light. A first clear step tells the
 * same a second time; the steps between the two are taken to be as many everywhere.
 *
 * One wedge's light is known to √(i²/3 + 0.05²), to √(i²/6 + 0.05²) where both ends were read; the
 * map, which has p numbers out of n wedges, on the average to √(p/n) of that.
 *
 * @param readings at least 3, not in one line; steps 0 … wedge.steps + 1
 * @throws Failure 'wrong input' when even a plane cannot be told
 * @source wedge-noise, least-squares
 * @limits steps of 0.15 find a dead tube or a bad corner, not a tenth: half a step is 19 %
 */
export function evennessFromWedges(
  readings: readonly PlacedWedge[],
  { wedge }: Readonly<{ wedge: Wedge }>,
): WedgedEvenness {
  const { increment, steps } = wedge
  for (const { lastSolidStep, firstClearStep } of readings) {
    const step = { name: 'lastSolidStep', low: 0, high: steps, unit: 'steps', whole: true }
    expectIn(lastSolidStep, step)
    if (firstClearStep === undefined) continue
    expectIn(firstClearStep, { ...step, name: 'firstClearStep', low: 1, high: steps + 1 })
  }
  const between = betweenOf(readings)
  const light = readings.map(({ xMm, yMm, lastSolidStep, firstClearStep }) => {
    const step =
      firstClearStep === undefined || between === null
        ? lastSolidStep
        : (lastSolidStep + firstClearStep - between) / 2
    return { xMm, yMm, light: 10 ** (increment * step) }
  })
  const map = fitEvenness(light)
  const both = readings.every(({ firstClearStep }) => firstClearStep !== undefined)
  const readingSd = Math.sqrt(increment ** 2 / (both ? 6 : 3) + PLACE_SD ** 2)
  const middle: GlassPlace = {
    xMm: mm((map.low.xMm + map.high.xMm) / 2),
    yMm: mm((map.low.yMm + map.high.yMm) / 2),
  }
  const middleLight = 10 ** (map.coefficients[0] ?? 0) / evennessOnMap(map, middle).value
  return {
    map,
    shares: light.map((each) => each.light / middleLight),
    readingSd: density(readingSd),
    mapSd: density(readingSd * Math.sqrt(map.coefficients.length / readings.length)),
  }
}

/** Steps from the last solid to the first clear one, on the average of those that were read. */
function betweenOf(readings: readonly PlacedWedge[]): number | null {
  const told = readings.flatMap(({ lastSolidStep, firstClearStep }) =>
    firstClearStep === undefined ? [] : [firstClearStep - lastSolidStep],
  )
  return told.length === 0 ? null : told.reduce((sum, each) => sum + each, 0) / told.length
}

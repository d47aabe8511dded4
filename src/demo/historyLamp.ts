import { evennessAt } from '../core/light/doseField.ts'
import { countAfter } from '../core/light/warmUp.ts'
import { mm } from '../core/units/quantity.ts'
import { type DemoWedge, luckFrom, trueThresholds, wedgeRead } from './historyTruth.ts'
import { DEMO_SHOP } from './shop.ts'

/** One run of the big lamp with a clock beside its counter. */
export type DemoTiming = Readonly<{
  daysAgo: number
  from: 'cold' | 'hot'
  lampHours: number
  pairs: readonly Readonly<{ clockSec: number; count: number }>[]
}>

/** Wedges on the glass of the big lamp, places from its front left corner. */
export type DemoSurvey = Readonly<{
  daysAgo: number
  glass: Readonly<{ widthMm: number; heightMm: number }>
  doseCounts: number
  wedge: DemoWedge
  places: readonly Readonly<{
    xMm: number
    yMm: number
    lastSolidStep: number
    firstClearStep: number
  }>[]
}>

const SEED = 1910
/** What the lamp truly gives: counts a second hot and cold when new, and how it fades. */
const NEW_LAMP = { hotPerSec: 0.66, coldPerSec: 0.3, tauSec: 38, lagSec: 4 }
const FADES_OVER_HOURS = 2100
/** The lamp was fitted so long ago, and burned about as long each day. */
export const LAMP_FITTED_DAYS_AGO = 430
/** Somebody stood there with a clock at these hours. */
const TIMED: readonly Readonly<{ lampHours: number; from: 'cold' | 'hot' }>[] = [
  { lampHours: 12, from: 'cold' },
  { lampHours: 12, from: 'hot' },
  { lampHours: 95, from: 'cold' },
  { lampHours: 190, from: 'cold' },
  { lampHours: 272, from: 'hot' },
  { lampHours: 335, from: 'cold' },
  { lampHours: 401, from: 'cold' },
  { lampHours: 401, from: 'hot' },
]
const CLOCK = [15, 30, 45, 60, 90, 120, 150, 180]
/** An eye that goes between clock and counter. */
const EYE_SEC = 0.3

/** Timings of the big lamp over its life: what its counter showed at which second. Demo. */
export function demoTimings(seed: number = SEED): readonly DemoTiming[] {
  const { normal } = luckFrom(seed)
  return TIMED.map(({ lampHours, from }) => {
    const fades = Math.exp(-lampHours / FADES_OVER_HOURS)
    const lamp = {
      ...NEW_LAMP,
      hotPerSec: NEW_LAMP.hotPerSec * fades,
      coldPerSec: NEW_LAMP.coldPerSec * fades,
    }
    const pairs = CLOCK.map((clockSec) => {
      const sec = Math.max(0, clockSec + EYE_SEC * normal())
      return { clockSec, count: Math.floor(countAfter(lamp, { sec, from })) }
    })
    const { lampHours: now } = DEMO_SHOP.unit
    const daysAgo = Math.round(LAMP_FITTED_DAYS_AGO * (1 - lampHours / now))
    return { daysAgo, from, lampHours, pairs }
  })
}

/** The glass of the big lamp. */
export const DEMO_GLASS = { widthMm: 1200, heightMm: 900 }
const FINE_WEDGE: DemoWedge = { steps: 31, firstDensity: 0.05, increment: 0.05 }
/** The lamp hangs a little to the back and the right, and its reflector makes half good what is far. */
const UNDER_LAMP = { xMm: 660, yMm: 500 }
const REFLECTOR = 0.5

/** Share of the light under the lamp that a place of the glass truly gets. */
export function demoLightAt({ xMm, yMm }: Readonly<{ xMm: number; yMm: number }>): number {
  const place = { xMm: mm(xMm - UNDER_LAMP.xMm), yMm: mm(yMm - UNDER_LAMP.yMm) }
  return evennessAt(place, { distanceMm: mm(DEMO_SHOP.unit.lamp.distanceMm) }) ** REFLECTOR
}

/** Five wedges on the glass, once: in the middle and near the corners. Demo. */
export function demoSurvey(seed: number = SEED): DemoSurvey {
  const luck = luckFrom(seed + 1)
  const doseCounts = 60
  const of = trueThresholds({ fabric: '90-48 yellow', bucket: 'old' })
  const middle = demoLightAt({ xMm: 600, yMm: 450 })
  const places = [
    { xMm: 600, yMm: 450 },
    { xMm: 150, yMm: 120 },
    { xMm: 1050, yMm: 120 },
    { xMm: 150, yMm: 780 },
    { xMm: 1050, yMm: 780 },
  ].map((place) => {
    const share = demoLightAt(place) / middle
    const x = Math.log10((share * doseCounts) / DEMO_SHOP.unit.countsPerLu)
    return { ...place, ...wedgeRead(luck, { x, of, wedge: FINE_WEDGE }) }
  })
  return { daysAgo: 66, glass: DEMO_GLASS, doseCounts, wedge: FINE_WEDGE, places }
}

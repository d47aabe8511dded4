import { Failure } from '../failure.ts'
import { linearFit } from '../fit/linearFit.ts'
import { type Density, density, mm } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'
import {
  type Evenness,
  evennessAt,
  GLASS_COORDINATE,
  type GlassPlace,
  type LampPlace,
} from './doseField.ts'

/** What was measured at one place: a rate or dose in any unit, the same unit for all. */
export type LightReading = GlassPlace & Readonly<{ light: number }>

/** A reading of light, in whatever unit: above nothing. */
export const LIGHT: Range = { name: 'light', low: 1e-6, high: 1e9, unit: '' }

/** A surface through the logs of the readings. */
export type EvennessMap = Readonly<{
  surface: 'quadratic' | 'plane'
  /** Why this surface, for people. */
  because: string
  /** Scatter of the readings about the surface, D; null when none is left over to tell. */
  residualSd: Density | null
  /** The rectangle the readings span; outside it the surface is a guess. */
  low: GlassPlace
  high: GlassPlace
  /** log10 of light over the terms 1, u, v, u², uv, v² (or the first three). */
  coefficients: readonly number[]
}>

const TERMS = { quadratic: 6, plane: 3 } as const

/**
 * Fits the light on the glass from scattered readings, usually at 5 or 9 places.
 *
 * log10 E = c0 + c1 u + c2 v + c3 u² + c4 uv + c5 v² by least squares, u and v running from −1 to 1
 * over the rectangle of the readings. In logs, because light multiplies: the surface can never
 * reach below zero and its residual is a density, like the noise of a wedge. Under six readings,
 * or when they do not tell the six terms apart (two rows of three), a plane is fitted instead.
 *
 * @param readings places in mm, light 1e-6 … 1e9 in one unit, at least 3
 * @throws Failure 'wrong input' when even a plane cannot be told: fewer than 3, or all in a line
 * @throws RangeError outside these ranges
 * @source least-squares
 * @limits smooth fields; a dead tube or the edge of a bank is no quadratic: its residual is large
 */
export function fitEvenness(readings: readonly LightReading[]): EvennessMap {
  for (const { xMm, yMm, light } of readings) {
    expectIn(xMm, GLASS_COORDINATE)
    expectIn(yMm, GLASS_COORDINATE)
    expectIn(light, LIGHT)
  }
  const low = cornerOf(readings, Math.min)
  const high = cornerOf(readings, Math.max)
  const logs = readings.map(({ light }) => Math.log10(light))
  for (const surface of ['quadratic', 'plane'] as const) {
    const rows = readings.map((place) => termsAt(place, { low, high }, TERMS[surface]))
    const fit = linearFit(rows, logs)
    if (fit === null) continue
    const spare = readings.length - TERMS[surface]
    const squares = fit.residuals.reduce((sum, residual) => sum + residual ** 2, 0)
    const residualSd = spare === 0 ? null : density(Math.sqrt(squares / spare))
    const because = reasonFor(surface, readings.length)
    return { surface, because, residualSd, low, high, coefficients: fit.coefficients }
  }
  throw new Failure(
    'wrong input',
    `These ${readings.length} readings do not span the glass: read at least 3 places that are ` +
      'not in one line, better 9 in a grid.',
  )
}

/**
 * Light at a place relative to the middle of the readings' rectangle.
 *
 * @returns above 0; `beyondReadings` when the place lies outside the rectangle that was measured
 * @throws RangeError for a place outside −10000 … 10000 mm
 * @source least-squares
 */
export function evennessOnMap(
  map: EvennessMap,
  place: GlassPlace,
): Readonly<{ value: number; beyondReadings: boolean }> {
  expectIn(place.xMm, GLASS_COORDINATE)
  expectIn(place.yMm, GLASS_COORDINATE)
  const terms = termsAt(place, map, map.coefficients.length)
  const log = terms.reduce((sum, term, at) => sum + term * (map.coefficients[at] ?? 0), 0)
  const inside = (value: number, from: number, to: number): boolean => value >= from && value <= to
  return {
    value: 10 ** (log - (map.coefficients[0] ?? 0)),
    beyondReadings: !(
      inside(place.xMm, map.low.xMm, map.high.xMm) && inside(place.yMm, map.low.yMm, map.high.yMm)
    ),
  }
}

/**
 * The evenness to reckon with: a measured map wins over the rule for a bare lamp.
 *
 * @source lamp-geometry, least-squares
 */
export function evennessFrom({
  map,
  lamp,
}: Readonly<{ map: EvennessMap | null; lamp: LampPlace }>): Evenness {
  return map === null
    ? (place) => evennessAt(place, lamp)
    : (place) => evennessOnMap(map, place).value
}

type Rectangle = Readonly<{ low: GlassPlace; high: GlassPlace }>

function termsAt(place: GlassPlace, { low, high }: Rectangle, count: number): readonly number[] {
  const u = acrossFrom(place.xMm, low.xMm, high.xMm)
  const v = acrossFrom(place.yMm, low.yMm, high.yMm)
  return [1, u, v, u * u, u * v, v * v].slice(0, count)
}

/** −1 at `low`, 1 at `high`; 0 where the two are one place, so that the term drops out. */
function acrossFrom(value: number, low: number, high: number): number {
  return high > low ? (2 * value - low - high) / (high - low) : 0
}

function cornerOf(
  readings: readonly LightReading[],
  extreme: (...values: number[]) => number,
): GlassPlace {
  return {
    xMm: mm(extreme(...readings.map(({ xMm }) => xMm))),
    yMm: mm(extreme(...readings.map(({ yMm }) => yMm))),
  }
}

function reasonFor(surface: EvennessMap['surface'], count: number): string {
  if (surface === 'quadratic') return `A curved surface through ${count} readings.`
  if (count < TERMS.quadratic) {
    return `Only a tilted plane: ${count} readings, and a curved surface takes at least 6.`
  }
  return `Only a tilted plane: the ${count} places do not tell a curve; read 9 places in a grid.`
}

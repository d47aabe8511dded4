import { type Lu, lu, type Mm, type Share, share } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** A place on the glass, from the point straight under the lamp. */
export type GlassPlace = Readonly<{ xMm: Mm; yMm: Mm }>

/** A small lamp over (or under) the glass: the distance along the normal. */
export type LampPlace = Readonly<{ distanceMm: Mm }>

/** Light at a place of the glass relative to one chosen place; only ratios of it carry meaning. */
export type Evenness = (place: GlassPlace) => number

/** Lamp to glass: from a panel that nearly touches it to a lamp across the room. */
export const LAMP_DISTANCE: Range = { name: 'distanceMm', low: 5, high: 10000, unit: 'mm' }
/** A coordinate on the glass, from the point under the lamp. */
export const GLASS_COORDINATE: Range = { name: 'place', low: -10000, high: 10000, unit: 'mm' }
/** A dose that somebody sets on a counter. */
export const DOSE: Range = { name: 'doseLu', low: 0.01, high: 1_000_000, unit: 'lu' }

/**
 * Light at a place relative to the point under a bare small lamp: E/E0 = cos⁴ φ, tan φ = ρ/L.
 *
 * Two cosines are the longer way (inverse square), one the slant on the glass, one the slant of
 * the lamp's own face (a Lambertian source). With L² / (L² + ρ²) = cos² φ no angle is needed.
 *
 * @param place ρ = distance from the point under the lamp, mm
 * @param lamp L = distanceMm, 5 … 10000 mm
 * @returns above 0, at most 1 (under the lamp)
 * @throws RangeError outside these ranges
 * @source lamp-geometry
 * @limits no reflector (one may flatten the field or spot it), no bank of tubes: measure those
 */
export function evennessAt(place: GlassPlace, { distanceMm }: LampPlace): Share {
  expectIn(distanceMm, LAMP_DISTANCE)
  expectIn(place.xMm, GLASS_COORDINATE)
  expectIn(place.yMm, GLASS_COORDINATE)
  const cosSquared = distanceMm ** 2 / (distanceMm ** 2 + place.xMm ** 2 + place.yMm ** 2)
  return share(cosSquared ** 2)
}

/**
 * Dose at a place of the glass: H(x, y) = N · E(x, y) / E(sensor).
 *
 * The counter stops when its sensor has had N units; a place that is darker than the sensor's
 * gets less in that time.
 *
 * @param place where the dose is wanted
 * @param exposure N = setLu, 0.01 … 1000000 lu; where the sensor sits; the evenness E
 * @throws RangeError outside that range
 * @source lamp-geometry
 * @limits sensor and glass see the same spectrum; the sensor lies in the plane of the glass
 */
export function doseAtLu(
  place: GlassPlace,
  { setLu, sensor, evenness }: Readonly<{ setLu: Lu; sensor: GlassPlace; evenness: Evenness }>,
): Lu {
  expectIn(setLu, { ...DOSE, name: 'setLu' })
  return lu((setLu * evenness(place)) / evenness(sensor))
}

/**
 * How many times as long an exposure takes after a bare lamp was moved: t2/t1 = (r2/r1)².
 *
 * @param lamp r1 = fromMm, r2 = toMm, each 5 … 10000 mm
 * @throws RangeError outside these ranges
 * @source lamp-geometry
 * @limits a small lamp without reflector; a light-unit counter on the glass needs no such factor
 */
export function timeFactorOfDistance({ fromMm, toMm }: Readonly<{ fromMm: Mm; toMm: Mm }>): number {
  expectIn(fromMm, { ...LAMP_DISTANCE, name: 'fromMm' })
  expectIn(toMm, { ...LAMP_DISTANCE, name: 'toMm' })
  return (toMm / fromMm) ** 2
}

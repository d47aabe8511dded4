import { type Mm, type Um, um } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'
import { GLASS_COORDINATE, type GlassPlace, LAMP_DISTANCE } from './doseField.ts'

/** From the film's image to the emulsion, a film base between them counted in. */
export const IMAGE_GAP: Range = { name: 'gapUm', low: 0, high: 6000, unit: 'um' }

/** What sets the slant: the film's image held off the emulsion, the lamp at a distance. */
export type OffAxisSetup = Readonly<{ gapUm: Um; distanceMm: Mm }>

/**
 * How far, and which way, a small lamp moves a mark's shadow: g · ρ/L, away from the axis.
 *
 * @param place the mark, mm from the point under the lamp; ρ is its distance from there
 * @param setup g = gapUm, 0 … 6000 um (image to emulsion); L = distanceMm, 5 … 10000 mm
 * @returns um along x and along y, outward
 * @throws RangeError outside these ranges
 * @source lamp-geometry
 * @limits a small lamp; under a bank every tube shifts its own way and the sum is blur
 */
export function imageShiftUm(
  place: GlassPlace,
  { gapUm, distanceMm }: OffAxisSetup,
): Readonly<{ xUm: Um; yUm: Um }> {
  expectIn(place.xMm, GLASS_COORDINATE)
  expectIn(place.yMm, GLASS_COORDINATE)
  expectIn(gapUm, IMAGE_GAP)
  expectIn(distanceMm, LAMP_DISTANCE)
  const slant = gapUm / distanceMm
  return { xUm: um(slant * place.xMm), yUm: um(slant * place.yMm) }
}

/**
 * The same seen as a whole: the image is enlarged by 1 + g/L about the point under the lamp.
 *
 * It cancels between layers exposed at the same place and the same gap; it shows in the register
 * when they were not.
 *
 * @param setup g = gapUm, 0 … 6000 um; L = distanceMm, 5 … 10000 mm
 * @returns at least 1
 * @throws RangeError outside these ranges
 * @source lamp-geometry
 */
export function enlargement({ gapUm, distanceMm }: OffAxisSetup): number {
  expectIn(gapUm, IMAGE_GAP)
  expectIn(distanceMm, LAMP_DISTANCE)
  return 1 + gapUm / (1000 * distanceMm)
}

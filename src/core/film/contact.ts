import { type Um, um } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** Which way the film lies on the screen; away leaves its base between image and emulsion. */
export type ImageSide = 'against emulsion' | 'away'
/** Both, the right one first. */
export const IMAGE_SIDES: readonly ImageSide[] = ['against emulsion', 'away']

/** How a film lies on the coated screen. */
export type Contact = Readonly<{ gapUm: Um; filmBaseUm: Um; imageSide: ImageSide }>

/** Air left between the film and the emulsion. */
export const CONTACT_GAP: Range = { name: 'gapUm', low: 0, high: 5000, unit: 'um' }
/** Thickness of the film base. */
export const FILM_BASE: Range = { name: 'filmBaseUm', low: 0, high: 1000, unit: 'um' }

/** Refractive index of polyester film. */
const BASE_INDEX = 1.65

/**
 * The gap that blurs: air, and with the image side away the base as well, at base/1.65.
 *
 * In the base a slanted ray runs steeper than in air, so it drifts sideways by only 1/1.65 as much.
 *
 * @param contact gapUm 0 … 5000, filmBaseUm 0 … 1000 (polyester 75 to 175 is usual)
 * @throws RangeError outside these ranges
 * @source film-base-index
 * @limits small slants (to 20 degrees within 4 %); a scattering base blurs more than this
 */
export function effectiveGapUm({ gapUm, filmBaseUm, imageSide }: Contact): Um {
  expectIn(gapUm, CONTACT_GAP)
  expectIn(filmBaseUm, FILM_BASE)
  return um(imageSide === 'away' ? gapUm + filmBaseUm / BASE_INDEX : gapUm)
}

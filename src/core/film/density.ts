import { type Density, density, type Share, share } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** Transmission density; a little below zero is clearer than the base it was read against. */
export const DENSITY: Range = { name: 'density', low: -0.1, high: 10, unit: 'D' }
/** Transmitted light over light that came in, or over what the bare base lets through. */
export const TRANSMISSION: Range = { name: 'transmission', low: 1e-10, high: 10 ** 0.1, unit: '' }
/** Density of the film base itself at the lamp's wavelengths. */
export const BASE_DENSITY: Range = { name: 'filmBaseDensity', low: 0, high: 3, unit: 'D' }

/**
 * Transmission density: D = −log10 T.
 *
 * @param transmission T, 1e-10 … 1.259 (1 is clear)
 * @throws RangeError outside that range: nothing that lets no light at all has a density
 * @source iso5-1
 */
export function densityFromTransmission(transmission: number): Density {
  expectIn(transmission, TRANSMISSION)
  // Not −log10 T: clear film is 0 and not −0.
  return density(Math.log10(1 / transmission))
}

/**
 * The share of light that a density lets through: T = 10^(−D).
 *
 * @param filmDensity D, −0.1 … 10
 * @returns 1 for D = 0; up to 1.259 where the film is clearer than what it was read against
 * @throws RangeError outside that range
 * @source iso5-1
 */
export function transmissionFromDensity(filmDensity: Density): Share {
  expectIn(filmDensity, DENSITY)
  return share(10 ** -filmDensity)
}

/**
 * How many times the dose a film base asks for: 10^base. It lies over everything, marks and
 * ground, so hold dose and fog limit move alike and the latitude stays.
 *
 * @param baseDensity density of the base at the lamp's wavelengths, 0 … 3 D
 * @returns at least 1
 * @throws RangeError outside that range
 * @source iso5-1
 */
export function baseDensityFactor(baseDensity: Density): number {
  expectIn(baseDensity, BASE_DENSITY)
  return 10 ** baseDensity
}

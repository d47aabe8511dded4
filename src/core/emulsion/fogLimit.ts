import { DENSITY } from '../film/density.ts'
import { type Density, type Lu, lu } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

/** A skin dose of any model in its ranges, under any base. */
const SKIN_DOSE: Range = { name: 'gelDoseLu', low: 1e-6, high: 1e12, unit: 'lu' }

/**
 * The dose at which a mark begins to skin over: Hs · 10^D.
 *
 * The mark opens while what leaks through it stays under the skin dose.
 *
 * @param gelDoseLu Hs, 1e-6 … 1e12 lu (a film base counted in)
 * @param effectiveDensity D of the mark above base with the light that spreads into it, −0.1 … 10
 * @throws RangeError outside these ranges
 * @source iso5-1
 */
export function fogLimitLu(gelDoseLu: Lu, effectiveDensity: Density): Lu {
  expectIn(gelDoseLu, SKIN_DOSE)
  expectIn(effectiveDensity, { ...DENSITY, name: 'effectiveDensity' })
  return lu(gelDoseLu * 10 ** effectiveDensity)
}

import { DENSITY } from '../film/density.ts'
import { lu, type Density, type Lu } from '../units/quantity.ts'
import { expectIn } from '../units/range.ts'
import { EMULSION_RANGES } from './emulsion.ts'

/**
 * The dose at which a mark begins to skin over: Hs · 10^D.
 *
 * The mark opens while what leaks through it stays under the skin dose.
 *
 * @param gelDoseLu Hs, 0.001 … 100000000 lu (a film base counted in)
 * @param effectiveDensity D of the mark above base with the light that spreads into it, −0.1 … 10
 * @throws RangeError outside these ranges
 * @source iso5-1
 */
export function fogLimitLu(gelDoseLu: Lu, effectiveDensity: Density): Lu {
  expectIn(gelDoseLu, { ...EMULSION_RANGES.gelDoseLu, high: 1e8 })
  expectIn(effectiveDensity, { ...DENSITY, name: 'effectiveDensity' })
  return lu(gelDoseLu * 10 ** effectiveDensity)
}

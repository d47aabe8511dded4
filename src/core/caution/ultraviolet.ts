import { expectIn, type Range } from '../units/range.ts'
import { ACTINIC_TABLE } from './actinicTable.ts'

/** Light of one wavelength that arrives at skin or eye. */
export type Ray = Readonly<{ nm: number; wattPerM2: number }>

export type ExposureLimit = Readonly<{
  /** Bare skin and eyes alike: weighted by how much each wavelength hurts. */
  skinSec: number
  /** Eyes: that, or all UV-A together, whichever is reached first. */
  eyeSec: number
  eyeBy: 'weighted' | 'UV-A'
}>

/** Weighted, 180 to 400 nm, in a day of eight hours. */
const ACTINIC_J_PER_M2 = 30
/** All of 315 to 400 nm alike, at the eye, in eight hours. */
const UVA_J_PER_M2 = 10_000
const UVA = { from: 315, to: 400 }
const DAY_SEC = 8 * 3600

const WAVELENGTH: Range = { name: 'nm', low: 180, high: 800, unit: 'nm' }
const IRRADIANCE: Range = { name: 'wattPerM2', low: 0, high: 1e6, unit: 'W/m2' }

/**
 * Effectiveness of a wavelength: the table, by the log between its rows; none from above 400 nm on.
 *
 * @source icnirp-uv
 * @throws RangeError outside 180 … 800 nm
 */
export function effectiveness(nm: number): number {
  expectIn(nm, WAVELENGTH)
  const above = ACTINIC_TABLE.findIndex(([row]) => row >= nm)
  const [upper, lower] = [ACTINIC_TABLE[above], ACTINIC_TABLE[above - 1]]
  if (upper === undefined) return 0
  if (upper[0] === nm || lower === undefined) return upper[1]
  const between = (nm - lower[0]) / (upper[0] - lower[0])
  return Math.exp(Math.log(lower[1]) * (1 - between) + Math.log(upper[1]) * between)
}

/**
 * How long until the published limits of a day are reached, in seconds; never more than the eight
 * hours they are made for.
 *
 * @source icnirp-uv
 * @throws RangeError outside 180 … 800 nm or for light below 0
 * @limits not for children, for skin or eyes made sensitive by illness or medicine, for lenses taken
 * out; says nothing of blue light above 400 nm
 */
export function exposureLimit(rays: readonly Ray[]): ExposureLimit {
  for (const { wattPerM2 } of rays) expectIn(wattPerM2, IRRADIANCE)
  const weighted = rays.reduce((sum, ray) => sum + ray.wattPerM2 * effectiveness(ray.nm), 0)
  const uva = rays
    .filter(({ nm }) => nm >= UVA.from && nm <= UVA.to)
    .reduce((sum, { wattPerM2 }) => sum + wattPerM2, 0)
  const skinSec = Math.min(DAY_SEC, ACTINIC_J_PER_M2 / weighted)
  const uvaSec = Math.min(DAY_SEC, UVA_J_PER_M2 / uva)
  return uvaSec < skinSec
    ? { skinSec, eyeSec: uvaSec, eyeBy: 'UV-A' }
    : { skinSec, eyeSec: skinSec, eyeBy: 'weighted' }
}

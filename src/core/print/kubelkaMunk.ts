import { labFromXyz50, xyz50FromLab } from '../colour/lab.ts'
import { type Lab, type Matrix, type Triple, times } from '../colour/space.ts'

/**
 * Wide bands of red, green and blue light, in which every ink has a share of its own: the matrices
 * of the widest RGB that style sheets know.
 *
 * @source css-color4
 */
const BANDS_FROM_XYZ50: Matrix = [
  [1.3457868816471583, -0.25557208737979464, -0.05110186497554526],
  [-0.5446307051249019, 1.5082477428451468, 0.02052744743642139],
  [0, 0, 1.2119675456389452],
]
const XYZ50_FROM_BANDS: Matrix = [
  [0.7977666449006423, 0.13518129740053308, 0.0313477341283922],
  [0.2880748288194013, 0.711835234241873, 0.00008993693872564],
  [0, 0, 0.8251046025104602],
]
/** No print is blacker than so in a band: there K/S would grow beyond all bounds. */
const BLACKEST = 0.002

/**
 * How much a layer swallows to how much it scatters: K/S = (1 − R)² / 2R.
 *
 * @param reflectance R, above 0, up to 1
 * @source kubelka-munk1931
 */
export function swallowedToScattered(reflectance: number): number {
  return (1 - reflectance) ** 2 / (2 * reflectance)
}

/**
 * What a thick layer reflects: R = 1 + q − √(q² + 2q), q = K/S.
 *
 * @source kubelka-munk1931
 */
export function reflectanceOf(q: number): number {
  return 1 + q - Math.sqrt(q ** 2 + 2 * q)
}

/** Three K/S, of red, green and blue light. */
export type Swallowing = Triple

/**
 * An ink's K/S in three bands, from its colour on paper alone.
 *
 * @source kubelka-munk1931
 */
export function swallowingOf(lab: Lab): Swallowing {
  const [red, green, blue] = times(BANDS_FROM_XYZ50, xyz50FromLab(lab))
  return [ofBand(red), ofBand(green), ofBand(blue)]
}

function ofBand(reflectance: number): number {
  return swallowedToScattered(Math.min(1, Math.max(BLACKEST, reflectance)))
}

/**
 * The colour of inks mixed by weight: in each band K/S = Σ c K/S over the inks.
 *
 * @param parts c = share by weight, together 1
 * @source duncan1940, kubelka-munk1931
 * @limits inks of the same body and strength, three bands for a spectrum: an estimate, never better
 * than a drawn-down sample
 */
export function mixedLab(
  parts: readonly Readonly<{ swallowing: Swallowing; share: number }>[],
): Lab {
  const band = (at: 0 | 1 | 2): number =>
    reflectanceOf(parts.reduce((sum, { swallowing, share }) => sum + share * swallowing[at], 0))
  return labFromXyz50(times(XYZ50_FROM_BANDS, [band(0), band(1), band(2)]))
}

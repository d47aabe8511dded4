import { type Lu, lu, type Share, share, type Um, um } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'

type Coat = Readonly<{
  /** Fabric plus emulsion over it: the whole way from print side to squeegee side. */
  thicknessUm: Um
  /** How deep a stencil must be cured to stay in the mesh: to the thread knuckles. */
  anchorDepthUm: Um
}>

/** An emulsion that takes up light and stays as dark as it was. */
export type AbsorbingEmulsion = Coat &
  Readonly<{ model: 'absorbing'; gelDoseLu: Lu; penetrationDepthUm: Um }>

/** An emulsion whose sensitiser bleaches as it reacts (diazo): A and B per um, C per lu. */
export type BleachingEmulsion = Coat &
  Readonly<{
    model: 'bleaching'
    aPerUm: number
    bPerUm: number
    cPerLu: number
    /** The share of the sensitiser used up at which the layer gels. */
    gelShare: Share
  }>

/** Any coat: the two models stand side by side behind one interface. */
export type Emulsion = AbsorbingEmulsion | BleachingEmulsion

/** What each number of a setup may be, wide enough for anything that is coated on a fabric. */
export const EMULSION_RANGES: Readonly<
  Record<
    | 'gelDoseLu'
    | 'penetrationDepthUm'
    | 'thicknessUm'
    | 'anchorDepthUm'
    | 'aPerUm'
    | 'bPerUm'
    | 'cPerLu'
    | 'gelShare',
    Range
  >
> = {
  gelDoseLu: { name: 'gelDoseLu', low: 0.001, high: 100_000, unit: 'lu' },
  penetrationDepthUm: { name: 'penetrationDepthUm', low: 2, high: 2000, unit: 'um' },
  thicknessUm: { name: 'thicknessUm', low: 1, high: 1000, unit: 'um' },
  anchorDepthUm: { name: 'anchorDepthUm', low: 0, high: 1000, unit: 'um' },
  aPerUm: { name: 'aPerUm', low: 0.0001, high: 1, unit: 'per um' },
  bPerUm: { name: 'bPerUm', low: 0, high: 0.3, unit: 'per um' },
  cPerLu: { name: 'cPerLu', low: 1e-6, high: 100, unit: 'per lu' },
  gelShare: { name: 'gelShare', low: 0.001, high: 0.999, unit: '' },
}

/**
 * The absorbing set-up that a shop starts from: a 90-48 fabric of 72 um with 8 um over it.
 *
 * @source default-emulsion
 * @limits fitted so that common practice comes out; the shop's own wedge replaces the gel dose
 */
export const DEFAULT_EMULSION: AbsorbingEmulsion = {
  model: 'absorbing',
  gelDoseLu: lu(6),
  penetrationDepthUm: um(37),
  thicknessUm: um(80),
  anchorDepthUm: um(20),
}

/**
 * The same coat with a bleaching sensitiser: hold and full come out alike, the way there does not.
 *
 * @source default-emulsion
 */
export const DEFAULT_BLEACHING_EMULSION: BleachingEmulsion = {
  model: 'bleaching',
  aPerUm: 0.045,
  bPerUm: 0.01,
  cPerLu: 0.1155,
  gelShare: share(0.5),
  thicknessUm: um(80),
  anchorDepthUm: um(20),
}

/**
 * Where nothing better is known a stencil is taken to hold once a quarter of it is cured.
 *
 * @param thicknessUm fabric plus emulsion, 1 … 1000 um
 * @throws RangeError outside that range
 * @source default-emulsion
 */
export function usualAnchorDepthUm(thicknessUm: Um): Um {
  expectIn(thicknessUm, EMULSION_RANGES.thicknessUm)
  return um(thicknessUm / 4)
}

/**
 * Every number in its range, and the anchor not deeper than the coat.
 *
 * @throws RangeError naming the number that is not
 */
export function expectEmulsion(emulsion: Emulsion): void {
  const ranges: Readonly<Record<string, Range>> = EMULSION_RANGES
  for (const [key, value] of Object.entries(emulsion)) {
    const range = ranges[key]
    if (range !== undefined) expectIn(Number(value), range)
  }
  expectIn(emulsion.anchorDepthUm, { ...EMULSION_RANGES.anchorDepthUm, high: emulsion.thicknessUm })
}

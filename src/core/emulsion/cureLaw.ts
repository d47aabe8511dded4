import type { Lu, Um } from '../units/quantity.ts'

/**
 * How dose at the surface and depth cured belong together in one emulsion: the one interface
 * behind which every model stands. The two are each other's inverse above the skin dose.
 */
export type CureLaw = Readonly<{
  /** Below it nothing cures. */
  skinDoseLu: Lu
  /** 0 up to the skin dose, then growing without end. */
  depthUm: (surfaceDose: Lu) => Um
  /** The surface dose that cures just so deep; the skin dose for depth 0. */
  doseLu: (depth: Um) => Lu
}>

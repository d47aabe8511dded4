import type { Halftone } from '../halftone/halftone.ts'
import type { Um } from '../units/quantity.ts'
import { fabricGeometry } from './geometry.ts'
import type { Weave } from './grades.ts'

/** What a fabric can hold of a halftone. */
export type HoldableTones = Readonly<{
  /** A smaller dot may lie on threads alone and prints nothing. */
  dotUm: number
  /** A smaller island of stencil may hang on one thread alone and falls off. */
  islandUm: number
  /** Tones from … to, 0 … 1; `least` is above `most` where the dots are too fine for the fabric. */
  least: number
  most: number
}>

/** Width of a dot of 0 … 1 of a cell, over its shorter side, as an area of the cell. */
const AREA: Readonly<Record<'round' | 'elliptical' | 'line', (width: number) => number>> = {
  round: (width) => (Math.PI / 4) * width ** 2,
  // half as long again as wide
  elliptical: (width) => (Math.PI / 4) * 1.5 * width ** 2,
  line: (width) => width,
}

/**
 * The palest and the fullest tone of a halftone that a fabric holds: the dot as wide as a pitch, so
 * that wherever it lies an opening is in it; the island as wide as a pitch and a thread, so that
 * wherever it lies two threads carry it.
 *
 * Scattered dots are all of one size: the fabric holds them all, or the tone of none.
 *
 * @source finest-line
 * @limits geometry alone: what a stencil keeps is forecast on the finished film
 */
export function holdableTones(halftone: Halftone, weave: Weave): HoldableTones {
  const { pitchUm } = fabricGeometry(weave)
  const [dotUm, islandUm] = [pitchUm, pitchUm + weave.threadUm] as [Um, number]
  if (halftone.kind === 'stochastic') {
    const own = halftone.dotUm ?? 0
    const holds = own >= dotUm
    return { dotUm, islandUm, least: holds ? 0 : 1, most: holds && own >= islandUm ? 1 : 0.5 }
  }
  const cellUm = 10_000 / halftone.rulingPerCm
  const area = AREA[halftone.shape]
  return {
    dotUm,
    islandUm,
    least: Math.min(1, area(dotUm / cellUm)),
    most: Math.max(0, 1 - area(islandUm / cellUm)),
  }
}

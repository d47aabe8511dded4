import type { SurfaceDoses } from '../emulsion/doses.ts'
import type { Lu } from '../units/quantity.ts'

/**
 * Shares of an area by the four states of a place on the washed-out screen. `open`: washes clean.
 * `veiled`: a skin that does not stay in the mesh. `soft`: stays, soft inside. `closed`: hard
 * through. open + inDoubt + closed = 1, inDoubt = veiled + soft.
 */
export type ClassShares = Readonly<{
  open: number
  inDoubt: number
  closed: number
  veiled: number
  soft: number
}>

/** Leaks (dose at a place over the dose under clear film) at which one state ends and the next begins. */
export type LeakLimits = Readonly<{ skin: number; hold: number; full: number }>

/**
 * What a dose makes of the leak map: open below skin/H, veiled below hold/H, soft below full/H.
 *
 * @param doses under the film base: base counted in; doseLu H, above 0
 * @source spread-contract
 */
export function leakLimits(doses: SurfaceDoses, { doseLu }: Readonly<{ doseLu: Lu }>): LeakLimits {
  return {
    skin: doses.gelDoseLu / doseLu,
    hold: doses.holdDoseLu / doseLu,
    full: doses.throughDoseLu / doseLu,
  }
}

import { type PerCm, type Share, type Um, um } from '../units/quantity.ts'
import { expectIn, type Range } from '../units/range.ts'
import { THREAD, THREADS_PER_CM } from './geometry.ts'

/** How the fabric is woven: over one under one, or over two. */
export type WeaveKind = 'plain' | 'twill'

/** Emulsion standing over the mesh on the print side. */
export const EMULSION_OVER_MESH: Range = {
  name: 'emulsionOverMeshUm',
  low: 0,
  high: 500,
  unit: 'um',
}
/** Thickness of the fabric alone. */
export const FABRIC_THICKNESS: Range = { name: 'thicknessUm', low: 10, high: 2000, unit: 'um' }
/** A share of a whole. */
const SHARE = (name: string): Range => ({ name, low: 0, high: 1, unit: '' })

/**
 * Wet film that a stencil lays down: Tw = a0 · Tm + e · EOM.
 *
 * The fabric carries a0 · Tm everywhere. The emulsion over the mesh adds its height only where its
 * edges hold the squeegee off the paper: all of it in a fine line (e = 1, the published formula),
 * none in the middle of a large solid (e = 0).
 *
 * @param fabric a0 = openAreaShare 0 … 1, Tm = thicknessUm 10 … 2000 um
 * @param stencil EOM = emulsionOverMeshUm 0 … 500 um; e = edgeShare 0 … 1
 * @returns um, the same number as cm³/m²
 * @throws RangeError outside these ranges
 * @source wet-film
 * @limits theory: a press leaves less on the paper; an e between 0 and 1 is judged
 */
export function wetDepositUm(
  { openAreaShare, thicknessUm }: Readonly<{ openAreaShare: Share; thicknessUm: Um }>,
  { emulsionOverMeshUm, edgeShare }: Readonly<{ emulsionOverMeshUm: Um; edgeShare: Share }>,
): Um {
  expectIn(openAreaShare, SHARE('openAreaShare'))
  expectIn(thicknessUm, FABRIC_THICKNESS)
  expectIn(emulsionOverMeshUm, EMULSION_OVER_MESH)
  expectIn(edgeShare, SHARE('edgeShare'))
  return um(openAreaShare * thicknessUm + edgeShare * emulsionOverMeshUm)
}

/**
 * Wet ink height found by experience: I = 1.82 d (1 − M d)² up to 42 threads a cm, 0.285 F up to
 * 139, 0.35 F from 140 (plain weave); 0.31 F for any twill.
 *
 * @param fabric M = threads per um from threadsPerCm 4 … 250, d = threadUm 10 … 1000 um (less than
 * the pitch), F = thicknessUm 10 … 2000 um
 * @returns um
 * @throws RangeError outside these ranges
 * @source deposit2000
 * @limits an average over inks and presses of its time; the bands do not meet at their borders
 */
export function empiricalDepositUm({
  threadsPerCm,
  threadUm,
  thicknessUm,
  weave,
}: Readonly<{ threadsPerCm: PerCm; threadUm: Um; thicknessUm: Um; weave: WeaveKind }>): Um {
  expectIn(threadsPerCm, THREADS_PER_CM)
  expectIn(threadUm, { ...THREAD, high: Math.min(THREAD.high, 10_000 / threadsPerCm) })
  expectIn(thicknessUm, FABRIC_THICKNESS)
  if (weave === 'twill') return um(0.31 * thicknessUm)
  if (threadsPerCm >= 140) return um(0.35 * thicknessUm)
  if (threadsPerCm >= 43) return um(0.285 * thicknessUm)
  const threadsPerUm = threadsPerCm / 10_000
  return um(1.82 * threadUm * (1 - threadsPerUm * threadUm) ** 2)
}

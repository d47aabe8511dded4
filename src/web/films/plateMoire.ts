import type { Weave } from '../../core/fabric/grades.ts'
import { type Moire, moire } from '../../core/halftone/moire.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'

/** At arm's length. */
const VIEWING_MM = 400

const known = new Map<string, Moire>()

/** How a plate's dots beat with the fabric's threads; null without either. */
export function moireOf(plan: FilmPlan, plate: number, fabric: Weave | null): Moire | null {
  const angle = angleOf(plan, plate)
  if (fabric === null || angle === null) return null
  const { threadsPerCm } = fabric
  const key = JSON.stringify([angle, threadsPerCm])
  const found =
    known.get(key) ?? moire({ ...angle, threadsPerCm, meshAngleDeg: 0, viewingMm: VIEWING_MM })
  known.set(key, found)
  return found
}

/** How its dots lie; null where it has none. */
function angleOf(
  { halftone, inks, underbase }: FilmPlan,
  plate: number,
): Readonly<{ rulingPerCm: number; angleDeg: number }> | null {
  if (halftone?.kind !== 'dot') return null
  const { rulingPerCm, angleDeg } = halftone
  const ink = inks[underbase === null ? plate : plate - 1]
  return { rulingPerCm, angleDeg: ink?.angleDeg ?? angleDeg }
}

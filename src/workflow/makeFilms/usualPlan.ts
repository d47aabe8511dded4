import type { Lab } from '../../core/colour/space.ts'
import { fabricGeometry } from '../../core/fabric/geometry.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import { isIn } from '../../core/units/range.ts'

/** A plan in the words of plan files, as `planFromJson` reads them. */
export type PlanFile = Readonly<Record<string, unknown>>

/** A print that lies on a common sheet with its rim. Judged. */
const USUAL_SIDE_MM = 300
/** A drawing for a screen states a size that nobody prints. Judged. */
const OWN_WIDTH = { name: 'widthMm', low: 30, high: 1500, unit: 'mm' }
const USUAL_DPI = 720
/** Dots of inks that lie on each other are turned apart by a third of a right angle. */
const FIRST_ANGLE_DEG = 22.5
const TURN_DEG = 30

/**
 * What is proposed for artwork before anybody chose: the ticket's inks with their tones, or one
 * black; its own size, or one that lies on a common sheet; dots as the fabric usually holds them.
 *
 * @param inks in the order of printing
 */
export function usualPlan(
  { proportion, widthMm }: Readonly<{ proportion: number; widthMm: number | null }>,
  {
    inks,
    fabric,
  }: Readonly<{
    inks: readonly Readonly<{ name: string; lab: Lab; opacity: number }>[]
    fabric: Weave | null
  }>,
): PlanFile {
  const isOwn = widthMm !== null && isIn(widthMm, OWN_WIDTH)
  const size = isOwn ? widthMm : Math.round(USUAL_SIDE_MM * Math.min(1, proportion))
  const ruling = fabric === null ? 18 : fabricGeometry(fabric).rulingPerCm.usual
  const most = inks.slice(0, MOST_TONED)
  return {
    widthMm: Number(size.toFixed(1)),
    resolutionDpi: USUAL_DPI,
    mode: most.length > 1 ? 'spot' : 'single',
    ...(most.length === 0
      ? {}
      : { inks: most.map((ink, at) => ({ ...ink, angleDeg: angleOf(at) })) }),
    halftone: {
      kind: 'dot',
      shape: 'round',
      rulingPerCm: Math.round(ruling),
      angleDeg: FIRST_ANGLE_DEG,
    },
    marks: { registration: true, label: true, scaleBar: true, stepStrip: true },
  }
}

/** Inks whose tones can be told apart in one separation. */
const MOST_TONED = 6

/** The angle proposed for the how manieth ink, from 0. */
export function angleOf(at: number): number {
  return (FIRST_ANGLE_DEG + TURN_DEG * at) % 90
}

import type { Lab } from '../../core/colour/space.ts'
import { fabricGeometry } from '../../core/fabric/geometry.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import { COVERAGE_LIMIT } from '../../core/separation/inkLimit.ts'
import { isIn } from '../../core/units/range.ts'
import type { StatedInks } from './passingInks.ts'
import { PROCESS_INKS } from './readInks.ts'
import { BY_SHOP } from './shopTones.ts'

/** A plan in the words of plan files, as `planFromJson` reads them. */
export type PlanFile = Readonly<Record<string, unknown>>

/** Files say nothing of how an ink hides. Judged. */
const OWN_OPACITY = 0.6
/** A print that lies on a common sheet with its rim. Judged. */
const USUAL_SIDE_MM = 300
/** A drawing for a screen states a size that nobody prints. Judged. */
const OWN_WIDTH = { name: 'widthMm', low: 30, high: 1500, unit: 'mm' }
const USUAL_DPI = 720
/** What a page has besides its own inks is mostly its lettering. Judged. */
const MORE = { name: 'black', lab: [16, 0, 0] as Lab, opacity: 0.9 }
/** Dots of inks that lie on each other are turned apart by a third of a right angle. */
const FIRST_ANGLE_DEG = 22.5
const TURN_DEG = 30
const BETWEEN_DEG = 15

/**
 * What is proposed for artwork before anybody chose: the ticket's inks with their tones, else those
 * that the artwork states by itself, and black for what it has besides, or one black; its own size, or one that lies on a common sheet; dots as the fabric usually holds them.
 *
 * @param inks in the order of printing
 */
export function usualPlan(
  {
    proportion,
    widthMm,
    ownInks = [],
    statesCmyk = false,
    isPicture = false,
    hasMore = false,
  }: StatedInks &
    Readonly<{
      proportion: number
      widthMm: number | null
      isPicture?: boolean
      /** There is more on it than the inks that it states. */
      hasMore?: boolean
    }>,
  {
    inks,
    fabric,
    coverage = null,
  }: Readonly<{
    inks: readonly Readonly<{ name: string; lab: Lab; opacity: number }>[]
    fabric: Weave | null
    /** The most ink at one place, where the shop says it; in solids. */
    coverage?: number | null
  }>,
): PlanFile {
  const isOwn = widthMm !== null && isIn(widthMm, OWN_WIDTH)
  const size = isOwn ? widthMm : Math.round(USUAL_SIDE_MM * Math.min(1, proportion))
  const ruling = fabric === null ? 18 : fabricGeometry(fabric).rulingPerCm.usual
  const own = ownInks.map((ink) => ({ ...ink, opacity: OWN_OPACITY }))
  const lacksBlack = hasMore && own.every(({ name }) => name.toLowerCase() !== MORE.name)
  const stated = lacksBlack ? [...own.slice(0, MOST_TONED - 1), MORE] : own
  const most = (inks.length > 0 ? inks : stated).slice(0, MOST_TONED)
  // a picture in four inks was parted by whoever made it
  const isProcess = most.length === 0 && statesCmyk && isPicture
  return {
    widthMm: Number(size.toFixed(1)),
    resolutionDpi: USUAL_DPI,
    mode: isProcess ? 'process' : most.length > 1 ? 'spot' : 'single',
    ...(isProcess
      ? { inks: PROCESS_INKS.map((ink, at) => ({ ...ink, angleDeg: PROCESS_DEG[at] ?? 0 })) }
      : most.length === 0
        ? {}
        : { inks: most.map((ink, at) => asUsual({ ...ink, angleDeg: angleOf(at) })) }),
    ...(most.length > 1 && coverage !== null && coverage < COVERAGE_LIMIT
      ? { limits: { coverage } }
      : {}),
    halftone: {
      kind: 'dot',
      shape: 'round',
      rulingPerCm: Math.round(ruling),
      angleDeg: FIRST_ANGLE_DEG,
    },
    marks: { registration: true, label: true, scaleBar: true, stepStrip: true },
  }
}

/** An ink as a plan of the shop begins with it: its tints print as the shop measured them. */
export function asUsual<Of extends object>(ink: Of): Of & Readonly<{ printed: typeof BY_SHOP }> {
  return { ...ink, printed: BY_SHOP }
}

/** The names of a plan's inks in small letters. */
export function inksOfFile({ inks }: PlanFile): readonly string[] {
  const list: readonly unknown[] = Array.isArray(inks) ? inks : []
  return list.flatMap((ink) => {
    const name = ink !== null && typeof ink === 'object' && 'name' in ink ? ink.name : null
    return typeof name === 'string' ? [name.trim().toLowerCase()] : []
  })
}

/** Inks whose tones can be told apart in one separation. */
const MOST_TONED = 6

/** The angle proposed for the how manieth ink, from 0: the second three lie between the first. */
export function angleOf(at: number): number {
  return (FIRST_ANGLE_DEG + TURN_DEG * at + BETWEEN_DEG * Math.floor(at / 3)) % 90
}

/** Dots of the three dark inks lie 30° apart, yellow's between them: common practice, no source. */
export const PROCESS_DEG: readonly number[] = [15, 75, 0, 45]

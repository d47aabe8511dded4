export type FindingKind =
  | 'blocked'
  | 'veil'
  | 'pinhole'
  | 'scratch'
  | 'broken edge'
  | 'missing area'

/** A place where the screen is not as its film; places in the film's millimetres from its top left. */
export type Finding = Readonly<{
  kind: FindingKind
  xMm: number
  yMm: number
  areaMm2: number
  widthUm: number
}>

/** A difference between a screen and its film, measured. */
export type Difference = Readonly<{
  /** More open than the film asks, or more shut. */
  sign: 'open' | 'shut'
  areaMm2: number
  lengthUm: number
  widthUm: number
  /** Share of its outline that runs beside an edge of a mark. */
  edgeShare: number
  /** Light that comes through, as a share of what should come; for what is more shut. */
  seenShare: number
}>

/** What still comes through a place that counts as blocked; more is a skin (judged). */
const BLOCKED_BELOW = 0.25

/** A line is at least so many times as long as it is wide (judged). */
const SCRATCH_FROM = 4
/** and no wider than this (judged). */
const SCRATCH_UP_TO_UM = 2500

/** Ground that is gone over more than a spot of filler covers well (judged). */
const MISSING_FROM_MM2 = 12
const MISSING_FROM_UM = 2500

/** So much of the outline beside marks makes it a flaw of their edge (judged). */
const EDGE_FROM = 0.12

/** @returns what a printmaker calls it; all bounds are judged */
export function kindOf(difference: Difference): FindingKind {
  const { sign, areaMm2, lengthUm, widthUm, edgeShare, seenShare } = difference
  if (sign === 'shut') return seenShare < BLOCKED_BELOW ? 'blocked' : 'veil'
  const isLong = lengthUm >= SCRATCH_FROM * widthUm && widthUm <= SCRATCH_UP_TO_UM
  if (isLong && edgeShare < 0.5) return 'scratch'
  if (areaMm2 >= MISSING_FROM_MM2 && widthUm >= MISSING_FROM_UM) return 'missing area'
  return edgeShare >= EDGE_FROM ? 'broken edge' : 'pinhole'
}

/**
 * Length and width of a shape from its area and outline: the rectangle that has both, or a round
 * spot where no rectangle has so little outline.
 *
 * @param outline in the same unit as the square root of the area
 */
export function lengthAndWidth(
  area: number,
  outline: number,
): Readonly<{ length: number; width: number }> {
  const square = outline * outline - 16 * area
  if (square <= 0) {
    const across = Math.sqrt((4 * area) / Math.PI)
    return { length: across, width: across }
  }
  const root = Math.sqrt(square)
  return { length: (outline + root) / 4, width: (outline - root) / 4 }
}

const ORDER_OF_WORK: readonly FindingKind[] = [
  'missing area',
  'blocked',
  'veil',
  'broken edge',
  'scratch',
  'pinhole',
]

/**
 * In the order of the work: ground that is gone, what still opens while it is wet, then what waits
 * for a dry screen. Larger first within a kind.
 */
export function inOrderOfWork(findings: readonly Finding[]): readonly Finding[] {
  const rank = ({ kind }: Finding): number => ORDER_OF_WORK.indexOf(kind)
  return findings.toSorted((a, b) => rank(a) - rank(b) || b.areaMm2 - a.areaMm2)
}

/** Along one axis: films in their order, between two ends, and fixed boxes they keep clear of. */
export type AxisRule =
  /** `from` ends at least that gap before `to` begins. */
  | Readonly<{ kind: 'before'; from: number; to: number; gapShare: number }>
  /** The film ends before the box begins, or begins after it ends. */
  | Readonly<{ kind: 'before box' | 'after box'; film: number; start: number; length: number }>

export type Axis = Readonly<{
  /** Inside of the frame. */
  lengthMm: number
  /** Of each film along this axis. */
  sizesMm: readonly number[]
  frameMm: number
  betweenMm: number
}>

/** Earliest and latest begin of each film. */
export type Spans = Readonly<{ earliest: Float64Array; latest: Float64Array }>

/** Rounding of sums of millimetres. */
const SLACK_MM = 1e-9

/**
 * Earliest and latest places of films along an axis when every clearance is `reliefMm` less than
 * asked (more where it is negative); null where they do not fit even so.
 *
 * Longest paths, forward and backward. No gap is less than nothing: films never lie on each other.
 */
export function spansOn(
  { lengthMm, sizesMm, frameMm, betweenMm }: Axis,
  rules: readonly AxisRule[],
  reliefMm: number,
): Spans | null {
  const edge = frameMm - reliefMm
  const between = Math.max(0, betweenMm - reliefMm)
  const earliest = new Float64Array(sizesMm.length).fill(edge)
  const latest = Float64Array.from(sizesMm, (size) => lengthMm - edge - size)
  for (let round = 0, moved = true; moved; round++) {
    if (round > sizesMm.length + 1) return null // in a circle: no order does
    moved = false
    for (const rule of rules) {
      if (rule.kind === 'before') {
        const apart = (sizesMm[rule.from] ?? 0) + rule.gapShare * between
        moved = raise(earliest, rule.to, (earliest[rule.from] ?? 0) + apart) || moved
        moved = lower(latest, rule.from, (latest[rule.to] ?? 0) - apart) || moved
        continue
      }
      moved =
        rule.kind === 'before box'
          ? lower(latest, rule.film, rule.start + reliefMm - (sizesMm[rule.film] ?? 0)) || moved
          : raise(earliest, rule.film, rule.start + rule.length - reliefMm) || moved
    }
  }
  for (let film = 0; film < sizesMm.length; film++) {
    if ((earliest[film] ?? 0) > (latest[film] ?? 0) + SLACK_MM) return null
  }
  return { earliest, latest }
}

function raise(places: Float64Array, film: number, least: number): boolean {
  if ((places[film] ?? 0) >= least - SLACK_MM / 4) return false
  places[film] = least
  return true
}

function lower(places: Float64Array, film: number, most: number): boolean {
  if ((places[film] ?? 0) <= most + SLACK_MM / 4) return false
  places[film] = most
  return true
}

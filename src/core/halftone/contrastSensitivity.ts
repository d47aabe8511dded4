/**
 * How well the eye sees stripes, relative to those it sees best.
 *
 * A(f) = 2.6 (0.0192 + 0.114 f) exp(−(0.114 f)^1.1), divided by its own peak.
 *
 * @param cyclesPerDegree f, 0 or more
 * @returns 0 … 1
 * @source mannos1974
 */
export function contrastSensitivity(cyclesPerDegree: number): number {
  return ofFormula(cyclesPerDegree) / PEAK
}

/** Where the eye sees stripes best, in cycles a degree. */
export const SEEN_BEST_AT = 7.8909

const PEAK = ofFormula(SEEN_BEST_AT)

function ofFormula(f: number): number {
  const scaled = 0.114 * f
  return 2.6 * (0.0192 + scaled) * Math.exp(-(scaled ** 1.1))
}

const TAN_OF_A_DEGREE = Math.tan(Math.PI / 180)

/** Lines a cm as cycles a degree at a distance in mm. */
export function cyclesPerDegree(
  perCm: number,
  { viewingMm }: Readonly<{ viewingMm: number }>,
): number {
  return (perCm / 10) * viewingMm * TAN_OF_A_DEGREE
}

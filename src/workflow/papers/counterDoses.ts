/**
 * Doses as one sets them on a counter: whole from 10 up, tenths below; finer, all of them, where two
 * would else be one.
 *
 * @param doses above 0, no two alike
 */
export function counterDoses(doses: readonly number[]): readonly number[] {
  for (const finer of [1, 10]) {
    const set = doses.map((dose) => nearest(dose, perCount(dose) * finer))
    if (new Set(set).size === doses.length) return set
  }
  return doses.map((dose) => nearest(dose, 100))
}

/** One dose as it is set and said. */
export function counterDose(dose: number): number {
  return nearest(dose, perCount(dose))
}

function perCount(dose: number): number {
  return dose < 10 ? 10 : 1
}

function nearest(dose: number, perCount: number): number {
  return Math.max(1, Math.round(dose * perCount)) / perCount
}

/**
 * What to set on the counter, one after another, while one band more is uncovered before each: the
 * first band, which has the largest dose, sees them all.
 *
 * @param doses largest first, two decimals at most
 */
export function counterSettings(doses: readonly number[]): readonly number[] {
  return doses.map((dose, at) => Number((dose - (doses[at + 1] ?? 0)).toFixed(2)))
}

import { Failure } from '../../core/failure.ts'

/**
 * Doses as one sets them on a counter: whole from 10 up, tenths below; finer, all of them, where two
 * would else be one.
 *
 * @param doses above 0
 * @throws Failure 'wrong input' where even hundredths cannot tell two apart
 */
export function settableDoses(doses: readonly number[]): readonly number[] {
  for (const finer of [1, 10, 100]) {
    const set = doses.map((dose) => nearest(dose, Math.min(100, perCount(dose) * finer)))
    if (new Set(set).size === doses.length) return set
  }
  throw new Failure(
    'wrong input',
    'These doses lie too close together to be set one by one: ask for fewer bands or a wider range.',
    { field: 'bands' },
  )
}

/** One dose as it is set and said. */
export function settableDose(dose: number): number {
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

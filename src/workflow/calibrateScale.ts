import { UNKNOWN_SCALE } from '../core/calibration/belief/priors.ts'
import type { Kept } from '../core/calibration/belief/replay.ts'

/** Where the doses of a room lie on average, in light units, whatever it draws with. */
const USUAL_LU = { low: 20, high: 120 } as const

/** A unit whose counter seems to count something else than light units. */
export type OddCounter = Readonly<{ unit: string; meanLu: number; scaleSd: number }>

/**
 * Units whose doses lie on average where light units do not: their counters are taken to count in
 * nobody knows what. People set doses that come out somehow, so the doses themselves tell.
 *
 * @source counter-scale
 */
export function oddCounters(evidence: readonly Kept[]): readonly OddCounter[] {
  const doses = new Map<string, number[]>()
  for (const each of evidence) {
    if (each.struckOut === true) continue
    const { unit = '' } = each
    const own = doses.get(unit) ?? []
    doses.set(unit, own)
    own.push(meanLog(each.kind === 'strip' ? each.bands.map((band) => band.doseLu) : [each.doseLu]))
  }
  return [...doses].flatMap(([unit, logs]) => {
    const meanLu = 10 ** (logs.reduce((sum, log) => sum + log, 0) / logs.length)
    const isUsual = meanLu >= USUAL_LU.low && meanLu <= USUAL_LU.high
    return isUsual ? [] : [{ unit, meanLu, scaleSd: UNKNOWN_SCALE.sd }]
  })
}

function meanLog(doses: readonly number[]): number {
  return doses.reduce((sum, dose) => sum + Math.log10(dose), 0) / doses.length
}

/** Said of such a unit, for whoever wrote its doses down. */
export function oddCounterWarning({ unit, meanLu }: OddCounter): string {
  const name = unit === '' ? 'the unit that nobody names' : `'${unit}'`
  return `The doses under ${name} lie about ${meanLu.toPrecision(2)} on average, where light units do not: its counter is taken to have a scale of its own.`
}

import { projected } from '../belief/gaussian.ts'
import { WALK } from '../belief/priors.ts'
import { type EwmaPoint, ewma } from './ewma.ts'
import { localLevel } from './localLevel.ts'
import { onsetOdds } from './onset.ts'
import { groundRows } from './witness.ts'
import {
  byThing,
  type Reference,
  THING_KINDS,
  type ThingKind,
  thingOf,
  type Witness,
} from './witnesses.ts'

/** A reading on the chart: log10 of dose against the reference, above 0 more light is wanted. */
export type ChartPoint = Omit<EwmaPoint, 'value'> &
  Readonly<{
    witness: Witness
    ewma: number
    /** So much speaks for a change by now that somebody should look. */
    changed: boolean
    /** The level that wanders under the readings, as far as known on that day. */
    level: number
    levelSd: number
  }>

/** All readings made with one thing of the shop, in the order of their days. */
export type DriftChart = Readonly<{
  kind: ThingKind
  name: string
  points: readonly ChartPoint[]
}>

/** How many sd the limits of the average are away, the reference's own doubt counted in.
 * @source drift-reference */
const LIMIT = 2.5
/**
 * What a change is looked for with, tuned on simulated terms: its odds at which a chart is spoken of
 * leave about six false alarms in a hundred terms in which nothing moves.
 *
 * @source onset-odds
 */
const ONSET = { odds: 47, shiftSd: 0.1, weeksBefore: 6, targetCounts: 0.85 } as const
/** Scatter of an ordinary wedge: i/√3 for a step of 0.15, its screen's 0.05.
 * @source wedge-noise */
const USUAL_SD: number = Math.sqrt(0.15 ** 2 / 3 + 0.05 ** 2)

/**
 * A chart for each unit, bucket and fabric. Where two would show the same readings, only the first
 * is drawn: there the data cannot tell the two apart.
 *
 * @source handbook-ewma, nile-level, onset-odds
 */
export function chartsOf(
  witnesses: readonly Witness[],
  reference: Reference,
): readonly DriftChart[] {
  const charts: DriftChart[] = []
  const drawn = new Set<string>()
  for (const kind of THING_KINDS) {
    const byName = byThing(witnesses, ({ reading }) => thingOf(reading, kind))
    for (const [name, own] of byName) {
      const readings = own.map((witness) => witnesses.indexOf(witness)).join()
      if (drawn.has(readings)) continue
      drawn.add(readings)
      charts.push({ kind, name, points: pointsOf(own, reference) })
    }
  }
  return charts
}

function pointsOf(
  witnesses: readonly Witness[],
  { belief, day }: Reference,
): readonly ChartPoint[] {
  const [first] = witnesses
  if (first === undefined) return []
  const { belief: known, hold } = groundRows(belief, first.reading)
  const [variance = 0] = projected(known.gaussian, [hold]).cov
  const targetSd = Math.sqrt(variance)
  const averages = ewma(witnesses, { target: 0, usualSd: USUAL_SD, targetSd, limit: LIMIT })
  const odds = onsetOdds(witnesses, { ...ONSET, targetSd: ONSET.targetCounts * targetSd })
  const { points } = localLevel(
    witnesses.map((each, at) => ({
      value: each.value,
      variance: each.sd ** 2,
      wandered: WALK.perDay * (each.day - (witnesses[at - 1]?.day ?? day)),
    })),
    { level: 0, variance },
  )
  return witnesses.map((witness, at) => {
    const { value = 0, low = 0, high = 0, out = false } = averages[at] ?? {}
    const { level = 0, variance: spread = 0 } = points[at] ?? {}
    const changed = (odds[at] ?? 0) > Math.log(ONSET.odds)
    return { witness, ewma: value, low, high, out, changed, level, levelSd: Math.sqrt(spread) }
  })
}

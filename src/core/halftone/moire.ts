import { THREADS_PER_CM } from '../fabric/geometry.ts'
import { expectIn, type Range } from '../units/range.ts'
import { contrastSensitivity, cyclesPerDegree, SEEN_BEST_AT } from './contrastSensitivity.ts'
import { dotStrength, fabricStrength } from './gratings.ts'

export const RULING: Range = { name: 'rulingPerCm', low: 2, high: 120, unit: 'lines per cm' }
export const ANGLE: Range = { name: 'angleDeg', low: -360, high: 360, unit: 'degrees' }
export const VIEWING: Range = { name: 'viewingMm', low: 50, high: 20_000, unit: 'mm' }

/** A halftone over a fabric, seen from a distance; angles counter-clockwise. */
export type Overlay = Readonly<{
  threadsPerCm: number
  rulingPerCm: number
  angleDeg: number
  meshAngleDeg: number
  viewingMm: number
}>

/** One pattern that a ruling and a fabric make together. */
export type Beat = Readonly<{
  perCm: number
  /** null where the beat is zero: no pattern, for as long as count and angle are exact. */
  periodMm: number | null
  /** Across which it runs, counter-clockwise, 0 … 180. */
  angleDeg: number
  order: readonly [i: number, j: number, k: number, l: number]
  /** Contrast of the pattern times how well the eye sees it, 0 … 1. */
  visibility: number
}>

export type Moire = Readonly<{
  kind: 'moire'
  verdict: 'none to be seen' | 'faint' | 'strong'
  /** All of them, what is seen best first. */
  beats: readonly Beat[]
  advice: Readonly<{ angleDeg: number; rulingPerCm: number; visibility: number }>
}>

/** About the eye's threshold where it sees best, and what a stranger to the print points at. */
const FAINT_FROM = 0.005
const STRONG_FROM = 0.02

const MOST_OF_RULING = 4
/** Stretched cloth is off its name by so much of its count, and so a beat of zero is none for long. */
const COUNT_DOUBT_SHARE = 0.01
/** Sums of cosines end in rounding. */
const ZERO_PER_CM = 1e-9

/**
 * Every pattern of a halftone over a fabric, and the angle and ruling nearby that show least of it.
 *
 * Beat = i s1 + j s2 − k m1 − l m2 with |i| + |j| from 1 to 4 and k, l from −1 to 1, not both 0;
 * s are the halftone's two frequency vectors and m the fabric's. (i, j, k, l) and its negative are
 * one beat; the first of k, l that is not 0 is positive.
 *
 * Visibility = 2 c_ij m_kl A(f) (1 − f/F): the amplitude of round dots and square openings laid over
 * each other, the dots at the tone that shows it most; the eye's relative sensitivity A at the most
 * visible frequency f within a hundredth of the thread count about the beat; and how much coarser
 * than the ruling F it is, for what is as fine as the dots is taken for them.
 *
 * The advice is sought among angles up to 45° away and rulings up to a tenth. Its worst beat and the
 * sum of all are no more visible than those of what was asked, and its longest period is no longer.
 *
 * @throws RangeError outside the ranges
 * @source amidror2000, fourier-gratings, mannos1974, moire-visibility
 * @limits ink flows together and softens the threads' shadows: what shows less here may not show
 */
export function moire(overlay: Overlay): Moire {
  expectIn(overlay.threadsPerCm, THREADS_PER_CM)
  expectIn(overlay.rulingPerCm, RULING)
  expectIn(overlay.angleDeg, ANGLE)
  expectIn(overlay.meshAngleDeg, { ...ANGLE, name: 'meshAngleDeg' })
  expectIn(overlay.viewingMm, VIEWING)
  const beats = beatsOf(overlay)
  const worst = beats[0]?.visibility ?? 0
  return { kind: 'moire', verdict: verdictOf(worst), beats, advice: adviceFor(overlay) }
}

function verdictOf(visibility: number): Moire['verdict'] {
  if (visibility < FAINT_FROM) return 'none to be seen'
  return visibility < STRONG_FROM ? 'faint' : 'strong'
}

const ORDERS: readonly Beat['order'][] = ordersToLook()

function ordersToLook(): readonly Beat['order'][] {
  const whole = (most: number): readonly number[] =>
    Array.from({ length: 2 * most + 1 }, (_, at) => at - most)
  const ofRuling = whole(MOST_OF_RULING).flatMap((i) =>
    whole(MOST_OF_RULING)
      .filter((j) => Math.abs(i) + Math.abs(j) >= 1 && Math.abs(i) + Math.abs(j) <= MOST_OF_RULING)
      .map((j) => [i, j] as const),
  )
  const ofFabric = [
    [1, 0],
    [0, 1],
    [1, 1],
    [1, -1],
  ] as const
  return ofFabric.flatMap(([k, l]) => ofRuling.map(([i, j]) => [i, j, k, l] as const))
}

function beatsOf(overlay: Overlay): readonly Beat[] {
  const found = ORDERS.map((order) => beatOf(overlay, order))
  return found.toSorted(
    (one, other) => other.visibility - one.visibility || one.perCm - other.perCm,
  )
}

function beatOf(overlay: Overlay, order: Beat['order']): Beat {
  const { x, y } = vectorOf(overlay, order)
  const length = Math.hypot(x, y)
  const perCm = length < ZERO_PER_CM ? 0 : length
  const turned = Math.round(((Math.atan2(y, x) * 180) / Math.PI) * 1e9) / 1e9
  return {
    perCm,
    periodMm: perCm === 0 ? null : 10 / perCm,
    angleDeg: perCm === 0 ? 0 : (turned + 180) % 180,
    order,
    visibility: visibilityOf(perCm, order, overlay),
  }
}

function vectorOf(
  { threadsPerCm, rulingPerCm, angleDeg, meshAngleDeg }: Overlay,
  [i, j, k, l]: Beat['order'],
): Readonly<{ x: number; y: number }> {
  const [cos, sin] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)]
  const turn = (meshAngleDeg * Math.PI) / 180
  const [meshCos, meshSin] = [Math.cos(turn), Math.sin(turn)]
  return {
    x: rulingPerCm * (i * cos - j * sin) - threadsPerCm * (k * meshCos - l * meshSin),
    y: rulingPerCm * (i * sin + j * cos) - threadsPerCm * (k * meshSin + l * meshCos),
  }
}

/** What each order is worth wherever its beat lies: asked for many thousand times. */
const STRENGTHS: ReadonlyMap<Beat['order'], number> = new Map(
  ORDERS.map((order) => {
    const [i, j, k, l] = order
    return [order, 2 * dotStrength(i, j) * fabricStrength(k, l)]
  }),
)

function visibilityOf(perCm: number, order: Beat['order'], overlay: Overlay): number {
  const doubt = COUNT_DOUBT_SHARE * overlay.threadsPerCm
  const low = cyclesPerDegree(Math.max(0, perCm - doubt), overlay)
  const high = cyclesPerDegree(perCm + doubt, overlay)
  const seenAt = Math.min(high, Math.max(low, SEEN_BEST_AT))
  const coarser = Math.max(0, 1 - Math.max(0, perCm - doubt) / overlay.rulingPerCm)
  if (coarser === 0) return 0
  return (STRENGTHS.get(order) ?? 0) * contrastSensitivity(seenAt) * coarser
}

const ANGLE_STEP_DEG = 0.5
const MOST_TURN_STEPS = 90
const RULING_STEP_SHARE = 0.01
const MOST_RULING_STEPS = 10

/** What shows less than this shows nothing: no reason to turn or change anything. */
const GOOD_ENOUGH = 0.5 * FAINT_FROM
/** Another ruling changes all tones and what the stencil must hold; a turn changes little. */
const COST_OF_RULING = 0.02
const COST_PER_DEG = 2e-5

function adviceFor(asked: Overlay): Moire['advice'] {
  const limit = weighed(asked)
  let best = { angleDeg: asked.angleDeg, rulingPerCm: asked.rulingPerCm, visibility: limit.worst }
  let cost = Math.max(0, limit.worst - GOOD_ENOUGH)
  for (let step = -MOST_RULING_STEPS; step <= MOST_RULING_STEPS; step++) {
    const change = step * RULING_STEP_SHARE
    const rulingPerCm =
      step === 0 ? asked.rulingPerCm : hundredths(asked.rulingPerCm * (1 + change))
    if (rulingPerCm < RULING.low || rulingPerCm > RULING.high) continue
    for (let turn = -MOST_TURN_STEPS; turn < MOST_TURN_STEPS; turn++) {
      const turnDeg = turn * ANGLE_STEP_DEG
      const fixed = COST_OF_RULING * Math.abs(change) + COST_PER_DEG * Math.abs(turnDeg)
      if (fixed >= cost) continue
      const angleDeg = turnedBy(asked.angleDeg, turnDeg)
      const { worst, sum, lowestPerCm } = weighed({ ...asked, rulingPerCm, angleDeg })
      const costs = fixed + Math.max(0, worst - GOOD_ENOUGH)
      const isNoWorse = worst <= limit.worst && sum <= limit.sum && lowestPerCm >= limit.lowestPerCm
      if (costs < cost && isNoWorse) {
        best = { angleDeg, rulingPerCm, visibility: worst }
        cost = costs
      }
    }
  }
  return best
}

type Weighed = Readonly<{ worst: number; sum: number; lowestPerCm: number }>

function weighed(overlay: Overlay): Weighed {
  let [worst, sum, lowestPerCm] = [0, 0, Number.POSITIVE_INFINITY]
  for (const order of ORDERS) {
    const { x, y } = vectorOf(overlay, order)
    const perCm = Math.hypot(x, y)
    const visibility = visibilityOf(perCm, order, overlay)
    worst = Math.max(worst, visibility)
    sum += visibility
    lowestPerCm = Math.min(lowestPerCm, perCm)
  }
  return { worst, sum, lowestPerCm }
}

function hundredths(value: number): number {
  return Math.round(100 * value) / 100
}

/** Kept to 0 … 180, and to hundredths where it was turned. */
function turnedBy(deg: number, by: number): number {
  if (by === 0) return deg
  return hundredths((((deg + by) % 180) + 180) % 180)
}

import type { Evidence } from '../belief/evidence.ts'
import { projected } from '../belief/gaussian.ts'
import type { Kept } from '../belief/replay.ts'
import type { ShopFacts } from '../belief/state.ts'
import { type Cause, causesOf, type DriftKind } from './causes.ts'
import { chartsOf, type DriftChart } from './charts.ts'
import { type DriftWords, wordsFor } from './driftWords.ts'
import { type JumpNote, jumpsFound, STEP } from './jumps.ts'
import { referenceOf } from './reference.ts'
import {
  quietCovariance,
  type Settled,
  settledAfter,
  settledOf,
  type Weighed,
  weighCauses,
} from './weighCauses.ts'
import { groundRows } from './witness.ts'
import { type Reference, type Witness, type WitnessMemory, witnessesOf } from './witnesses.ts'

/** Something is not as it was. */
export type DriftAlarm = Readonly<{
  kind: DriftKind
  /** Since when, or on which day. */
  day: number
  /** The shop's name of the unit, bucket or fabric; empty where it is about none. */
  name: string
  /** By how many wedge steps of 0.15; above 0: more light is wanted. */
  steps: number
  /** Of this kind of cause among all that were compared. */
  chance: number
  /** The dose that makes the ground sound in the newest set-up concerned. */
  groundLu: Readonly<{ before: number; after: number }>
  headline: string
  sentence: string
  /** What it may be as well: the data cannot tell. */
  others: readonly string[]
  /** The one test that tells them apart. */
  test: string
  /** On which it was seen. */
  readings: readonly Evidence[]
}>

export type Drift = Readonly<{
  /** Null: too little has been read to chart anything against it. */
  reference: Reference | null
  alarms: readonly DriftAlarm[]
  charts: readonly DriftChart[]
}>

export type DriftWatch = Readonly<{
  shop: ShopFacts
  words: DriftWords
  /** The belief as it stood in the evening of the day on which it was accepted. */
  reference?: Reference | undefined
  /** Only readings up to the evening of that day count. */
  until?: number | undefined
  /** What each day did to the belief, as `replay` gives it: a likely jump is a signal too. Days after
   * `until` are not looked at. */
  days?: readonly JumpNote[] | undefined
  /** Of readings that were charted before: what was reckoned of them is not reckoned again. */
  memory?: WitnessMemory | undefined
}>

/** More things than these do not change at once before somebody looks. */
const MOST_ALARMS = 4
/** A cause less likely than this beside the likeliest is not spoken of. */
const WORTH_SAYING = 0.1
/** So many times as likely as the next must a cause be to be named alone. */
const CLEAR = 2

/**
 * Whether the shop's doses are still what they were.
 *
 * What every reading since the reference says of the ground is charted against that reference,
 * which learns nothing more, apart for each unit, bucket and fabric. Where the readings of a chart
 * speak for a change, all that may have happened is weighed by how likely it makes them; the likeliest
 * cause is told, then taken out, and the charts are looked at again.
 *
 * @throws RangeError where a number of the evidence cannot be
 * @source onset-odds, drift-causes, drift-reference
 * @limits half a wedge step cannot be seen
 */
export function watchDrift(evidence: readonly Kept[], watch: DriftWatch): Drift {
  const { shop, until, memory } = watch
  const counted = evidence.filter(({ day }) => (day ?? 0) < (until ?? Number.POSITIVE_INFINITY) + 1)
  const reference = watch.reference ?? referenceOf(counted, { shop })
  if (reference === null) return { reference, alarms: [], charts: [] }
  const witnesses = witnessesOf(counted, reference, { memory })
  return {
    reference,
    alarms: alarmsAmong(witnesses, { ...watch, reference, evidence: counted }),
    charts: chartsOf(witnesses, reference),
  }
}

type Seen = DriftWatch & Readonly<{ reference: Reference; evidence: readonly Kept[] }>

function alarmsAmong(witnesses: readonly Witness[], seen: Seen): readonly DriftAlarm[] {
  const { reference, days = [], until = Number.POSITIVE_INFINITY } = seen
  const alarms: DriftAlarm[] = []
  const jumped = jumpsFound(days).some(({ day }) => day > reference.day && day <= until)
  let left = witnesses
  let settled: Settled | null = null
  let causes: readonly Cause[] = []
  while (alarms.length < MOST_ALARMS) {
    const since = outSince(chartsOf(left, reference))
    if (since === null && !(jumped && alarms.length === 0)) break
    if (settled === null) {
      const residuals = witnesses.map(({ value }) => value)
      settled = settledOf(quietCovariance(witnesses, reference), residuals)
      causes = causesOf(witnesses, reference)
    }
    const { nothing, weighed } = weighCauses(causes, settled)
    if (since === null && nothing > 0.5) break
    const found = likeliestKind(weighed, { nothing, since, witnesses })
    alarms.push(alarmOf(found, { ...seen, witnesses }))
    const { cause, plainShift } = found.best
    if (cause.sd === 0) break
    settled = settledAfter(settled, cause)
    causes = causes.filter((each) => each !== cause)
    left = left.map((witness, at) => {
      if (cause.touches[at] !== true) return witness
      const sd = cause.each ? Math.hypot(witness.sd, cause.sd) : witness.sd
      return { ...witness, value: witness.value - plainShift, sd }
    })
  }
  return alarms.sort((a, b) => a.day - b.day)
}

/** Since when the average of a chart has been on the side where it was when a change last spoke. */
function outSince(charts: readonly DriftChart[]): number | null {
  const since = charts.flatMap(({ points }) => {
    const at = points.findLastIndex(({ changed }) => changed)
    if (at < 0) return []
    const side = Math.sign(points[at]?.ewma ?? 0)
    let first = at
    while (first > 0 && Math.sign(points[first - 1]?.ewma ?? 0) === side) first--
    return [points[first]?.witness.day ?? 0]
  })
  return since.length === 0 ? null : Math.min(...since)
}

type Found = Readonly<{
  best: Weighed
  /** Of the best one's kind and thing, whenever it was. */
  chance: number
  others: readonly Readonly<{ cause: Cause; chance: number }>[]
}>

/** The causes summed over all days, and the likeliest day of the likeliest. */
function likeliestKind(
  weighed: readonly Weighed[],
  {
    nothing,
    since,
    witnesses,
  }: Readonly<{ nothing: number; since: number | null; witnesses: readonly Witness[] }>,
): Found {
  const day = since ?? witnesses[0]?.day ?? 0
  const kinds = new Map<string, { best: Weighed; chance: number }>()
  for (const each of weighed) {
    const key = `${each.cause.kind}: ${each.cause.name}`
    const known = kinds.get(key)
    if (known === undefined) kinds.set(key, { best: each, chance: each.chance })
    else known.chance += each.chance
  }
  kinds.set('', { best: { ...wandered(witnesses, day), chance: nothing }, chance: nothing })
  const ordered = [...kinds.values()].sort((a, b) => b.chance - a.chance)
  const [top] = ordered
  if (top === undefined) throw new RangeError('weighed: expected at least 1 cause, got 0')
  const others = ordered
    .slice(1)
    .filter(({ chance }) => chance > WORTH_SAYING * top.chance)
    .map(({ best: { cause }, chance }) => ({ cause, chance }))
  return { ...top, others }
}

/** No single cause: the ground has moved little by little. */
function wandered(witnesses: readonly Witness[], day: number): Weighed {
  const touches = witnesses.map((each) => each.day >= day)
  const own = witnesses.filter((_, at) => touches[at])
  const weight = own.reduce((sum, { sd }) => sum + 1 / sd ** 2, 0)
  const shift = own.reduce((sum, { value, sd }) => sum + value / sd ** 2, 0) / weight
  const cause: Cause = { kind: 'unknown', name: '', day, chance: 0, touches, sd: 0, each: false }
  return { cause, chance: 0, shift, plainShift: shift }
}

function alarmOf(
  { best: { cause, shift }, chance, others }: Found,
  seen: Seen & Readonly<{ witnesses: readonly Witness[] }>,
): DriftAlarm {
  const { witnesses, reference, evidence, words } = seen
  const { kind, day, name } = cause
  const concerned = witnesses.filter((_, at) => cause.touches[at])
  const readings = concerned.map(({ reading }) => reading)
  const { belief, sound } = groundRows(reference.belief, readings.at(-1) ?? {})
  const [usual = 0] = projected(belief.gaussian, [sound]).mean
  const groundLu = { before: 10 ** usual, after: 10 ** (usual + shift) }
  const steps = (cause.each ? cause.sd : shift) / STEP
  const told = wordsFor(
    {
      cause,
      steps,
      groundLu,
      readings,
      others: others.map((other) => other.cause),
      isClose: others.some((other) => chance < CLEAR * other.chance),
    },
    { words, evidence },
  )
  return { kind, day, name, steps, chance, groundLu, readings, ...told }
}

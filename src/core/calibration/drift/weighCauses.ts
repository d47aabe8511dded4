import { inverseOf, loosened, projected } from '../belief/gaussian.ts'
import { WALK } from '../belief/priors.ts'
import type { Belief, EntryKind } from '../belief/state.ts'
import type { Cause } from './causes.ts'
import { groundRows, withoutOneOffs } from './witness.ts'
import { type Reference, THING_KINDS, thingOf, type Witness } from './witnesses.ts'

/** A cause with the chance that it, and no other of those compared, moved the readings. */
export type Weighed = Readonly<{
  cause: Cause
  chance: number
  /** By how much it moved them, log10. */
  shift: number
  /** What the readings alone say of that, nothing believed beforehand. */
  plainShift: number
}>

/**
 * The covariance that the readings' residuals have when nothing happened: what the reference did
 * not know, the walk of hold dose and lamps since, and each reading's own scatter; row after row.
 * That a new bucket, fabric or unit differs from the old is a cause of its own, and not in it.
 *
 * @source belief-priors
 */
export function quietCovariance(
  witnesses: readonly Witness[],
  { belief, day }: Reference,
): Float64Array {
  const size = witnesses.length
  const start = withoutOneOffs(belief)
  let known = start
  const rows = witnesses.map(({ reading }) => {
    const ground = groundRows(known, reading)
    known = ground.belief
    return ground.hold
  })
  const added = known.entries.flatMap(({ kind, prior }, at) =>
    at < start.entries.length || !isThing(kind) ? [] : [{ at, variance: -(prior.sd ** 2) }],
  )
  const { cov } = projected(loosened(known.gaussian, added), rows)
  const burned = burnedHours(witnesses, belief)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      const [a, b] = [witnesses[i], witnesses[j]]
      if (a === undefined || b === undefined) continue
      const days = Math.min(a.day, b.day) - day
      const unit = thingOf(a.reading, 'unit')
      const hours =
        unit === thingOf(b.reading, 'unit') ? Math.min(burned[i] ?? 0, burned[j] ?? 0) : 0
      const perHour = belief.shop.secondsUnits.includes(unit)
        ? WALK.perLampHourInSeconds
        : WALK.perLampHour
      const own = i === j ? a.sd ** 2 : 0
      cov[i * size + j] = (cov[i * size + j] ?? 0) + WALK.perDay * days + perHour * hours + own
    }
  }
  return cov
}

function isThing(kind: EntryKind): boolean {
  return THING_KINDS.some((thing) => thing === kind)
}

/** Hours that each reading's lamp has burned since the reference; none where nobody counted. */
function burnedHours(witnesses: readonly Witness[], { lampHours }: Belief): readonly number[] {
  const last = new Map(lampHours)
  const sum = new Map<string, number>()
  return witnesses.map(({ reading }) => {
    const unit = thingOf(reading, 'unit')
    const hours = reading.lampHours
    if (hours !== undefined) {
      const more = Math.max(0, hours - (last.get(unit) ?? hours))
      last.set(unit, hours)
      sum.set(unit, (sum.get(unit) ?? 0) + more)
    }
    return sum.get(unit) ?? 0
  })
}

/**
 * What is known of the readings' residuals when nothing, or only what was told so far, happened:
 * K = C⁻¹ of their covariance C, row after row, and K y.
 */
export type Settled = Readonly<{ precision: Float64Array; pulls: Float64Array }>

/** @param cov C, symmetric, with a scatter of its own for each reading */
export function settledOf(cov: Float64Array, residuals: readonly number[]): Settled {
  const size = residuals.length
  const precision = inverseOf(cov, size)
  const pulls = new Float64Array(size)
  for (let i = 0; i < size; i++) pulls[i] = dotRow(precision, i, residuals)
  return { precision, pulls }
}

/**
 * Each cause against nothing at all, by how likely it makes the residuals y: with covariance C and
 * the readings x that a shift of variance s² moves, log √(1 + s² xᵀC⁻¹x)⁻¹ + (xᵀC⁻¹y)²/(2 (xᵀC⁻¹x
 * + s⁻²)); where each is moved by its own, the same for one reading after another.
 *
 * @returns likeliest first; the chances with `nothing`'s add up to 1
 * @source bayes-linear
 */
export function weighCauses(
  causes: readonly Cause[],
  settled: Settled,
): Readonly<{ nothing: number; weighed: readonly Weighed[] }> {
  const loose = loosenedLogs(
    causes.filter(({ each }) => each),
    settled,
  )
  const found = causes.map((cause) => {
    const odds = Math.log(cause.chance / (1 - cause.chance))
    if (cause.each) return { cause, log: odds + (loose.get(cause) ?? 0), shift: 0, plainShift: 0 }
    const { told, pull } = heardOf(cause, settled)
    const precision = told + 1 / cause.sd ** 2
    const log = odds - 0.5 * Math.log(cause.sd ** 2 * precision) + (0.5 * pull ** 2) / precision
    return { cause, log, shift: pull / precision, plainShift: pull / told }
  })
  const most = Math.max(0, ...found.map(({ log }) => log))
  const total = found.reduce((sum, { log }) => sum + Math.exp(log - most), Math.exp(-most))
  const weighed = found.map(({ log, ...each }) => ({
    ...each,
    chance: Math.exp(log - most) / total,
  }))
  return {
    nothing: Math.exp(-most) / total,
    weighed: weighed.sort((a, b) => b.chance - a.chance),
  }
}

/** What is known once a cause has moved the readings, nobody knows how far. @source bayes-linear */
export function settledAfter(settled: Settled, cause: Cause): Settled {
  const size = settled.pulls.length
  const precision = settled.precision.slice()
  const pulls = settled.pulls.slice()
  const all = Array.from({ length: size }, (_, at) => at)
  const touched = all.filter((at) => cause.touches[at] === true)
  // one that moves all alike, or one for each reading
  for (const together of cause.each ? touched.map((at) => [at]) : [touched]) {
    const column = new Float64Array(size)
    for (const at of together)
      for (let i = 0; i < size; i++) column[i] = (column[i] ?? 0) + (precision[at * size + i] ?? 0)
    const told = together.reduce((sum, at) => sum + (column[at] ?? 0), 0)
    const pull = together.reduce((sum, at) => sum + (pulls[at] ?? 0), 0)
    const less = 1 / (told + 1 / cause.sd ** 2)
    takeOff({ precision, pulls }, { column, pull, less, among: all })
  }
  return { precision, pulls }
}

/** xᵀC⁻¹x and xᵀC⁻¹y of the readings that a cause moves. */
function heardOf(
  { touches }: Cause,
  { precision, pulls }: Settled,
): Readonly<{ told: number; pull: number }> {
  const size = touches.length
  let [told, pull] = [0, 0]
  for (let i = 0; i < size; i++) {
    if (touches[i] !== true) continue
    pull += pulls[i] ?? 0
    told += precision[i * (size + 1)] ?? 0
    let beside = 0
    for (let j = 0; j < i; j++) if (touches[j] === true) beside += precision[i * size + j] ?? 0
    told += 2 * beside
  }
  return { told, pull }
}

/**
 * Of causes that move each reading by its own: by how much likelier they make the residuals, as a
 * log. Mostly one moves all that another moves and some more, so one goes on where the other ended,
 * and of the rest alone is told what follows.
 */
function loosenedLogs(causes: readonly Cause[], settled: Settled): ReadonlyMap<Cause, number> {
  const size = settled.pulls.length
  const count = ({ touches }: Cause): number => touches.filter(Boolean).length
  const logs = new Map<Cause, number>()
  let before: Cause | null = null
  let rest: number[] = []
  let log = 0
  let [precision, pulls] = [settled.precision, settled.pulls]
  for (const cause of causes.toSorted((a, b) => count(a) - count(b))) {
    const known: Cause | null = before
    const goesOn =
      known !== null &&
      known.sd === cause.sd &&
      known.touches.every((moved, at) => !moved || cause.touches[at] === true)
    if (!goesOn) {
      precision = settled.precision.slice()
      pulls = settled.pulls.slice()
      rest = Array.from({ length: size }, (_, at) => at)
      log = 0
    }
    for (const at of rest.filter((each) => cause.touches[each] === true)) {
      const told = precision[at * (size + 1)] ?? 0
      const pull = pulls[at] ?? 0
      const loose = told + 1 / cause.sd ** 2
      log += (0.5 * pull ** 2) / loose - 0.5 * Math.log(cause.sd ** 2 * loose)
      rest = rest.filter((each) => each !== at)
      const column = precision.slice(at * size, (at + 1) * size)
      takeOff({ precision, pulls }, { column, pull, less: 1 / loose, among: rest })
    }
    logs.set(cause, log)
    before = cause
  }
  return logs
}

/** K − less · k kᵀ and K y − less · k (xᵀK y), for some of the readings. */
function takeOff(
  { precision, pulls }: Settled,
  {
    column,
    pull,
    less,
    among,
  }: Readonly<{ column: Float64Array; pull: number; less: number; among: readonly number[] }>,
): void {
  const size = pulls.length
  for (const i of among) {
    const times = less * (column[i] ?? 0)
    const row = i * size
    pulls[i] = (pulls[i] ?? 0) - times * pull
    if (times === 0) continue
    for (const j of among) precision[row + j] = (precision[row + j] ?? 0) - times * (column[j] ?? 0)
  }
}

function dotRow(matrix: Float64Array, row: number, values: readonly number[]): number {
  const from = row * values.length
  let sum = 0
  for (let at = 0; at < values.length; at++) sum += (matrix[from + at] ?? 0) * (values[at] ?? 0)
  return sum
}

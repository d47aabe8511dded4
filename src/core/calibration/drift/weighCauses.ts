import { factorOf, loosened, projected } from '../belief/gaussian.ts'
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
 * Each cause against nothing at all, by how likely it makes the residuals: with covariance C and
 * the readings x that a shift of variance s² moves, log √(1 + s² xᵀC⁻¹x)⁻¹ + (xᵀC⁻¹y)²/(2 (xᵀC⁻¹x
 * + s⁻²)); where each is moved by its own, the two normal densities themselves.
 *
 * @param known C and y, with what is known to have happened already in them
 * @returns likeliest first; the chances with `nothing`'s add up to 1
 * @source bayes-linear
 */
export function weighCauses(
  causes: readonly Cause[],
  known: Readonly<{ cov: Float64Array; residuals: readonly number[] }>,
): Readonly<{ nothing: number; weighed: readonly Weighed[] }> {
  const size = known.residuals.length
  const factor = factorOf(known.cov, size)
  const white = whitened(factor, known.residuals)
  const quiet = logDensity(factor, white)
  const found = causes.map((cause) => {
    const odds = Math.log(cause.chance / (1 - cause.chance))
    if (cause.each) {
      const cov = withCause(known.cov, cause)
      const loose = factorOf(cov, size)
      const log = odds + logDensity(loose, whitened(loose, known.residuals)) - quiet
      return { cause, log, shift: 0, plainShift: 0 }
    }
    const touched = whitened(
      factor,
      cause.touches.map((moved) => (moved ? 1 : 0)),
    )
    const told = sumOf(touched, touched)
    const pull = sumOf(touched, white)
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

/** The covariance once a cause is known to have moved the readings, nobody knows how far. */
export function withCause(cov: Float64Array, { touches, sd, each }: Cause): Float64Array {
  const size = touches.length
  return cov.map((value, at) => {
    const [i, j] = [Math.floor(at / size), at % size]
    const moved = touches[i] === true && touches[j] === true && (!each || i === j)
    return moved ? value + sd ** 2 : value
  })
}

/** L⁻¹ v, by going forward. */
function whitened(factor: Float64Array, values: readonly number[]): Float64Array {
  const size = values.length
  const white = new Float64Array(size)
  for (let i = 0; i < size; i++) {
    let left = values[i] ?? 0
    for (let k = 0; k < i; k++) left -= (factor[i * size + k] ?? 0) * (white[k] ?? 0)
    white[i] = left / (factor[i * (size + 1)] ?? 1)
  }
  return white
}

/** Log of the normal density, without the part that all have. */
function logDensity(factor: Float64Array, white: Float64Array): number {
  let log = -0.5 * sumOf(white, white)
  for (let i = 0; i < white.length; i++) log -= Math.log(factor[i * (white.length + 1)] ?? 1)
  return log
}

function sumOf(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let at = 0; at < a.length; at++) sum += (a[at] ?? 0) * (b[at] ?? 0)
  return sum
}

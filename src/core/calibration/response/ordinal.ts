import { factorOf, inverseFactorOf } from '../belief/gaussian.ts'
import { type Half, halfOf } from './half.ts'
import { LINKS } from './links.ts'
import { isParted } from './parted.ts'

/** At one x, how many came out in each of the grades, the lowest grade first. */
export type GradeCounts = Readonly<{ x: number; counts: readonly number[] }>

/** Proportional odds: logit P(grade j or more) = cuts[j − 1] + slope · x. */
export type OrdinalFit = Readonly<{
  cuts: readonly number[]
  slope: number
  /** Standard errors of the cuts and then of the slope, by expected information. */
  se: readonly number[]
  /** Against the shares of each x itself. */
  deviance: number
  /** For each cut the x at which half reach it. */
  halves: readonly Half[]
}>

const MOST_ROUNDS = 60
const SETTLED = 1e-9

/**
 * Grades in their order against x, by maximum likelihood (Fisher's scoring with halved steps).
 *
 * @param all two grades or more, each of them seen at least once
 * @returns null where the data have no such curve, as x parts all grades
 * @source ashford1959
 */
export function ordinalFit(all: readonly GradeCounts[]): OrdinalFit | null {
  const grades = all[0]?.counts.length ?? 0
  const levels = Array.from({ length: grades - 1 }, (_, at) =>
    all.map(({ x, counts }) => ({
      x,
      yes: sumOf(counts.slice(at + 1)),
      no: sumOf(counts.slice(0, at + 1)),
    })),
  )
  if (levels.every(isParted)) return null
  let at = [
    ...levels.map((level) => {
      const yes = sumOf(level.map((each) => each.yes))
      return Math.log(yes / sumOf(level.map(({ no }) => no)))
    }),
    0,
  ]
  let here = likelihoodAt(all, at)
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const step = times(inverseOf(here.information, at.length), here.score)
    let share = 1
    let to = at
    let next = here
    do {
      const part = share
      to = at.map((value, i) => value + part * (step[i] ?? 0))
      next = likelihoodAt(all, to)
      share /= 2
    } while (!(next.log > here.log - SETTLED) && share > 1e-6)
    const moved = Math.max(...step.map((by, i) => Math.abs(by) / (1 + Math.abs(to[i] ?? 0))))
    at = to
    here = next
    if (moved < SETTLED) return fitted(all, { at, ...here })
  }
  return null
}

type LikelihoodAt = Readonly<{ log: number; score: Float64Array; information: Float64Array }>

/** Log likelihood, its slopes, and what information the data are expected to hold. */
function likelihoodAt(all: readonly GradeCounts[], at: readonly number[]): LikelihoodAt {
  const size = at.length
  const score = new Float64Array(size)
  const information = new Float64Array(size * size)
  let log = 0
  const slope = at[size - 1] ?? 0
  for (const { x, counts } of all) {
    const trials = sumOf(counts)
    const reach = at.slice(0, -1).map((cut) => LINKS.logit.of(cut + slope * x))
    counts.forEach((seen, grade) => {
      const [from, to] = [reach[grade - 1], reach[grade]]
      const share = (from?.share ?? 1) - (to?.share ?? 0)
      const [rise, fall] = [from?.slope ?? 0, to?.slope ?? 0]
      const change = new Float64Array(size)
      if (grade > 0) change[grade - 1] = rise
      if (grade < size - 1) change[grade] = -fall
      change[size - 1] = x * (rise - fall)
      if (seen > 0) log += share > 0 ? seen * Math.log(share) : Number.NEGATIVE_INFINITY
      for (let i = 0; i < size; i++) {
        score[i] = (score[i] ?? 0) + (seen * (change[i] ?? 0)) / share
        for (let j = 0; j < size; j++) {
          information[i * size + j] =
            (information[i * size + j] ?? 0) +
            (trials * (change[i] ?? 0) * (change[j] ?? 0)) / share
        }
      }
    })
  }
  return { log, score, information }
}

function fitted(
  all: readonly GradeCounts[],
  { at, log, information }: LikelihoodAt & Readonly<{ at: readonly number[] }>,
): OrdinalFit {
  const size = at.length
  const cov = inverseOf(information, size)
  const variance = (i: number, j: number): number => cov[i * size + j] ?? 0
  const slope = at[size - 1] ?? 0
  const cuts = at.slice(0, -1)
  const itself = sumOf(
    all.flatMap(({ counts }) =>
      counts.map((seen) => (seen === 0 ? 0 : seen * Math.log(seen / sumOf(counts)))),
    ),
  )
  return {
    cuts,
    slope,
    se: at.map((_, i) => Math.sqrt(variance(i, i))),
    deviance: 2 * (itself - log),
    halves: cuts.map((cut, i) =>
      halfOf({
        a: cut,
        b: slope,
        aa: variance(i, i),
        ab: variance(i, size - 1),
        bb: variance(size - 1, size - 1),
      }),
    ),
  }
}

/** Of a matrix that is positive and symmetric: L⁻ᵀ L⁻¹. */
function inverseOf(matrix: Float64Array, size: number): Float64Array {
  const lower = inverseFactorOf(factorOf(matrix, size), size)
  return matrix.map((_, place) => {
    const [i, j] = [Math.floor(place / size), place % size]
    let sum = 0
    for (let k = 0; k < size; k++) sum += (lower[k * size + i] ?? 0) * (lower[k * size + j] ?? 0)
    return sum
  })
}

function times(matrix: Float64Array, values: Float64Array): readonly number[] {
  const size = values.length
  return [...values].map((_, i) =>
    [...values].reduce((sum, value, j) => sum + (matrix[i * size + j] ?? 0) * value, 0),
  )
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0)
}

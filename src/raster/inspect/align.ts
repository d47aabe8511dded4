import type { FilmCells } from './filmCells.ts'
import {
  fittedLight,
  lightOf,
  type Misfits,
  misfitsOf,
  modelled,
  type Seen,
  sumOfSquares,
} from './fittedLight.ts'
import type { Grid } from './grid.ts'
import { type LeastSquares, leastSquares } from './leastSquares.ts'
import { type LightField, lightTerms, termCount } from './lightField.ts'
import { median } from './median.ts'
import {
  directions,
  type Freedom,
  movedPose,
  POSE_NUMBERS,
  type Pose,
  photoPoint,
  photoPointMoves,
} from './pose.ts'

export type Alignment = Readonly<{
  pose: Pose
  /** Share of the photo's variance over the film that the film explains beyond smooth light, to 1. */
  fit: number
  /** Share of the film's cells that lie inside the photo. */
  insideShare: number
}>

export type LightOptions = Readonly<{
  degree: 2 | 3
  /** A misfit below this share of the light of open places is never doubted. */
  trustedShare: number
}>

export type AlignOptions = LightOptions &
  Readonly<{
    freedom: Freedom
    /** Most rounds; fewer where nothing moves any more. */
    rounds: number
  }>

/** A cell whose misfit is so many times the usual one has half a say: faults must not pull. */
const DOUBTFUL = 2.5

/** What is expected of perspective and lens before anything is seen (judged). */
const TILT_SD = 0.2
const LENS_SD = 0.02

/** A pose that moves by less than this part of a cell stands. */
const STILL_CELLS = 0.01

/**
 * Moves a pose until the film, lit by a smooth light, looks most like the photo: Gauss-Newton on
 * pose and light at once, with less weight for what does not fit.
 *
 * @param cells shares of marks; photo: linear light at about the same size
 * @returns null where the film lies outside the photo or gives nothing to hold on to
 */
export function align(
  cells: FilmCells,
  photo: Grid,
  start: Pose,
  options: AlignOptions,
): Alignment | null {
  let state: State = { pose: start, light: null, scale: 0, moved: Number.POSITIVE_INFINITY }
  for (let round = 0; round < options.rounds; round += 1) {
    const next = oneRound({ cells, photo }, state, options)
    if (next === null) return null
    state = next
    if (state.scale > 0 && state.moved < STILL_CELLS * cells.step) break
  }
  return measured({ cells, photo }, state.pose, options)
}

type Views = Readonly<{ cells: FilmCells; photo: Grid }>

type State = Readonly<{
  pose: Pose
  /** Ground numbers, then gain numbers; null before the first round. */
  light: Float64Array | null
  /** Usual misfit as a standard deviation; 0 while unknown. */
  scale: number
  /** The largest change of one of the pose's numbers. */
  moved: number
}>

function oneRound(
  { cells, photo }: Views,
  { pose, light, scale }: State,
  { freedom, degree, trustedShare }: AlignOptions,
): State | null {
  const along = directions(pose, freedom)
  const terms = termCount(degree)
  const moving = along.length
  const count = cells.share.length
  const sums = leastSquares(moving + 2 * terms)
  const row = new Float64Array(moving + 2 * terms)
  const smooth = new Float64Array(terms)
  const moves = new Float64Array(2 + 2 * POSE_NUMBERS)
  const pulls = new Float64Array(POSE_NUMBERS)
  const seen = new Float64Array(3)
  const misfits = new Float64Array(count)
  let told = 0
  for (let cell = 0; cell < count; cell += 1) {
    const u = cells.u[cell]
    const v = cells.v[cell]
    const share = cells.share[cell]
    photoPointMoves(pose, u, v, moves)
    if (!look(photo, moves[0], moves[1], seen)) continue
    lightTerms(degree, u, v, smooth)
    let weight = 1
    if (light !== null) {
      const misfit = seen[0] - modelled(light, smooth, share)
      misfits[told] = Math.abs(misfit)
      told += 1
      if (scale > 0) weight = 1 / (1 + (misfit / (DOUBTFUL * scale)) ** 2)
    }
    for (let p = 0; p < POSE_NUMBERS; p += 1) {
      pulls[p] = seen[1] * moves[2 + 2 * p] + seen[2] * moves[3 + 2 * p]
    }
    for (let k = 0; k < moving; k += 1)
      row[k] = freedom === 'similarity' ? product(along[k], pulls) : pulls[k]
    for (let k = 0; k < terms; k += 1) {
      row[moving + k] = -smooth[k]
      row[moving + terms + k] = -share * smooth[k]
    }
    sums.add(row, -seen[0], weight)
  }
  holdNumbers(sums, { pose, freedom, noise: scale, cells: count, from: moving, to: row.length })
  const answer = sums.solve()
  if (answer === null) return null
  const steps = answer.subarray(0, moving)
  const usual = told === 0 ? 0 : 1.48 * median(misfits.subarray(0, told))
  return {
    pose: movedPose(pose, along, steps),
    light: answer.slice(moving),
    scale: light === null ? 0 : Math.max(usual, trustedShare * Math.abs(light[terms]), 1e-6),
    moved: steps.reduce((most, step) => Math.max(most, Math.abs(step)), 0),
  }
}

function holdNumbers(
  sums: LeastSquares,
  of: Readonly<{
    pose: Pose
    freedom: Freedom
    noise: number
    cells: number
    from: number
    to: number
  }>,
): void {
  const { pose, freedom, noise, cells, from, to } = of
  const least = Math.max(noise, 0.003)
  if (freedom !== 'similarity') {
    for (const at of [6, 7]) sums.hold(at, { towards: -pose[at], weight: (least / TILT_SD) ** 2 })
  }
  if (freedom === 'lens') sums.hold(8, { towards: -pose[8], weight: (least / LENS_SD) ** 2 })
  for (let k = from; k < to; k += 1) sums.hold(k, { towards: 0, weight: 1e-6 * cells })
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let k = 0; k < a.length; k += 1) sum += a[k] * b[k]
  return sum
}

/** Writes light and its slope per s and t between four pixels; false outside the photo. */
function look(photo: Grid, s: number, t: number, out: Float64Array): boolean {
  const { widthPx, heightPx, values, left, top, step } = photo
  const x = (s - left) / step - 0.5
  const y = (t - top) / step - 0.5
  if (!(x >= 0 && y >= 0 && x < widthPx - 1 && y < heightPx - 1)) return false
  const xWhole = Math.floor(x)
  const yWhole = Math.floor(y)
  const fx = x - xWhole
  const fy = y - yWhole
  const at = yWhole * widthPx + xWhole
  const a = values[at]
  const b = values[at + 1]
  const c = values[at + widthPx]
  const d = values[at + widthPx + 1]
  const upper = a + fx * (b - a)
  const lower = c + fx * (d - c)
  out[0] = upper + fy * (lower - upper)
  out[1] = (b - a + fy * (d - c - b + a)) / step
  out[2] = (lower - upper) / step
  return true
}

/** How much of the photo the film explains at the last pose; null for one that is a negative. */
function measured(views: Views, pose: Pose, { degree }: LightOptions): Alignment | null {
  const seen = lookAll(views, pose)
  const flat = fittedLight(seen, { degree, withGain: false, weights: null })
  const plain = fittedLight(seen, { degree, withGain: true, weights: null })
  if (flat === null || plain === null || !(plain[termCount(degree)] > 0)) return null
  const whole = sumOfSquares(misfitsOf(seen, flat, degree))
  const left = sumOfSquares(misfitsOf(seen, plain, degree))
  return {
    pose,
    fit: whole > 0 ? 1 - left / whole : 0,
    insideShare: seen.value.length / Math.max(1, views.cells.share.length),
  }
}

/** The light at a pose, fault by fault weighed; null where open places are no brighter. */
export function lightAt(
  cells: FilmCells,
  photo: Grid,
  pose: Pose,
  { degree, trustedShare }: LightOptions,
): LightField | null {
  const seen = lookAll({ cells, photo }, pose)
  const plain = fittedLight(seen, { degree, withGain: true, weights: null })
  if (plain === null) return null
  const left = misfitsOf(seen, plain, degree)
  const gain = Math.abs(plain[termCount(degree)])
  const usual = 1.48 * median(left.map(Math.abs))
  const scale = Math.max(usual, trustedShare * gain, 1e-6)
  const weights: Misfits = left.map((misfit) => 1 / (1 + (misfit / (DOUBTFUL * scale)) ** 2))
  const numbers = fittedLight(seen, { degree, withGain: true, weights }) ?? plain
  return lightOf(seen, { degree, numbers, weights })
}

function lookAll({ cells, photo }: Views, pose: Pose): Seen {
  const count = cells.share.length
  const [u, v] = [new Float64Array(count), new Float64Array(count)]
  const [share, value] = [new Float64Array(count), new Float64Array(count)]
  const seen = new Float64Array(3)
  let inside = 0
  for (let cell = 0; cell < count; cell += 1) {
    const point = { u: cells.u[cell], v: cells.v[cell] }
    const { s, t } = photoPoint(pose, point)
    if (!look(photo, s, t, seen)) continue
    u[inside] = point.u
    v[inside] = point.v
    share[inside] = cells.share[cell]
    value[inside] = seen[0]
    inside += 1
  }
  const first = (list: Float64Array): Float64Array => list.subarray(0, inside)
  return { u: first(u), v: first(v), share: first(share), value: first(value) }
}

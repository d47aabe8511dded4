import { fittedLight, lightOf, misfitsOf, modelled, type Seen } from './fittedLight.ts'
import type { Grid } from './grid.ts'
import { leastSquares } from './leastSquares.ts'
import { type LightField, lightTerms, termCount } from './lightField.ts'
import {
  directions,
  type Freedom,
  movedPose,
  POSE_NUMBERS,
  type Pose,
  photoPointMoves,
} from './pose.ts'

export type Alignment = Readonly<{
  pose: Pose
  light: LightField
  /** Share of the photo's variance over the film that the film explains beyond smooth light, to 1. */
  fit: number
  /** Share of the film's cells that lie inside the photo. */
  insideShare: number
}>

export type AlignOptions = Readonly<{
  freedom: Freedom
  degree: 2 | 3
  rounds: number
  /** Most film cells that take part; edges of marks come first. */
  mostCells: number
  /** A misfit below this share of the light of open places is never doubted. */
  trustedShare: number
}>

/** A cell whose misfit is so many times the usual one has half a say: faults must not pull. */
const DOUBTFUL = 2.5

/** What is expected of perspective and lens before anything is seen (judged). */
const TILT_SD = 0.2
const LENS_SD = 0.02

/**
 * Moves a pose until the film, lit by a smooth light, looks most like the photo: Gauss-Newton on
 * pose and light at once, with less weight for what does not fit.
 *
 * @param film shares of marks; photo: linear light at about the same size
 * @returns null where the film lies outside the photo or gives nothing to hold on to
 */
export function align(
  film: Grid,
  photo: Grid,
  start: Pose,
  options: AlignOptions,
): Alignment | null {
  const views = { film, photo, cells: chosenCells(film, options.mostCells) }
  let state: State | null = { pose: start, light: null, scale: 0 }
  for (let round = 0; round < options.rounds; round += 1) {
    state = oneRound(views, state, options)
    if (state === null) return null
  }
  return measured(views, state.pose, options)
}

type Views = Readonly<{ film: Grid; photo: Grid; cells: Int32Array }>

type State = Readonly<{
  pose: Pose
  /** Ground numbers, then gain numbers; null before the first round. */
  light: Float64Array | null
  /** Usual misfit as a standard deviation; 0 while unknown. */
  scale: number
}>

/** Cells beside an edge of a mark, and every so many of the others. */
function chosenCells({ widthPx, heightPx, values }: Grid, most: number): Int32Array {
  const [edges, flats]: [number[], number[]] = [[], []]
  for (let y = 1; y < heightPx - 1; y += 1) {
    for (let x = 1; x < widthPx - 1; x += 1) {
      const at = y * widthPx + x
      const slope =
        Math.abs(values[at + 1] - values[at - 1]) +
        Math.abs(values[at + widthPx] - values[at - widthPx])
      if (slope > 0.02) edges.push(at)
      else flats.push(at)
    }
  }
  return Int32Array.from([...someOf(edges, 0.6 * most), ...someOf(flats, 0.4 * most)])
}

function someOf(list: readonly number[], most: number): readonly number[] {
  const every = Math.max(1, list.length / most)
  const count = Math.floor(list.length / every)
  return Array.from({ length: count }, (_, at) => list[Math.floor(at * every)])
}

function oneRound(
  { film, photo, cells }: Views,
  { pose, light, scale }: State,
  { freedom, degree, trustedShare }: AlignOptions,
): State | null {
  const along = directions(pose, freedom)
  const terms = termCount(degree)
  const moving = along.length
  const sums = leastSquares(moving + 2 * terms)
  const row = new Float64Array(moving + 2 * terms)
  const smooth = new Float64Array(terms)
  const moves = new Float64Array(2 + 2 * POSE_NUMBERS)
  const pulls = new Float64Array(POSE_NUMBERS)
  const seen = new Float64Array(3)
  const misfits: number[] = []
  for (const cell of cells) {
    const u = film.left + ((cell % film.widthPx) + 0.5) * film.step
    const v = film.top + (Math.floor(cell / film.widthPx) + 0.5) * film.step
    photoPointMoves(pose, u, v, moves)
    if (!look(photo, moves[0], moves[1], seen)) continue
    const share = film.values[cell]
    lightTerms(degree, u, v, smooth)
    let weight = 1
    if (light !== null) {
      const misfit = seen[0] - modelled(light, smooth, share)
      misfits.push(Math.abs(misfit))
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
  holdNumbers(sums, {
    pose,
    freedom,
    noise: scale,
    cells: cells.length,
    from: moving,
    to: row.length,
  })
  const answer = sums.solve()
  if (answer === null) return null
  const usual = misfits.length === 0 ? 0 : 1.48 * median(misfits)
  return {
    pose: movedPose(pose, along, answer.subarray(0, moving)),
    light: answer.slice(moving),
    scale: light === null ? 0 : Math.max(usual, trustedShare * Math.abs(light[terms]), 1e-6),
  }
}

function holdNumbers(
  sums: ReturnType<typeof leastSquares>,
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
  const [xWhole, yWhole] = [Math.floor(x), Math.floor(y)]
  const [fx, fy] = [x - xWhole, y - yWhole]
  const at = yWhole * widthPx + xWhole
  const [a, b, c, d] = [values[at], values[at + 1], values[at + widthPx], values[at + widthPx + 1]]
  const [upper, lower] = [a + fx * (b - a), c + fx * (d - c)]
  out[0] = upper + fy * (lower - upper)
  out[1] = (b - a + fy * (d - c - b + a)) / step
  out[2] = (lower - upper) / step
  return true
}

/** The light at the last pose, fault by fault weighed, and how much of the photo the film explains. */
function measured(
  views: Views,
  pose: Pose,
  { degree, trustedShare }: AlignOptions,
): Alignment | null {
  const seen = lookAll(views, pose)
  const flat = fittedLight(seen, { degree, withGain: false, weights: null })
  const plain = fittedLight(seen, { degree, withGain: true, weights: null })
  if (flat === null || plain === null) return null
  const left = misfitsOf(seen, plain, degree)
  const gain = Math.abs(plain[termCount(degree)])
  const scale = Math.max(1.48 * median(left.map(Math.abs)), trustedShare * gain, 1e-6)
  const weights = left.map((misfit) => 1 / (1 + (misfit / (DOUBTFUL * scale)) ** 2))
  const robust = fittedLight(seen, { degree, withGain: true, weights }) ?? plain
  const light = lightOf(seen, { degree, numbers: robust, weights })
  if (light === null) return null
  const whole = squares(misfitsOf(seen, flat, degree))
  return {
    pose,
    light,
    fit: whole > 0 ? 1 - squares(left) / whole : 0,
    insideShare: seen.value.length / Math.max(1, views.cells.length),
  }
}

function lookAll({ film, photo, cells }: Views, pose: Pose): Seen {
  const all: Seen = { u: [], v: [], share: [], value: [] }
  const moves = new Float64Array(2 + 2 * POSE_NUMBERS)
  const seen = new Float64Array(3)
  for (const cell of cells) {
    const u = film.left + ((cell % film.widthPx) + 0.5) * film.step
    const v = film.top + (Math.floor(cell / film.widthPx) + 0.5) * film.step
    photoPointMoves(pose, u, v, moves)
    if (!look(photo, moves[0], moves[1], seen)) continue
    all.u.push(u)
    all.v.push(v)
    all.share.push(film.values[cell])
    all.value.push(seen[0])
  }
  return all
}

function squares(list: readonly number[]): number {
  return list.reduce((sum, value) => sum + value * value, 0)
}

function median(list: readonly number[]): number {
  const sorted = Float64Array.from(list).sort()
  return sorted[sorted.length >> 1]
}

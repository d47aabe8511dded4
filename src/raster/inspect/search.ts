import type { Grid } from './grid.ts'
import { boxMeans, type Plane, planeOf, shrunk } from './plane.ts'
import { type Pose, straightPose } from './pose.ts'

/** Longer side of the photo in the search. */
const SIDE_PX = 64
const TURN_DEG = 6
const SCALE_RATIO = 1.1
/** The film's longer side is at least this share of the photo's. */
const LEAST_SHARE = 0.3
const POINTS = 200
/** Every so many of them tell first whether the others are worth a look. */
const FIRST_POINTS = 3
/** Guesses that are looked at with all points. */
const LOOKED_AT = 400
/** Reaches of the windows that a pixel is compared with. */
const NEAR_PX = 4
const WIDE_PX = 9
/** The film may stick out so far: a tilted one is larger on one side. */
const SLACK_PX = 4
/** Nothing all round the scene, so that no template ever reaches past it. */
const RIM_PX = 48

type Guess = Readonly<{ score: number; pose: Pose }>

/** A size, a turn and a way round, and the best place that was found for it. */
type Lie = Readonly<{
  template: Template
  side: number
  turn: number
  mirrored: boolean
  x: number
  y: number
  score: number
}>

/**
 * Where the film may lie in the photo, best first: every turn, both ways round, every size, by
 * correlation of both made very small and freed of their own light.
 *
 * @param film shares of marks; photo: linear light
 */
export function poseGuesses(film: Grid, photo: Grid, most: number): readonly Pose[] {
  const ratio = SIDE_PX / Math.max(photo.widthPx, photo.heightPx)
  const [across, down] = [Math.round(photo.widthPx * ratio), Math.round(photo.heightPx * ratio)]
  const small = shrunk(photo, across, down)
  const scene = framed(contrasts({ ...small, values: small.values.map(Math.sqrt) }), RIM_PX)
  const lies: Lie[] = []
  const longest = Math.hypot(across, down)
  for (let side = longest; side >= LEAST_SHARE * SIDE_PX; side /= SCALE_RATIO) {
    const template = templateOf(film, side)
    for (let degrees = 0; degrees < 360; degrees += TURN_DEG) {
      const turn = (degrees * Math.PI) / 180
      for (const mirrored of [false, true]) {
        const best = bestPlace(scene, template, { turn, mirrored })
        if (best !== null) lies.push({ template, side, turn, mirrored, ...best })
      }
    }
  }
  const looked = byScore(lies)
    .slice(0, LOOKED_AT)
    .map((lie) => ({ ...lie, ...lookedAt(scene, lie) }))
  return apart(
    byScore(looked).map((lie) => ({ score: lie.score, pose: poseOf(lie, { across, down }) })),
    most,
  )
}

function byScore(lies: readonly Lie[]): readonly Lie[] {
  return lies.toSorted((a, b) => b.score - a.score)
}

/** In halves of the photo's longer side. */
function poseOf(
  { side, turn, mirrored, x, y }: Lie,
  { across, down }: Readonly<{ across: number; down: number }>,
): Pose {
  const size = side / SIDE_PX
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  const way = mirrored ? -1 : 1
  const middle = { s: (2 * (x + 0.5) - across) / SIDE_PX, t: (2 * (y + 0.5) - down) / SIDE_PX }
  return straightPose([
    way * size * cos,
    -size * sin,
    middle.s,
    way * size * sin,
    size * cos,
    middle.t,
    0,
    0,
  ])
}

/** Better than its surroundings, in its surroundings' own spread: no light, no vignetting left. */
function contrasts(plane: Plane): Plane {
  const means = boxMeans(plane, NEAR_PX)
  const out = planeOf(plane.widthPx, plane.heightPx)
  for (let at = 0; at < out.values.length; at += 1)
    out.values[at] = plane.values[at] - means.values[at]
  const squares = boxMeans({ ...out, values: out.values.map((value) => value * value) }, WIDE_PX)
  const usual = Math.sqrt(
    squares.values.reduce((sum, value) => sum + value, 0) / squares.values.length,
  )
  for (let at = 0; at < out.values.length; at += 1) {
    out.values[at] /= Math.sqrt(squares.values[at]) + 0.15 * usual + 1e-9
  }
  return out
}

type Template = Readonly<{
  /** From the film's middle. */
  x: Float64Array
  y: Float64Array
  weight: Float64Array
  halfWidth: number
  halfHeight: number
}>

/** The film's most telling places at a size of `side` pixels. */
function templateOf(film: Grid, side: number): Template {
  const longer = Math.max(film.widthPx, film.heightPx)
  const [width, height] = [film.widthPx, film.heightPx].map((px) =>
    Math.max(2, Math.round((px * side) / longer)),
  )
  const small = shrunk(film, width, height)
  const rim = NEAR_PX
  const bed = framed(small, rim)
  const { values } = contrasts({ ...bed, values: bed.values.map(Math.sqrt) })
  const order = Array.from(values.keys()).sort((a, b) => Math.abs(values[b]) - Math.abs(values[a]))
  // the strongest half tells, spread over all of it
  const telling = order.slice(0, Math.max(POINTS, order.length >> 1))
  const every = Math.max(1, telling.length / POINTS)
  const chosen = Array.from(
    { length: Math.min(POINTS, telling.length) },
    (_, k) => telling[Math.floor(k * every)],
  )
  const weight = Float64Array.from(chosen, (at) => values[at])
  const length = Math.sqrt(weight.reduce((sum, value) => sum + value * value, 0)) || 1
  return {
    x: Float64Array.from(chosen, (at) => (at % bed.widthPx) + 0.5 - bed.widthPx / 2),
    y: Float64Array.from(chosen, (at) => Math.floor(at / bed.widthPx) + 0.5 - bed.heightPx / 2),
    weight: weight.map((value) => value / length),
    halfWidth: width / 2,
    halfHeight: height / 2,
  }
}

/** With a border of nothing on all sides. */
function framed({ widthPx, heightPx, values }: Plane, rim: number): Plane {
  const out = planeOf(widthPx + 2 * rim, heightPx + 2 * rim)
  for (let y = 0; y < heightPx; y += 1) {
    const row = values.subarray(y * widthPx, (y + 1) * widthPx)
    out.values.set(row, (y + rim) * out.widthPx + rim)
  }
  return out
}

type Place = Readonly<{ x: number; y: number; score: number }>

/** The best of every second place, by some of the template's points. */
function bestPlace(
  scene: Plane,
  template: Template,
  { turn, mirrored }: Readonly<{ turn: number; mirrored: boolean }>,
): Place | null {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  const reachX = Math.abs(cos) * template.halfWidth + Math.abs(sin) * template.halfHeight
  const reachY = Math.abs(sin) * template.halfWidth + Math.abs(cos) * template.halfHeight
  const across = scene.widthPx - 2 * RIM_PX
  const down = scene.heightPx - 2 * RIM_PX
  if (2 * reachX > across + 2 * SLACK_PX || 2 * reachY > down + 2 * SLACK_PX) return null
  const offsets = offsetsIn(scene, template, { turn, mirrored })
  let best = { x: 0, y: 0, score: Number.NEGATIVE_INFINITY }
  const [fromX, toX] = ends(reachX, across)
  const [fromY, toY] = ends(reachY, down)
  for (let y = fromY; y <= toY; y += 2) {
    for (let x = fromX; x <= toX; x += 2) {
      const score = correlation(scene, { offsets, template, x, y, every: FIRST_POINTS })
      if (score > best.score) best = { x, y, score }
    }
  }
  return best
}

/** The best of a place and its neighbours, by all points. */
function lookedAt(scene: Plane, { template, turn, mirrored, x: x0, y: y0 }: Lie): Place {
  const offsets = offsetsIn(scene, template, { turn, mirrored })
  let best = { x: 0, y: 0, score: Number.NEGATIVE_INFINITY }
  for (let y = y0 - 1; y <= y0 + 1; y += 1) {
    for (let x = x0 - 1; x <= x0 + 1; x += 1) {
      const score = correlation(scene, { offsets, template, x, y, every: 1 })
      if (score > best.score) best = { x, y, score }
    }
  }
  return best
}

function offsetsIn(
  scene: Plane,
  template: Template,
  { turn, mirrored }: Readonly<{ turn: number; mirrored: boolean }>,
): Int32Array {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  return Int32Array.from(template.x, (dx, k) => {
    const x = mirrored ? -dx : dx
    const y = template.y[k]
    return Math.floor(sin * x + cos * y) * scene.widthPx + Math.floor(cos * x - sin * y)
  })
}

function correlation(
  { values, widthPx }: Plane,
  {
    offsets,
    template: { weight },
    x,
    y,
    every,
  }: Readonly<{ offsets: Int32Array; template: Template; x: number; y: number; every: number }>,
): number {
  const middle = (y + RIM_PX) * widthPx + x + RIM_PX
  let sum = 0
  for (let k = 0; k < offsets.length; k += every) sum += weight[k] * values[middle + offsets[k]]
  return sum
}

function ends(reach: number, length: number): readonly [number, number] {
  const low = Math.min(length >> 1, Math.floor(reach - SLACK_PX))
  return [low, Math.max(length >> 1, length - low)]
}

/** The best of each neighbourhood. */
function apart(guesses: readonly Guess[], most: number): readonly Pose[] {
  const kept: Guess[] = []
  for (const guess of guesses) {
    if (kept.length >= most) break
    const near = kept.some(({ pose }) => distance(pose, guess.pose) < 0.12)
    if (!near) kept.push(guess)
  }
  return kept.map(({ pose }) => pose)
}

function distance(a: Pose, b: Pose): number {
  let sum = 0
  for (let k = 0; k < 6; k += 1) sum += (a[k] - b[k]) ** 2
  return Math.sqrt(sum)
}

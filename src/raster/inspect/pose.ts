/**
 * How a film lies in a photo: a homography, and the lens on top of it.
 *
 * Film points are (u, v), photo points (s, t); both are measured from the middle of the picture in
 * halves of its longer side, so that all numbers are about 1. Nine numbers: the homography's first
 * eight, row by row, its last is 1; then k of the lens: (s, t) lands at (s, t) (1 + k (ss + tt)).
 *
 * @source hartley-zisserman (one radial term on top)
 */
export type Pose = Float64Array

export type FilmPoint = Readonly<{ u: number; v: number }>
export type PhotoPoint = Readonly<{ s: number; t: number }>

export const POSE_NUMBERS = 9
const LENS = 8

/** What is to be found: so many numbers of the pose move. */
export type Freedom = 'similarity' | 'homography' | 'lens'

export function straightPose(homography: ArrayLike<number>): Pose {
  const pose = new Float64Array(POSE_NUMBERS)
  for (let k = 0; k < LENS; k += 1) pose[k] = homography[k]
  return pose
}

export function photoPoint(p: Pose, { u, v }: FilmPoint): PhotoPoint {
  const depth = p[6] * u + p[7] * v + 1
  const s = (p[0] * u + p[1] * v + p[2]) / depth
  const t = (p[3] * u + p[4] * v + p[5]) / depth
  const lens = 1 + p[LENS] * (s * s + t * t)
  return { s: s * lens, t: t * lens }
}

/**
 * Where the light of a film point lands, and how that moves with each number of the pose.
 *
 * @param out s, t, then ds, dt for each number
 */
export function photoPointMoves(p: Pose, u: number, v: number, out: Float64Array): void {
  const inverse = 1 / (p[6] * u + p[7] * v + 1)
  const s = (p[0] * u + p[1] * v + p[2]) * inverse
  const t = (p[3] * u + p[4] * v + p[5]) * inverse
  const k = p[LENS]
  const square = s * s + t * t
  const lens = 1 + k * square
  // d(s lens, t lens) / d(s, t)
  const ss = lens + 2 * k * s * s
  const tt = lens + 2 * k * t * t
  const st = 2 * k * s * t
  out[0] = s * lens
  out[1] = t * lens
  const un = u * inverse
  const vn = v * inverse
  out[2] = ss * un
  out[3] = st * un
  out[4] = ss * vn
  out[5] = st * vn
  out[6] = ss * inverse
  out[7] = st * inverse
  out[8] = st * un
  out[9] = tt * un
  out[10] = st * vn
  out[11] = tt * vn
  out[12] = st * inverse
  out[13] = tt * inverse
  const ds = -(ss * s + st * t)
  const dt = -(st * s + tt * t)
  out[14] = ds * un
  out[15] = dt * un
  out[16] = ds * vn
  out[17] = dt * vn
  out[18] = s * square
  out[19] = t * square
}

/** The directions in which a pose may move, each as changes of its nine numbers. */
export function directions(p: Pose, freedom: Freedom): readonly Float64Array[] {
  if (freedom === 'similarity') {
    return [
      [0, 0, 1, 0, 0, 0, 0, 0, 0],
      [0, 0, 0, 0, 0, 1, 0, 0, 0],
      [p[0], p[1], 0, p[3], p[4], 0, 0, 0, 0],
      [-p[3], -p[4], 0, p[0], p[1], 0, 0, 0, 0],
    ].map((row) => Float64Array.from(row))
  }
  return Array.from({ length: freedom === 'homography' ? 8 : POSE_NUMBERS }, (_, at) => {
    const row = new Float64Array(POSE_NUMBERS)
    row[at] = 1
    return row
  })
}

export function movedPose(
  pose: Pose,
  along: readonly Float64Array[],
  steps: ArrayLike<number>,
): Pose {
  const moved = Float64Array.from(pose)
  for (const [at, row] of along.entries()) {
    for (let k = 0; k < POSE_NUMBERS; k += 1) moved[k] += steps[at] * row[k]
  }
  return moved
}

/** How large a film shows in the photo about a point: d(s, t) / d(u, v), as a length. */
export function magnification(p: Pose, { u, v }: FilmPoint = { u: 0, v: 0 }): number {
  return Math.sqrt(Math.abs(areaRatio(p, { u, v })))
}

/** True where the film reads the other way round in the photo. */
export function isMirrored(pose: Pose): boolean {
  return areaRatio(pose, { u: 0, v: 0 }) < 0
}

function areaRatio(pose: Pose, { u, v }: FilmPoint): number {
  const h = 1e-4
  const at = photoPoint(pose, { u, v })
  const right = photoPoint(pose, { u: u + h, v })
  const below = photoPoint(pose, { u, v: v + h })
  return ((right.s - at.s) * (below.t - at.t) - (below.s - at.s) * (right.t - at.t)) / (h * h)
}

import type { Grid } from './grid.ts'
import { gainAt, type LightField, lightTerms, termCount } from './lightField.ts'
import type { Plane } from './plane.ts'
import { type Pose, photoPoint } from './pose.ts'

/** Linear light of a photo in any scale, row by row. */
export type PhotoLight = Plane

/** Places are reckoned exactly every so many cells both ways, and lie on a line between. */
const STRETCH = 16

/**
 * The photo laid over the film: 0 as dark as the ground should be, 1 as bright as an open place.
 * Cells that the photo does not show get the film's own share, so that nothing is found there.
 *
 * @param film shares of marks: its cells are the answer's
 * @param out as long as the film
 * @returns how many of the film's cells the photo does not show
 */
export function straighten(
  photo: PhotoLight,
  film: Grid,
  { pose, light, out }: Readonly<{ pose: Pose; light: LightField; out: Float32Array }>,
): number {
  const knots = Math.ceil(film.widthPx / STRETCH) + 1
  let upper = latticeAt(0, { photo, film, pose, light, knots })
  const between = emptyLattice(knots)
  let unseen = 0
  for (let top = 0; top < film.heightPx; top += STRETCH) {
    const lower = latticeAt(top + STRETCH, { photo, film, pose, light, knots })
    for (let row = top; row < Math.min(top + STRETCH, film.heightPx); row += 1) {
      const part = (row - top) / STRETCH
      for (const key of ['x', 'y', 'ground', 'gain'] as const) {
        const [to, above, below] = [between[key], upper[key], lower[key]]
        for (let knot = 0; knot < knots; knot += 1)
          to[knot] = above[knot] + part * (below[knot] - above[knot])
      }
      unseen += straightenRow(photo, { film, row, lattice: between, out })
    }
    upper = lower
  }
  return unseen
}

/** Where every so many cells of one row lie in the photo, and the light there. */
type Lattice = Readonly<{
  x: Float64Array
  y: Float64Array
  ground: Float64Array
  gain: Float64Array
}>

function emptyLattice(knots: number): Lattice {
  return {
    x: new Float64Array(knots),
    y: new Float64Array(knots),
    ground: new Float64Array(knots),
    gain: new Float64Array(knots),
  }
}

function latticeAt(
  row: number,
  {
    photo,
    film,
    pose,
    light,
    knots,
  }: Readonly<{ photo: PhotoLight; film: Grid; pose: Pose; light: LightField; knots: number }>,
): Lattice {
  const half = Math.max(photo.widthPx, photo.heightPx) / 2
  const lattice = emptyLattice(knots)
  const terms = new Float64Array(termCount(light.degree))
  const v = film.top + (row + 0.5) * film.step
  for (let knot = 0; knot < knots; knot += 1) {
    const u = film.left + (knot * STRETCH + 0.5) * film.step
    const { s, t } = photoPoint(pose, { u, v })
    lattice.x[knot] = s * half + photo.widthPx / 2 - 0.5
    lattice.y[knot] = t * half + photo.heightPx / 2 - 0.5
    lightTerms(light.degree, u, v, terms)
    let ground = 0
    for (let k = 0; k < terms.length; k += 1) ground += light.ground[k] * terms[k]
    lattice.ground[knot] = ground
    lattice.gain[knot] = gainAt(light, ground, u, v)
  }
  return lattice
}

function straightenRow(
  { widthPx, heightPx, values }: PhotoLight,
  {
    film,
    row,
    lattice,
    out,
  }: Readonly<{ film: Grid; row: number; lattice: Lattice; out: Float32Array }>,
): number {
  const from = row * film.widthPx
  const [right, bottom] = [widthPx - 1, heightPx - 1]
  let unseen = 0
  for (let start = 0, knot = 0; start < film.widthPx; start += STRETCH, knot += 1) {
    const end = from + Math.min(film.widthPx, start + STRETCH)
    let x = lattice.x[knot]
    let y = lattice.y[knot]
    let ground = lattice.ground[knot]
    let gain = lattice.gain[knot]
    const dx = (lattice.x[knot + 1] - x) / STRETCH
    const dy = (lattice.y[knot + 1] - y) / STRETCH
    const dGround = (lattice.ground[knot + 1] - ground) / STRETCH
    const dGain = (lattice.gain[knot + 1] - gain) / STRETCH
    for (let cell = from + start; cell < end; cell += 1) {
      if (x >= 0 && y >= 0 && x < right && y < bottom) {
        const xWhole = x | 0
        const yWhole = y | 0
        const fx = x - xWhole
        const at = yWhole * widthPx + xWhole
        const below = at + widthPx
        const upper = values[at] + fx * (values[at + 1] - values[at])
        const lower = values[below] + fx * (values[below + 1] - values[below])
        out[cell] = (upper + (y - yWhole) * (lower - upper) - ground) / gain
      } else {
        out[cell] = film.values[cell]
        unseen += 1
      }
      x += dx
      y += dy
      ground += dGround
      gain += dGain
    }
  }
  return unseen
}

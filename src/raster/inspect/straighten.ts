import type { Grid } from './grid.ts'
import { gainAt, type LightField, lightTerms, termCount } from './lightField.ts'
import type { Plane } from './plane.ts'
import { type Pose, photoPoint } from './pose.ts'

/** Linear light of a photo in any scale, row by row. */
export type PhotoLight = Plane

/** Places are reckoned exactly every so many cells, and lie on a line between. */
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
  const { widthPx } = film
  const half = Math.max(photo.widthPx, photo.heightPx) / 2
  const knots = Math.ceil(widthPx / STRETCH) + 1
  const lattice = {
    x: new Float64Array(knots),
    y: new Float64Array(knots),
    ground: new Float64Array(knots),
    gain: new Float64Array(knots),
  }
  const terms = new Float64Array(termCount(light.degree))
  let unseen = 0
  for (let row = 0; row < film.heightPx; row += 1) {
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
    unseen += straightenRow(photo, { film, row, lattice, out })
  }
  return unseen
}

type Lattice = Readonly<{
  x: Float64Array
  y: Float64Array
  ground: Float64Array
  gain: Float64Array
}>

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
  let unseen = 0
  for (let start = 0, knot = 0; start < film.widthPx; start += STRETCH, knot += 1) {
    const end = Math.min(film.widthPx, start + STRETCH)
    let [x, y] = [lattice.x[knot], lattice.y[knot]]
    let [ground, gain] = [lattice.ground[knot], lattice.gain[knot]]
    const dx = (lattice.x[knot + 1] - x) / STRETCH
    const dy = (lattice.y[knot + 1] - y) / STRETCH
    const dGround = (lattice.ground[knot + 1] - ground) / STRETCH
    const dGain = (lattice.gain[knot + 1] - gain) / STRETCH
    for (let cell = from + start; cell < from + end; cell += 1) {
      if (x >= 0 && y >= 0 && x < widthPx - 1 && y < heightPx - 1) {
        const xWhole = x | 0
        const yWhole = y | 0
        const fx = x - xWhole
        const at = yWhole * widthPx + xWhole
        const upper = values[at] + fx * (values[at + 1] - values[at])
        const below = at + widthPx
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

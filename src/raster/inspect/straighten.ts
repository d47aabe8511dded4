import type { Knots } from '../../kernels/photoPlanes.ts'
import type { PhotoLight } from '../photo/photoLight.ts'
import type { Grid } from './grid.ts'
import { gainAt, type LightField, lightTerms, termCount } from './lightField.ts'
import type { Plane } from './plane.ts'
import { type Pose, photoPoint } from './pose.ts'

/** Places are reckoned exactly every so many cells both ways, and lie on a line between. */
const STRETCH = 16

type Lit = Readonly<{ pose: Pose; light: LightField }>

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
  { out, ...lit }: Lit & Readonly<{ out: Float32Array }>,
): number {
  let unseen = 0
  const knots = Math.ceil(film.widthPx / STRETCH) + 1
  const between = emptyLattice(knots)
  inStretches({ photo, film, ...lit }, ({ first, count }, [upper, lower]) => {
    for (let row = first; row < first + count; row += 1) {
      const part = (row - first) / STRETCH
      for (const key of ['x', 'y', 'ground', 'gain'] as const) {
        const [to, above, below] = [between[key], upper[key], lower[key]]
        for (let knot = 0; knot < knots; knot += 1)
          to[knot] = above[knot] + part * (below[knot] - above[knot])
      }
      unseen += straightenRow(photo, { film, row, lattice: between, out })
    }
  })
  return unseen
}

/** The same for a film about as large as the photo: by machine code, where that holds the photo. */
export function straightened(
  photo: PhotoLight,
  film: Grid,
  lit: Lit,
): Readonly<{ openness: Plane; unseen: number }> {
  const lent = photo.planes?.lend(film) ?? null
  const values = lent?.values ?? new Float32Array(film.values.length)
  const openness: Plane = { ...film, values }
  if (lent === null) {
    return { openness, unseen: straighten(photo, film, { ...lit, out: values }) }
  }
  let unseen = 0
  inStretches({ photo, film, ...lit }, (rows, knots) => {
    const dark = lent.lay(rows, knots)
    unseen += dark
    if (dark === 0) return
    const end = (rows.first + rows.count) * film.widthPx
    for (let cell = rows.first * film.widthPx; cell < end; cell += 1) {
      if (Number.isNaN(values[cell])) values[cell] = film.values[cell]
    }
  })
  return { openness, unseen }
}

type Views = Lit & Readonly<{ photo: PhotoLight; film: Grid }>

/** Hands on every so many rows with what is known of the rows above and below them. */
function inStretches(
  views: Views,
  lay: (rows: Readonly<{ first: number; count: number }>, knots: readonly [Knots, Knots]) => void,
): void {
  const { film } = views
  let upper = latticeAt(0, views)
  for (let first = 0; first < film.heightPx; first += STRETCH) {
    const lower = latticeAt(first + STRETCH, views)
    lay({ first, count: Math.min(STRETCH, film.heightPx - first) }, [upper, lower])
    upper = lower
  }
}

function emptyLattice(knots: number): Knots {
  return {
    x: new Float64Array(knots),
    y: new Float64Array(knots),
    ground: new Float64Array(knots),
    gain: new Float64Array(knots),
  }
}

/** Where every so many cells of one row lie in the photo, and the light there. */
function latticeAt(row: number, { photo, film, pose, light }: Views): Knots {
  const knots = Math.ceil(film.widthPx / STRETCH) + 1
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
  }: Readonly<{ film: Grid; row: number; lattice: Knots; out: Float32Array }>,
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

import type { Knots } from '../../kernels/photoPlanes.ts'
import { emptyKnots, knotsBetween, rowLayer, STRETCH } from '../photo/laidRow.ts'
import type { PhotoLight } from '../photo/photoLight.ts'
import type { Grid } from './grid.ts'
import { gainAt, type LightField, lightTerms, termCount } from './lightField.ts'
import type { Plane } from './plane.ts'
import { type Pose, photoPoint } from './pose.ts'

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
  const layRow = rowLayer(photo)
  inStretches({ photo, film, ...lit }, ({ first, count }, knots) => {
    const own = emptyKnots(knots[0].x.length)
    for (let row = 0; row < count; row += 1) {
      knotsBetween(knots, row / STRETCH, own)
      const from = (first + row) * film.widthPx
      unseen += layRow(own, out.subarray(from, from + film.widthPx))
    }
  })
  if (unseen > 0) fillUnseen(out, film, { from: 0, to: out.length })
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
    const from = rows.first * film.widthPx
    fillUnseen(values, film, { from, to: from + rows.count * film.widthPx })
  })
  return { openness, unseen }
}

function fillUnseen(
  values: Float32Array,
  film: Grid,
  { from, to }: Readonly<{ from: number; to: number }>,
): void {
  for (let cell = from; cell < to; cell += 1) {
    if (Number.isNaN(values[cell])) values[cell] = film.values[cell]
  }
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

/** Where every so many cells of one row lie in the photo, and the light there. */
function latticeAt(row: number, { photo, film, pose, light }: Views): Knots {
  const knots = Math.ceil(film.widthPx / STRETCH) + 1
  const half = Math.max(photo.widthPx, photo.heightPx) / 2
  const lattice = emptyKnots(knots)
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

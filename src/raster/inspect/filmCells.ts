import type { Grid } from './grid.ts'

/** Places of a film that take part where it is laid over a photo. */
export type FilmCells = Readonly<{
  /** Side of a cell, in halves of the film's longer side. */
  step: number
  u: Float64Array
  v: Float64Array
  share: Float64Array
}>

/** Beside an edge shares change by more than this over two cells. */
const EDGE_FROM = 0.02
const EDGE_SHARE = 0.6

/** Cells beside an edge of a mark, and every so many of the others: `most` at most. */
export function filmCells(film: Grid, most: number): FilmCells {
  const { widthPx, heightPx, values } = film
  // edges from the front, the others from the end
  const cells = new Int32Array(values.length)
  let [edges, others] = [0, 0]
  for (let y = 1; y < heightPx - 1; y += 1) {
    for (let x = 1, at = y * widthPx + 1; x < widthPx - 1; x += 1, at += 1) {
      const slope =
        Math.abs(values[at + 1] - values[at - 1]) +
        Math.abs(values[at + widthPx] - values[at - widthPx])
      if (slope > EDGE_FROM) cells[edges++] = at
      else cells[cells.length - ++others] = at
    }
  }
  const last = cells.length - 1
  const chosen = [
    ...someOf(edges, EDGE_SHARE * most, (at) => cells[at]),
    ...someOf(others, (1 - EDGE_SHARE) * most, (at) => cells[last - at]),
  ]
  return {
    step: film.step,
    u: Float64Array.from(chosen, (at) => film.left + ((at % widthPx) + 0.5) * film.step),
    v: Float64Array.from(chosen, (at) => film.top + (Math.floor(at / widthPx) + 0.5) * film.step),
    share: Float64Array.from(chosen, (at) => values[at]),
  }
}

function someOf(length: number, most: number, of: (at: number) => number): readonly number[] {
  const every = Math.max(1, length / most)
  return Array.from({ length: Math.floor(length / every) }, (_, at) => of(Math.floor(at * every)))
}

import type { Box, FilmToPlace, PlacedFilm, PlacementProblem } from './problem.ts'

/** The sheet of a film as it lies. */
export function sheetOf(
  { widthMm, heightMm }: Pick<FilmToPlace, 'widthMm' | 'heightMm'>,
  { xMm, yMm, turned }: Omit<PlacedFilm, 'name'>,
): Box {
  return turned
    ? { xMm, yMm, widthMm: heightMm, heightMm: widthMm }
    : { xMm, yMm, widthMm, heightMm }
}

/** The marks of a film as it lies; its whole sheet where nothing is known of them. */
export function marksOf(film: FilmToPlace, placed: Omit<PlacedFilm, 'name'>): Box {
  const { marks } = film
  if (marks === undefined) return sheetOf(film, placed)
  const within = onSheet(film, marks, placed.turned)
  return { ...within, xMm: placed.xMm + within.xMm, yMm: placed.yMm + within.yMm }
}

/** A part of a sheet from the sheet’s own top left corner, once it is turned or not. */
export function onSheet(
  { heightMm }: Pick<FilmToPlace, 'heightMm'>,
  box: Box,
  turned: boolean,
): Box {
  if (!turned) return box
  return {
    xMm: heightMm - box.yMm - box.heightMm,
    yMm: box.xMm,
    widthMm: box.heightMm,
    heightMm: box.widthMm,
  }
}

/** The shortest way between two boxes; below 0 by how far one reaches into the other. */
export function distance(a: Box, b: Box): number {
  const across = Math.max(b.xMm - a.xMm - a.widthMm, a.xMm - b.xMm - b.widthMm)
  const down = Math.max(b.yMm - a.yMm - a.heightMm, a.yMm - b.yMm - b.heightMm)
  if (across > 0 && down > 0) return Math.hypot(across, down)
  return Math.max(across, down)
}

/** From a box to the nearest side of the frame; below 0 by how far it reaches out. */
export function toFrame(
  { xMm, yMm, widthMm, heightMm }: Box,
  { insideWidthMm, insideHeightMm }: PlacementProblem['frame'],
): number {
  return Math.min(xMm, yMm, insideWidthMm - xMm - widthMm, insideHeightMm - yMm - heightMm)
}

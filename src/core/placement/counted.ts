import type { Box, FilmToPlace, PlacementProblem } from './problem.ts'

/** The part of a sheet that is searched with, and whether it says all that the rules ask. */
export type Counted = Readonly<{
  /** As a film that is all marks. */
  film: FilmToPlace
  /** Where that lies on the sheet. */
  within: Box
  isExact: boolean
}>

/**
 * One rectangle that stands for a film’s marks and its sheet: the marks, and so much of the sheet
 * that clearance for it keeps the sheet itself inside the frame and off the next one. For one film
 * that is just what the rules ask; where several leave wide margins it asks a little more.
 */
export function countedOf(
  film: FilmToPlace,
  { films, clearance }: Pick<PlacementProblem, 'films' | 'clearance'>,
): Counted {
  const { name, turn, widthMm, heightMm, marks } = film
  const whole = { xMm: 0, yMm: 0, widthMm, heightMm }
  if (marks === undefined) return { film, within: whole, isExact: true }
  const { frameMm, betweenMm } = clearance
  const alone = films.length === 1
  const inset = alone ? frameMm : Math.min(frameMm, betweenMm / 2)
  const left = Math.min(marks.xMm, inset)
  const top = Math.min(marks.yMm, inset)
  const right = Math.max(marks.xMm + marks.widthMm, widthMm - inset)
  const bottom = Math.max(marks.yMm + marks.heightMm, heightMm - inset)
  const within = { xMm: left, yMm: top, widthMm: right - left, heightMm: bottom - top }
  const isMarks = within.widthMm <= marks.widthMm && within.heightMm <= marks.heightMm
  return {
    film: { name, turn, widthMm: within.widthMm, heightMm: within.heightMm },
    within,
    isExact: alone || isMarks,
  }
}

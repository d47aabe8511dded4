import type { PageItem } from '../../formats/filmPage.ts'
import type { Face, Letters } from '../../formats/letters.ts'
import { line, type Run, runs, wrapped } from './lines.ts'
import { type FilmLayout, TEXT_MM } from './testFilmLayout.ts'
import {
  CAUTION,
  type CountsIn,
  LAY_THE_CARD,
  setAfresh,
  stepLines,
  washOut,
} from './testFilmWords.ts'

const COLUMNS_APART_MM = 92

/** What to do, light by light, and what else to heed: beside it, or beneath where it is long. */
export function filmSteps(
  doses: readonly number[],
  countsIn: CountsIn,
  { layout, letters }: Readonly<{ layout: FilmLayout; letters: Letters }>,
): readonly PageItem[] {
  const { leftMm, rightMm, stepsTitleMm, stepsMm, leadingMm, stepRows } = layout
  const steps = stepLines(doses, countsIn)
  const beside = stepRows === steps.length
  const left = beside ? leftMm + COLUMNS_APART_MM : leftMm
  const notes = notesOf(doses, countsIn, { letters, widthMm: rightMm - left })
  const firstNote = beside ? 0 : stepRows + 0.4
  const at = (column: number, row: number): Readonly<{ xMm: number; yMm: number }> => ({
    xMm: leftMm + column * COLUMNS_APART_MM,
    yMm: stepsMm + row * leadingMm,
  })
  return [
    ...line(letters, 'Uncover, give, go on', {
      face: 'title',
      sizeMm: 9.2,
      xMm: leftMm - 0.4,
      yMm: stepsTitleMm,
    }),
    ...steps.flatMap((step, number) =>
      runs(letters, step, {
        sizeMm: TEXT_MM,
        ...at(Math.floor(number / stepRows), number % stepRows),
      }),
    ),
    ...notes.flatMap((note, row) =>
      runs(letters, note, {
        sizeMm: TEXT_MM,
        xMm: left,
        yMm: stepsMm + (firstNote + row) * leadingMm,
      }),
    ),
  ]
}

function notesOf(
  doses: readonly number[],
  countsIn: CountsIn,
  { letters, widthMm }: Readonly<{ letters: Letters; widthMm: number }>,
): readonly (readonly Run[])[] {
  const broken = (text: string, face: Face): readonly (readonly Run[])[] =>
    wrapped(letters, text, { face, sizeMm: TEXT_MM, widthMm }).map((words) => [[face, words]])
  const afresh = setAfresh(doses[0] ?? 0)
  const card: Run = ['plain', `${LAY_THE_CARD} `]
  const together = [card, ...afresh]
  const wide = together
    .map(([face, text]) => letters.widthMm(text, { face, sizeMm: TEXT_MM }))
    .reduce((sum, width) => sum + width, 0)
  return [
    ...(wide <= widthMm ? [together] : [[card], afresh]),
    ...broken(washOut(countsIn), 'plain'),
    ...broken(CAUTION, 'bold'),
  ]
}

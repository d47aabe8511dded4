import type { ReactNode } from 'react'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { FilmSize } from '../../workflow/makeFilms/filmSize.ts'
import { nestedEach } from '../../workflow/makeFilms/nestedSheets.ts'
import { pageLayout } from '../../workflow/makeFilms/pageLayout.ts'
import { sheetCount } from '../../workflow/makeFilms/sheets.ts'
import { lengthText } from '../film/findingSays.ts'
import { useUnits } from '../shop.tsx'
import { FILMS_WORDS } from './filmsWords.ts'

/** How large the films are, and on what they lie. */
export function SizeSaid({ plan, size }: Readonly<{ plan: FilmPlan; size: FilmSize }>): ReactNode {
  const units = useUnits()
  const page = pageLayout(size, plan.marks)
  const sides = [lengthText(page.widthMm, units), lengthText(page.heightMm, units)] as const
  const hasMarks = page.widthMm > size.widthMm
  const sheets = plan.sheet === null ? 1 : sheetCount(page, plan.sheet)
  return (
    <div className="films-said">
      <h2>{(hasMarks ? FILMS_WORDS.sizeMarks : FILMS_WORDS.size)(...sides)}</h2>
      {plan.sheet?.nest === true ? (
        <p>{nestedSays(plan, page)}</p>
      ) : (
        sheets > 1 && <p>{FILMS_WORDS.parted(sheets)}</p>
      )}
      <p>{FILMS_WORDS.trueSize}</p>
    </div>
  )
}

/** How many sheets all films of a plan take; one each where they cannot lie side by side. */
export function sheetsOf(plan: FilmPlan, size: FilmSize): number {
  const { sheet, marks, inks, underbase } = plan
  const films = inks.length + (underbase === null ? 0 : 1)
  if (sheet === null) return films
  const page = pageLayout(size, marks)
  if (sheet.nest !== true) return films * sheetCount(page, sheet)
  const each = nestedEach(page, sheet)
  return each === 0 ? films : Math.ceil(films / each)
}

function nestedSays(
  { sheet, inks, underbase }: FilmPlan,
  film: Readonly<{ widthMm: number; heightMm: number }>,
): string {
  const each = sheet === null ? 0 : nestedEach(film, sheet)
  if (each === 0) return FILMS_WORDS.tooLargeToNest
  return FILMS_WORDS.nestedOn(Math.ceil((inks.length + (underbase === null ? 0 : 1)) / each))
}

import { Failure } from '../../core/failure.ts'
import type { Sheet } from '../../core/separation/plan.ts'
import type { Bilevel } from '../../formats/bilevel.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import type { PageLayout } from './pageLayout.ts'

/** Room for a knife between two films. */
const BETWEEN_MM = 8

/**
 * Small films side by side on sheets, as many on each as there is room for, first printed first. All
 * of them are as large as each other.
 *
 * @param films the bits of each, made anew
 * @throws Failure where not even one lies on a sheet
 */
export function nestedSheets(
  films: readonly (() => Bilevel)[],
  { layout, sheet }: Readonly<{ layout: PageLayout; sheet: Sheet }>,
): readonly FilmPage[] {
  const { widthMm, heightMm } = layout
  const { across, down } = fitting(layout, sheet)
  if (across * down === 0) {
    const message = `A film of ${widthMm.toFixed(1)} x ${heightMm.toFixed(1)} mm does not lie on a sheet of ${sheet.widthMm} x ${sheet.heightMm} mm; leave sheet.nest out, and it is parted.`
    throw new Failure('wrong input', message, { field: 'sheet.nest' })
  }
  const each = across * down
  return Array.from({ length: Math.ceil(films.length / each) }, (_, page) => ({
    widthMm: sheet.widthMm,
    heightMm: sheet.heightMm,
    items: films.slice(page * each, (page + 1) * each).map((film, at) => ({
      kind: 'bitmap' as const,
      xMm: (at % across) * (widthMm + BETWEEN_MM),
      yMm: Math.floor(at / across) * (heightMm + BETWEEN_MM),
      film: film(),
    })),
  }))
}

type Sides = Readonly<{ widthMm: number; heightMm: number }>

/** How many films of one size lie on a sheet; 0: not even one. */
export function nestedEach(film: Sides, sheet: Sides): number {
  const { across, down } = fitting(film, sheet)
  return across * down
}

function fitting(film: Sides, sheet: Sides): Readonly<{ across: number; down: number }> {
  const fits = (roomMm: number, sideMm: number): number =>
    Math.floor((roomMm + BETWEEN_MM + 1e-9) / (sideMm + BETWEEN_MM))
  return {
    across: fits(sheet.widthMm, film.widthMm),
    down: fits(sheet.heightMm, film.heightMm),
  }
}

import { Failure } from '../../core/failure.ts'
import type { Sheet } from '../../core/separation/plan.ts'
import type { Bilevel } from '../../formats/bilevel.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import type { PageLayout } from './pageLayout.ts'

/** Room for a knife between two films. */
const BETWEEN_MM = 8

/**
 * Small films side by side on sheets, as many on each as there is room for, first printed first. All
 * of them are as large as each other. Sheets lie crosswise where more of them lie on one.
 *
 * @param films the bits of each, made anew
 * @throws Failure where not even one lies on a sheet
 */
export function nestedSheets(
  films: readonly (() => Bilevel)[],
  { layout, sheet }: Readonly<{ layout: PageLayout; sheet: Sheet }>,
): readonly FilmPage[] {
  const { widthMm, heightMm } = layout
  const { across, down, isCrosswise } = fitting(layout, sheet)
  if (across * down === 0) {
    const message = `A film of ${widthMm.toFixed(1)} x ${heightMm.toFixed(1)} mm does not lie on a sheet of ${sheet.widthMm} x ${sheet.heightMm} mm; leave sheet.nest out, and it is parted.`
    throw new Failure('wrong input', message, { field: 'sheet.nest' })
  }
  const each = across * down
  return Array.from({ length: Math.ceil(films.length / each) }, (_, page) => ({
    widthMm: isCrosswise ? sheet.heightMm : sheet.widthMm,
    heightMm: isCrosswise ? sheet.widthMm : sheet.heightMm,
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

type Fitting = Readonly<{ across: number; down: number; isCrosswise: boolean }>

function fitting(film: Sides, { widthMm, heightMm }: Sides): Fitting {
  const fits = (roomMm: number, sideMm: number): number =>
    Math.floor((roomMm + BETWEEN_MM + 1e-9) / (sideMm + BETWEEN_MM))
  const on = (wideMm: number, highMm: number, isCrosswise: boolean): Fitting => ({
    across: fits(wideMm, film.widthMm),
    down: fits(highMm, film.heightMm),
    isCrosswise,
  })
  const [plain, crosswise] = [on(widthMm, heightMm, false), on(heightMm, widthMm, true)]
  return crosswise.across * crosswise.down > plain.across * plain.down ? crosswise : plain
}

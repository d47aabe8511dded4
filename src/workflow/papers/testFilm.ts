import { DOSE } from '../../core/light/doseField.ts'
import { expectIn } from '../../core/units/range.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { aboveMark } from './aboveMark.ts'
import { dayWords } from './dayWords.ts'
import { foot, type PaperShop } from './foot.ts'
import { fewRows, line, runs } from './lines.ts'
import { numberWords } from './numberWords.ts'
import { REED_WIDTHS_MM, reedAt } from './reeds.ts'
import { scaleBar } from './scaleBar.ts'
import { dashed, keptFree } from './shapes.ts'
import { bandItems, edgeItems } from './testFilmBand.ts'
import {
  type FilmLayout,
  type FilmPaper,
  filmLayout,
  TEXT_MM,
  type WedgeSize,
} from './testFilmLayout.ts'
import { filmSteps } from './testFilmSteps.ts'
import { bandName, type CountsIn, dosesSentence } from './testFilmWords.ts'

export type TestFilm = Readonly<{
  /** Doses as they are set on the unit's counter, in any order; they are printed as they are. */
  bandCounts: readonly number[]
  countsIn: CountsIn
  paper?: FilmPaper
  /** For what the strip is made, and what it asks: a sentence. */
  setUp?: string
  /** The shop's step wedge: so much place is kept for it. */
  wedge?: WedgeSize
  /** What one draws with by hand. */
  byHand?: readonly string[]
  shop?: PaperShop
  /** The strip's own number: S-12. */
  number?: string
  /** As 2026-11-09. */
  date?: string
}>

/**
 * The film of a test strip, at true size, right-reading from the side that is up: bands that say
 * their own dose, each with the same reeds, combs, brush mark and letters; a place for the step
 * wedge, which is never covered; a place to draw by hand through all bands; what to set, step by
 * step.
 *
 * @param film 3 … 12 doses, no two alike
 * @throws RangeError where doses, wedge or date cannot be
 */
export function testFilmPage(
  film: TestFilm,
  { letters }: Readonly<{ letters: Letters }>,
): FilmPage {
  const doses = film.bandCounts.toSorted((a, b) => b - a)
  for (const dose of doses) expectIn(dose, { ...DOSE, name: 'bandCounts' })
  if (new Set(doses).size < doses.length) {
    throw new RangeError('bandCounts: expected no two alike')
  }
  const layout = filmLayout({
    bands: doses.length,
    ...(film.paper === undefined ? {} : { paper: film.paper }),
    ...(film.wedge === undefined ? {} : { wedge: film.wedge }),
  })
  const { widthMm, heightMm } = layout
  return {
    widthMm,
    heightMm,
    items: [
      ...head(film, doses, { layout, letters }),
      ...wedgePlace(doses, { layout, letters }),
      ...columnHeads({ layout, letters }),
      ...edgeItems(layout),
      ...bandItems(doses, film.countsIn, { layout, letters }),
      ...handPlace(film.byHand ?? ['pencil', 'pen', 'brush'], { layout, letters }),
      ...fullSize({ layout, letters }),
      ...filmSteps(doses, film.countsIn, { layout, letters }),
      ...foot(
        { shop: film.shop ?? null, about: aboutWords(film) },
        {
          letters,
          sizeMm: TEXT_MM,
          leftMm: layout.leftMm,
          rightMm: layout.rightMm,
          yMm: layout.footMm,
        },
      ),
    ],
  }
}

export type Within = Readonly<{ layout: FilmLayout; letters: Letters }>

function aboutWords({ number, date }: TestFilm): string {
  const words = [
    ...(number === undefined ? [] : [`Strip ${number}`]),
    ...(date === undefined ? [] : [dayWords(date)]),
  ]
  return words.join(', ')
}

function head(
  { countsIn, setUp = '' }: TestFilm,
  doses: readonly number[],
  { layout, letters }: Within,
): readonly PageItem[] {
  const { leftMm, rightMm, bandsRightMm } = layout
  const setting = { face: 'plain', sizeMm: TEXT_MM } as const
  const widthMm = bandsRightMm - leftMm
  const said = fewRows(letters, dosesSentence(doses, countsIn), { ...setting, widthMm, rows: 2 })
  const asked = fewRows(letters, setUp, {
    ...setting,
    widthMm: widthMm - 1, // beside the words under the F
    rows: HEAD_ROWS - said.length,
  })
  const rows = [...said, ...asked]
  const leadingMm = rows.length < HEAD_ROWS ? 5.4 : 4.8
  return [
    ...line(letters, 'Test film for doses', {
      face: 'title',
      sizeMm: 14.4,
      xMm: leftMm - 0.6,
      yMm: 23.2,
    }),
    ...rows.flatMap(({ text, sizeMm }, at) =>
      line(letters, text, { face: 'plain', sizeMm, xMm: leftMm, yMm: 30.8 + leadingMm * at }),
    ),
    ...aboveMark({ xMm: rightMm, yMm: 9.8 }, { letters, sizeMm: TEXT_MM }),
  ]
}

/** Lines under the title, before the wedge. */
const HEAD_ROWS = 3

function wedgePlace(doses: readonly number[], { layout, letters }: Within): readonly PageItem[] {
  const { leftMm, wedgeTopMm, wedge } = layout
  return [
    ...runs(
      letters,
      [
        ['bold', 'The step wedge lies below, taped down.'],
        ['plain', ` It is never covered: it gets all ${bandName(doses[0] ?? 0)}.`],
      ],
      { sizeMm: TEXT_MM, xMm: leftMm, yMm: wedgeTopMm - 2.6 },
    ),
    ...keptFree({ xMm: leftMm, yMm: wedgeTopMm, ...wedge }),
  ]
}

function columnHeads({ layout, letters }: Within): readonly PageItem[] {
  const { leftMm, edgesMm, comb, lettersLeftMm } = layout
  const base = (edgesMm[0] ?? 0) - 2.4
  const setting = { face: 'plain', sizeMm: TEXT_MM } as const
  return [
    ...line(letters, 'reeds, mm wide:', { ...setting, xMm: leftMm, yMm: base }),
    ...line(letters, 'comb, the same', { ...setting, xMm: comb.xMm, yMm: base }),
    ...line(letters, 'brush, letters', { ...setting, xMm: lettersLeftMm, yMm: base }),
    ...REED_WIDTHS_MM.flatMap((width, number) =>
      line(letters, String(width).replace(/^0/, ''), {
        ...setting,
        xMm: reedAt(layout.reeds, number).numberMm,
        yMm: base - (number % 2 === 0 ? 0 : 4.5),
        anchor: 'middle',
      }),
    ),
  ]
}

function handPlace(byHand: readonly string[], { layout, letters }: Within): readonly PageItem[] {
  const { handLeftMm, rightMm, edgesMm } = layout
  const [top = 0, bottom = 0] = [edgesMm[0], edgesMm.at(-1)]
  const widthMm = rightMm - handLeftMm
  const setting = { sizeMm: TEXT_MM, xMm: handLeftMm } as const
  const words = [
    'in what the shop uses:',
    'one even stroke each,',
    `through all ${numberWords(edgesMm.length - 1)}.`,
  ]
  const size = fitted(byHand, { letters, widthMm })
  return [
    ...line(letters, 'Draw here by hand,', { ...setting, face: 'bold', yMm: top - 18.2 }),
    ...words.flatMap((text, at) =>
      line(letters, text, { ...setting, face: 'plain', yMm: top - 13.2 + 5 * at }),
    ),
    ...keptFree({ xMm: handLeftMm, yMm: top, widthMm, heightMm: bottom - top }),
    ...edgesMm.slice(1, -1).map((yMm) =>
      dashed([
        { xMm: handLeftMm + 7, yMm },
        { xMm: rightMm - 7, yMm },
      ]),
    ),
    ...byHand.flatMap((name, at) =>
      line(letters, name, {
        face: 'plain',
        sizeMm: size,
        xMm: handLeftMm + ((at + 0.5) * widthMm) / byHand.length,
        yMm: bottom + 5,
        anchor: 'middle',
      }),
    ),
  ]
}

/** Names side by side, each in its share of the width, with a space between. */
function fitted(
  names: readonly string[],
  { letters, widthMm }: Readonly<{ letters: Letters; widthMm: number }>,
): number {
  const setting = { face: 'plain', sizeMm: TEXT_MM } as const
  const room = widthMm / names.length - 0.8
  const widest = Math.max(room, ...names.map((name) => letters.widthMm(name, setting)))
  return (TEXT_MM * room) / widest
}

function fullSize({ layout, letters }: Within): readonly PageItem[] {
  const { leftMm, scaleTopMm } = layout
  const words = ['Lay a ruler on it. If it is short,', 'print again at full size.']
  return [
    ...scaleBar({ xMm: leftMm, yMm: scaleTopMm }, { letters, sizeMm: TEXT_MM }),
    ...words.flatMap((text, at) =>
      line(letters, text, {
        face: 'plain',
        sizeMm: TEXT_MM,
        xMm: leftMm + 118,
        yMm: scaleTopMm + 3.4 + 5.2 * at,
      }),
    ),
  ]
}

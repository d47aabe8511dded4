import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { linePath, type Place } from '../../formats/pagePath.ts'
import { hand } from '../cloth/wobble.ts'
import { brushMark } from './brushMark.ts'
import { combs } from './comb.ts'
import { fittingMm, line } from './lines.ts'
import { counted, numberWords } from './numberWords.ts'
import { reeds } from './reeds.ts'
import { type Box, polygon } from './shapes.ts'
import { type FilmLayout, TEXT_MM } from './testFilmLayout.ts'
import { type CountsIn, countOf } from './testFilmWords.ts'

/** The points at both edges of the sheet, on which the card is laid. */
const POINT = { fromEdgeMm: 5, longMm: 3.4, halfMm: 1.9 }
const EDGE_PEN_MM = 0.3

/** Band edges: points at the sheet's sides, exact to where they end, and a line as a hand draws it. */
export function edgeItems({
  widthMm,
  edgesMm,
  bandsRightMm,
  rightMm,
}: FilmLayout): readonly PageItem[] {
  const tip = POINT.fromEdgeMm + POINT.longMm
  return edgesMm.flatMap((yMm, at): PageItem[] => [
    { kind: 'fill', path: polygon(point(POINT.fromEdgeMm, tip, yMm)) },
    { kind: 'fill', path: polygon(point(widthMm - POINT.fromEdgeMm, widthMm - tip, yMm)) },
    {
      kind: 'stroke',
      widthMm: EDGE_PEN_MM,
      path: linePath(byHand({ fromMm: tip, toMm: bandsRightMm, yMm, seed: 40 + at })),
    },
    {
      kind: 'stroke',
      widthMm: EDGE_PEN_MM,
      path: linePath([
        { xMm: rightMm + 0.6, yMm },
        { xMm: widthMm - tip, yMm },
      ]),
    },
  ])
}

function point(baseMm: number, tipMm: number, yMm: number): readonly Place[] {
  return [
    { xMm: baseMm, yMm: yMm - POINT.halfMm },
    { xMm: tipMm, yMm },
    { xMm: baseMm, yMm: yMm + POINT.halfMm },
  ]
}

/** A line that wavers by a tenth of a millimetre, and is still at both ends. */
function byHand({
  fromMm,
  toMm,
  yMm,
  seed,
}: Readonly<{ fromMm: number; toMm: number; yMm: number; seed: number }>): readonly Place[] {
  const sway = hand(seed).wave(0.13)
  const steps = 60
  return Array.from({ length: steps + 1 }, (_, at) => {
    const along = at / steps
    const held = Math.min(1, 12 * along, 12 * (1 - along))
    return {
      xMm: fromMm + along * (toMm - fromMm),
      yMm: yMm + held * sway(2.4 * along * (toMm - fromMm)),
    }
  })
}

/** A band's marks keep this far from its edges. */
const CLEAR_MM = 1.3
/** Combs and letters are no taller than this. */
const TALLEST_MM = 23
/** From this height on a band holds three lines of words, and more letters under the brush. */
const ROOMY_MM = 17
const WORD_MM = 6.7
/** In a lower one the word has one line with the figures at its end. */
const TIGHT_WORD_MM = 5
const FIGURES_MM = 9
const LEAST_WORD_MM = 4.2

/** What stands in each band, largest dose first. */
export function bandItems(
  doses: readonly number[],
  countsIn: CountsIn,
  { layout, letters }: Readonly<{ layout: FilmLayout; letters: Letters }>,
): readonly PageItem[] {
  const [top = 0, next = 0] = layout.edgesMm
  const heightMm = next - top
  const widthMm = layout.reeds.xMm - layout.leftMm - 1.5
  const names = bandNames(doses, { letters, widthMm, roomy: heightMm >= ROOMY_MM })
  const marks = bandMarks(heightMm, { layout, letters })
  return doses.flatMap((dose, at) => {
    const yMm = layout.edgesMm[at] ?? 0
    const order = at === 0 ? 'uncovered first' : at === doses.length - 1 ? 'uncovered last' : ''
    return [
      ...bandWords(
        {
          ...names,
          name: names.of(dose),
          figure: counted(dose),
          count: names.inWords ? countOf(dose, countsIn) : countsIn,
          order,
        },
        { xMm: layout.leftMm, yMm, widthMm, heightMm, letters },
      ),
      { kind: 'group', transform: { a: 1, b: 0, c: 0, d: 1, eMm: 0, fMm: yMm }, items: marks },
    ]
  })
}

type Names = Readonly<{ inWords: boolean; of: (dose: number) => string; sizeMm: number }>

/** Bands are named in words, or all in figures where a word would be too long to be read. */
function bandNames(
  doses: readonly number[],
  { letters, widthMm, roomy }: Readonly<{ letters: Letters; widthMm: number; roomy: boolean }>,
): Names {
  const face = 'bold'
  const whole = roomy ? WORD_MM : TIGHT_WORD_MM
  const words = fittingMm(letters, doses.map(numberWords), {
    face,
    sizeMm: whole,
    widthMm: roomy ? widthMm : widthMm - FIGURES_MM,
  })
  if (words >= LEAST_WORD_MM) return { inWords: true, of: numberWords, sizeMm: words }
  const sizeMm = fittingMm(letters, doses.map(counted), { face, sizeMm: 1.2 * whole, widthMm })
  return { inWords: false, of: counted, sizeMm }
}

function bandWords(
  {
    inWords,
    name,
    figure,
    count,
    order,
    sizeMm,
  }: Readonly<{
    inWords: boolean
    name: string
    figure: string
    count: string
    order: string
    sizeMm: number
  }>,
  { xMm, yMm, widthMm, heightMm, letters }: Box & Readonly<{ letters: Letters }>,
): readonly PageItem[] {
  const big = { face: 'bold', sizeMm, xMm: xMm - 0.2 } as const
  const small = { face: 'plain', sizeMm: TEXT_MM } as const
  if (heightMm < ROOMY_MM) {
    const yBase = yMm + heightMm / 2 + 0.33 * TEXT_MM
    const atEnd = { ...small, xMm: xMm + widthMm, yMm: yBase, anchor: 'end' } as const
    return [
      ...line(letters, name, { ...big, yMm: yBase }),
      ...(inWords ? line(letters, figure, atEnd) : []),
    ]
  }
  const first = yMm + 0.47 * Math.min(heightMm, 24)
  return [
    ...line(letters, name, { ...big, yMm: first }),
    ...line(letters, count, { ...small, xMm, yMm: first + 5.6 }),
    ...line(letters, order, { ...small, xMm, yMm: first + 10.3 }),
  ]
}

/** Reeds, combs, brush and letters of one band that begins at y = 0. */
function bandMarks(
  heightMm: number,
  { layout, letters }: Readonly<{ layout: FilmLayout; letters: Letters }>,
): readonly PageItem[] {
  const tall = heightMm - 2 * CLEAR_MM
  const block = Math.min(tall, TALLEST_MM)
  const blockTop = (heightMm - block) / 2
  const reedBox = { ...layout.reeds, yMm: CLEAR_MM, heightMm: tall - 0.4 }
  return [
    ...reeds(reedBox).map((path) => ({ kind: 'fill' as const, path })),
    ...combs({ ...layout.comb, yMm: blockTop, heightMm: block }).map((path) => ({
      kind: 'fill' as const,
      path,
    })),
    ...lettersUnderBrush(
      { xMm: layout.lettersLeftMm, yMm: blockTop, widthMm: 24.5, heightMm: block },
      letters,
    ),
  ]
}

function lettersUnderBrush(
  { xMm, yMm, widthMm, heightMm }: Box,
  letters: Letters,
): readonly PageItem[] {
  const roomy = heightMm >= ROOMY_MM - 2 * CLEAR_MM
  const brush = { xMm, yMm, widthMm, heightMm: roomy ? 0.36 * heightMm : 0.5 * heightMm }
  const mark: PageItem = { kind: 'fill', path: brushMark(brush) }
  const bottom = yMm + heightMm
  if (!roomy) {
    const base = bottom - 0.6
    return [
      mark,
      ...line(letters, 'heron', { face: 'bold', sizeMm: 3.9, xMm, yMm: base }),
      ...line(letters, 'reed', { face: 'title', sizeMm: 3.9, xMm: xMm + 12, yMm: base }),
      ...line(letters, 'water', {
        face: 'plain',
        sizeMm: 1.5,
        xMm: xMm + widthMm,
        yMm: base,
        anchor: 'end',
      }),
    ]
  }
  const [upper, lower] = [bottom - 6.6, bottom - 0.6]
  const right = xMm + widthMm
  return [
    mark,
    ...line(letters, 'heron', { face: 'bold', sizeMm: 5.3, xMm, yMm: upper }),
    ...line(letters, 'heron', {
      face: 'plain',
      sizeMm: 3.4,
      xMm: right,
      yMm: upper,
      anchor: 'end',
    }),
    ...line(letters, 'reed', { face: 'title', sizeMm: 5.6, xMm, yMm: lower }),
    ...line(letters, 'marsh', { face: 'plain', sizeMm: 2.3, xMm: xMm + 12, yMm: lower }),
    ...line(letters, 'water', {
      face: 'plain',
      sizeMm: 1.5,
      xMm: right,
      yMm: lower,
      anchor: 'end',
    }),
  ]
}

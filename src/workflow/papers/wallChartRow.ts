import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import type { LightCloth } from '../lightCloth.ts'
import { clothItems } from './clothItems.ts'
import { fittingMm, line, type Run, runs } from './lines.ts'
import { counted } from './numberWords.ts'
import { settableDose } from './settableDoses.ts'
import type { Box } from './shapes.ts'

/** One medium on a wall chart; doses as on the unit's counter, said as one sets them. */
export type WallRow = Readonly<{
  medium: string
  verdict: 'works' | 'no dose'
  dose: Readonly<{ value: number; low: number; high: number }>
  /** How sure: `fairly sure`. */
  word: string
  /** What it rests on: `11 screens, 2 strips`. */
  heard: string
  cloth: LightCloth
}>

export type RowPlace = Box & Readonly<{ clothLeftMm: number; unitMm: number; letters: Letters }>

/** Height of the large figures where rows are tall enough: 20 mm on A3. */
const FIGURE = 14.2
/** Height of a figure in parts of the em of the bold letters. */
const FIGURE_SHARE = 0.668
/** From this height on there is room under the figures for what they rest on. */
const ROOMY = 23

/** The dose in large figures; beside it name, range and word, and the cloth beneath them. */
export function rowItems(row: WallRow, place: RowPlace): readonly PageItem[] {
  const { yMm, heightMm, xMm, widthMm, clothLeftMm, unitMm } = place
  const roomy = heightMm >= ROOMY * unitMm
  const nameMm = Math.min(7.2 * unitMm, 0.3 * heightMm)
  const nameBase = yMm + 0.35 * unitMm + 1.12 * nameMm
  const clothTop = nameBase + 0.42 * nameMm + 1.2 * unitMm
  const cloth = {
    xMm: clothLeftMm,
    yMm: clothTop,
    widthMm: xMm + widthMm - clothLeftMm,
    heightMm: Math.min(16 * unitMm, yMm + heightMm - 3.4 * unitMm - clothTop),
  }
  const works = row.verdict === 'works'
  return [
    ...figures(row, { ...place, roomy }),
    ...names(row, { ...place, roomy, nameMm, nameBase }),
    ...clothItems(row.cloth, cloth, { unitMm, doseLu: works ? row.dose.value : null }),
  ]
}

function figures(
  { verdict, dose, heard }: WallRow,
  {
    xMm,
    yMm,
    heightMm,
    clothLeftMm,
    unitMm,
    letters,
    roomy,
  }: RowPlace & Readonly<{ roomy: boolean }>,
): readonly PageItem[] {
  const text = verdict === 'works' ? said(dose.value) : 'no dose'
  const beneath = roomy ? 9 * unitMm : 0
  const tall = Math.min(FIGURE * unitMm, heightMm - beneath - 4 * unitMm)
  const room = clothLeftMm - xMm - 4 * unitMm
  const sizeMm = fittingMm(letters, [text], {
    face: 'bold',
    sizeMm: tall / FIGURE_SHARE,
    widthMm: room,
  })
  const base = yMm + (heightMm - beneath + FIGURE_SHARE * sizeMm) / 2 + (roomy ? 0.6 * unitMm : 0)
  const small = fittingMm(letters, [heard], { face: 'plain', sizeMm: 4.2 * unitMm, widthMm: room })
  return [
    ...line(letters, text, { face: 'bold', sizeMm, xMm: xMm - 0.04 * sizeMm, yMm: base }),
    ...(roomy
      ? line(letters, heard, { face: 'plain', sizeMm: small, xMm, yMm: base + 6.6 * unitMm })
      : []),
  ]
}

function names(
  { medium, verdict, dose, word, heard }: WallRow,
  {
    xMm,
    widthMm,
    clothLeftMm,
    letters,
    roomy,
    nameMm,
    nameBase,
  }: RowPlace & Readonly<{ roomy: boolean; nameMm: number; nameBase: number }>,
): readonly PageItem[] {
  const right = xMm + widthMm
  const sizeMm = 0.78 * nameMm
  const range: readonly Run[] =
    verdict === 'works'
      ? [
          ['bold', `${said(dose.low)} to ${said(dose.high)}`],
          ['plain', `, ${word}${roomy ? '' : `; ${heard}`}`],
        ]
      : [['plain', 'none opens the marks and hardens the ground']]
  const rangeMm = range.reduce(
    (sum, [face, text]) => sum + letters.widthMm(text, { face, sizeMm }),
    0,
  )
  const name = fittingMm(letters, [medium], {
    face: 'bold',
    sizeMm: nameMm,
    widthMm: right - clothLeftMm - rangeMm - nameMm,
  })
  return [
    ...line(letters, medium, { face: 'bold', sizeMm: name, xMm: clothLeftMm, yMm: nameBase }),
    ...runs(letters, range, { sizeMm, xMm: right, yMm: nameBase, anchor: 'end' }),
  ]
}

function said(dose: number): string {
  return counted(settableDose(dose))
}

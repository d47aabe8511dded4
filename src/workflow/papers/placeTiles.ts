import { Failure } from '../../core/failure.ts'
import { PAPERS } from './paperSizes.ts'
import type { Box } from './shapes.ts'

/** A drawing of true size cut into sheets that overlap; places from the inside top left of the frame. */
export type Tiles = Readonly<{
  page: Readonly<{ widthMm: number; heightMm: number }>
  columns: number
  rows: number
  /** On each page, where its part of the drawing lies. */
  window: Box
  /** From the begin of one sheet’s part to the next one’s. */
  step: Readonly<{ xMm: number; yMm: number }>
  /** Where the first part begins. */
  first: Readonly<{ xMm: number; yMm: number }>
}>

/** What printers leave white at a sheet’s edges is less than this; judged. */
const EDGE_MM = 10
/** Below the drawing: scale bar and the sheet’s name. */
const FOOT_MM = 18
export const OVERLAP_MM = 12
/** Past the inside of the frame, so that its line is on a sheet. */
const AROUND_MM = 4
const MOST_SHEETS = 60

/**
 * The way to lay sheets, upright or lying, that takes fewest of them.
 *
 * @throws Failure 'too large' for a drawing that would take too many sheets
 */
export function tilesFor(
  { widthMm, heightMm }: Readonly<{ widthMm: number; heightMm: number }>,
  { paper }: Readonly<{ paper: 'a4' | 'letter' }>,
): Tiles {
  const upright = PAPERS[paper]
  const ways = [upright, { widthMm: upright.heightMm, heightMm: upright.widthMm }].map((page) => {
    const window = {
      xMm: EDGE_MM,
      yMm: EDGE_MM,
      widthMm: page.widthMm - 2 * EDGE_MM,
      heightMm: page.heightMm - 2 * EDGE_MM - FOOT_MM,
    }
    const step = { xMm: window.widthMm - OVERLAP_MM, yMm: window.heightMm - OVERLAP_MM }
    const count = (length: number, by: number): number =>
      Math.max(1, Math.ceil((length + 2 * AROUND_MM - OVERLAP_MM) / by))
    const columns = count(widthMm, step.xMm)
    const rows = count(heightMm, step.yMm)
    return { page, window, step, columns, rows, first: { xMm: -AROUND_MM, yMm: -AROUND_MM } }
  })
  const [one, other] = ways
  if (one === undefined || other === undefined) throw new RangeError('ways: expected two')
  const best = other.columns * other.rows < one.columns * one.rows ? other : one
  const sheets = best.columns * best.rows
  if (sheets <= MOST_SHEETS) return best
  const message = `At true size that takes ${sheets} sheets, and ${MOST_SHEETS} are printed at most: take the small plan.`
  throw new Failure('too large', message, { field: 'screen' })
}

/** A sheet by the letter of its column and the number of its row: B2. */
export function tileName({ column, row }: Readonly<{ column: number; row: number }>): string {
  return `${String.fromCharCode(65 + (column % 26))}${row + 1}`
}

import { expectIn, type Range } from '../units/range.ts'

export type SheetSize = Readonly<{ widthMm: number; heightMm: number }>

export type PaperToBuy = Readonly<{
  /** Prints that one bought sheet is cut into. */
  fromOne: number
  /** The print lies turned on the bought sheet. */
  isTurned: boolean
  /** Bought sheets that the run takes. */
  wanted: number
  /** Of those: not on the shelf. */
  toBuy: number
}>

const SIDE: Range = { name: 'side', low: 20, high: 10_000, unit: 'mm' }

/**
 * Bought sheets for a run. All prints lie the same way on them: paper grows across its grain, and
 * prints cut both ways would not register alike.
 *
 * @param print trimmed size of one print's sheet
 * @param from the size that is bought; null: bought in the print's own size
 * @param sheets for the run, spoils counted in
 * @param onShelf bought sheets that are there
 * @returns null when the print does not fit on a bought sheet
 * @throws RangeError for sides outside of 20 … 10,000 mm
 * @source paper-grain
 */
export function paperToBuy(
  print: SheetSize,
  { from, sheets, onShelf }: Readonly<{ from: SheetSize | null; sheets: number; onShelf: number }>,
): PaperToBuy | null {
  const bought = from ?? print
  for (const { widthMm, heightMm } of [print, bought]) {
    expectIn(widthMm, SIDE)
    expectIn(heightMm, SIDE)
  }
  const along = cutsOf(bought, print)
  const turned = cutsOf(bought, { widthMm: print.heightMm, heightMm: print.widthMm })
  const fromOne = Math.max(along, turned)
  if (fromOne === 0) return null
  const wanted = Math.ceil(sheets / fromOne)
  return { fromOne, isTurned: turned > along, wanted, toBuy: Math.max(0, wanted - onShelf) }
}

function cutsOf(bought: SheetSize, piece: SheetSize): number {
  const times = (whole: number, part: number): number => Math.floor(whole / part + 1e-9)
  return times(bought.widthMm, piece.widthMm) * times(bought.heightMm, piece.heightMm)
}

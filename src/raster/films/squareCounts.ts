import { filmRows } from '../../kernels/filmRows.ts'

/** Counts what is black in rows of bits, in squares. */
export type SquareCounter = Readonly<{
  /** Counts a row, whose bits past the width are 0. */
  add: (bits: Uint8Array) => void
  /** Black pixels of each square since the last time. */
  taken: () => Uint32Array
}>

/** By machine code. */
export function squareCounter(of: Readonly<{ widthPx: number; squarePx: number }>): SquareCounter {
  const roomBytes = of.widthPx + 5 * of.squarePx + 4 * Math.ceil(of.widthPx / of.squarePx) + 64
  const counter = filmRows({ roomBytes }).counter(of.widthPx, of.squarePx)
  if (counter === null) throw new RangeError('squares: expected room for one row')
  return counter
}

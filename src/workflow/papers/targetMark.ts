import type { PageItem } from '../../formats/filmPage.ts'
import type { Place } from '../../formats/pagePath.ts'
import { filledBox } from './shapes.ts'

/**
 * Cells of the targets by number, four rows of four, white as 1, within a black border of one cell.
 *
 * @source aruco-4x4
 */
export const TARGET_CELLS: readonly string[] = [
  '1011010100110010',
  '0000111110011010',
  '0011001100101101',
  '1001100101000110',
  '0101010010011110',
  '0111100111001101',
  '1001111000101110',
  '1100010011110010',
  '1111111011011010',
  '1100111101010110',
  '1111100110010001',
  '0001000110100111',
  '0000111010110111',
  '0010101000001111',
  '0010010010110001',
  '0010011000111110',
  '0100011001100101',
  '0110011000000000',
  '0110110001011110',
  '0111011010101111',
  '1000011010001011',
  '1011000000101011',
  '1100110011010101',
  '1101110110000010',
  '1111111001000111',
  '1001010001110001',
  '1010110011100100',
  '1010010101010100',
  '0010000100100011',
  '0011010001101111',
  '0100010000010101',
  '0101011110110010',
  '1001111011001111',
  '1111000011001011',
  '0000100010101110',
  '0000100100101001',
  '0001100001110101',
  '0000010011111111',
  '0000110111110110',
  '0001110001011010',
]

/** Cells along a side, the border counted. */
const CELLS = 6

/** A target by its number, its top left corner at a place. */
export function targetMark(
  number: number,
  { xMm, yMm }: Place,
  sideMm: number,
): readonly PageItem[] {
  const white = TARGET_CELLS[number]
  if (white === undefined) throw new RangeError(`number: no target ${number}`)
  const cellMm = sideMm / CELLS
  const isBlack = (row: number, column: number): boolean => {
    const inside = row > 0 && column > 0 && row < CELLS - 1 && column < CELLS - 1
    return !inside || white[4 * (row - 1) + column - 1] === '0'
  }
  // one box to a run of black cells, so that no hair of white stands between them
  return Array.from({ length: CELLS }, (_, row) => runsOf(row, isBlack))
    .flat()
    .map(({ row, from, to }) =>
      filledBox({
        xMm: xMm + from * cellMm,
        yMm: yMm + row * cellMm,
        widthMm: (to - from) * cellMm,
        heightMm: cellMm,
      }),
    )
}

function runsOf(
  row: number,
  isBlack: (row: number, column: number) => boolean,
): readonly Readonly<{ row: number; from: number; to: number }>[] {
  const starts = Array.from({ length: CELLS }, (_, column) => column).filter(
    (column) => isBlack(row, column) && (column === 0 || !isBlack(row, column - 1)),
  )
  return starts.map((from) => {
    let to = from
    while (to < CELLS && isBlack(row, to)) to += 1
    return { row, from, to }
  })
}

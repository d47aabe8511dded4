import { expectIn } from '../core/units/range.ts'

/** A film of black and clear, row by row from top to bottom. */
export type Bilevel = Readonly<{
  widthPx: number
  heightPx: number
  /** Side of the square pixels. */
  pixelUm: number
  bands: AsyncIterable<BitBand> | Iterable<BitBand>
}>

/**
 * Whole rows of packed bits: each row from a new byte on, its first pixel in the highest bit, 1 for
 * black. Bits past the width do not count.
 */
export type BitBand = Readonly<{ rows: number; bits: Uint8Array }>

/** The widest row and the most rows. */
export const MOST_SIDE_PX: number = 2 ** 24

export function rowBytesOf({ widthPx }: Pick<Bilevel, 'widthPx'>): number {
  return Math.ceil(widthPx / 8)
}

/** @throws RangeError where a side or the pixel is out of range */
export function expectBilevel({ widthPx, heightPx, pixelUm }: Omit<Bilevel, 'bands'>): void {
  const side = { low: 1, high: MOST_SIDE_PX, unit: 'px', whole: true }
  expectIn(widthPx, { name: 'widthPx', ...side })
  expectIn(heightPx, { name: 'heightPx', ...side })
  expectIn(pixelUm, { name: 'pixelUm', low: 0.001, high: 1e6, unit: 'um' })
}

/**
 * The film's rows in blocks that begin at the same rows however the bands came: `rowsEach` rows,
 * fewer at a block's end. A block begins at row 0 and every `blockRows` rows.
 *
 * The bits are the bands' own, not copies.
 *
 * @throws RangeError where the rows do not fill the height
 */
export async function* blocksOf(
  film: Bilevel,
  { blockRows }: Readonly<{ blockRows: number }>,
): AsyncGenerator<Readonly<{ top: number; rows: number; bits: Uint8Array; endsBlock: boolean }>> {
  const rowBytes = rowBytesOf(film)
  let top = 0
  for await (const { rows, bits } of film.bands) {
    if (top + rows > film.heightPx || bits.length !== rows * rowBytes) {
      const got = `${rows} rows of ${bits.length} bytes from row ${top} on`
      throw new RangeError(`bands: ${got} do not fit ${film.heightPx} rows of ${rowBytes} bytes`)
    }
    for (let done = 0; done < rows; ) {
      const part = Math.min(rows - done, blockRows - (top % blockRows))
      const ends = top + part
      yield {
        top,
        rows: part,
        bits: bits.subarray(done * rowBytes, (done + part) * rowBytes),
        endsBlock: ends % blockRows === 0 || ends === film.heightPx,
      }
      done += part
      top = ends
    }
  }
  if (top !== film.heightPx) {
    throw new RangeError(`bands: expected ${film.heightPx} rows, got ${top}`)
  }
}

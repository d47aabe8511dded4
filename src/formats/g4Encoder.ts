import { expectIn } from '../core/units/range.ts'
import { g4Rows } from '../kernels/g4Rows.ts'
import { MOST_SIDE_PX } from './bilevel.ts'
import { BLACK_RUNS, WHITE_RUNS } from './g4Codes.ts'

/** Codes rows of bits in Group 4: each by how it differs from the row above. */
export type G4Encoder = Readonly<{
  /**
   * Codes whole rows, each from a new byte on, its first pixel in the highest bit, 1 for black;
   * bits past the width do not count.
   *
   * @returns the bytes that are finished; they hold until the next call
   * @throws RangeError where the bytes are no whole rows
   */
  push: (rows: Uint8Array) => Uint8Array
  /**
   * The end-of-block mark and the last bytes, which hold until the next call. The next row is the
   * first of a new picture.
   */
  end: () => Uint8Array
}>

/**
 * An encoder by machine code that keeps two rows and the bytes of one call.
 *
 * @throws RangeError where the width is no whole number from 1 to MOST_SIDE_PX
 * @source t6 (2.2: modes and coding procedure; 2.4.1.1: end of block)
 */
export function g4Encoder({ widthPx }: Readonly<{ widthPx: number }>): G4Encoder {
  expectIn(widthPx, { name: 'widthPx', low: 1, high: MOST_SIDE_PX, unit: 'px', whole: true })
  const rowBytes = Math.ceil(widthPx / 8)
  const { room, push, end } = g4Rows({ widthPx }, { white: WHITE_RUNS, black: BLACK_RUNS })
  let out = new Uint8Array(2 ** 16)
  return {
    push: (rows) => {
      if (rows.length % rowBytes !== 0) {
        throw new RangeError(`rows: expected rows of ${rowBytes} bytes, got ${rows.length} in all`)
      }
      let length = 0
      for (let from = 0; from < rows.length; from += room.length) {
        const part = rows.subarray(from, from + room.length)
        room.set(part)
        const count = part.length / rowBytes
        for (let done = 0; done < count; ) {
          const { bytes, rows: taken } = push(done, count - done)
          done += taken
          out = withRoom(out, length + bytes.length)
          out.set(bytes, length)
          length += bytes.length
        }
      }
      return out.subarray(0, length)
    },
    end,
  }
}

function withRoom(bytes: Uint8Array<ArrayBuffer>, length: number): Uint8Array<ArrayBuffer> {
  if (length <= bytes.length) return bytes
  const longer = new Uint8Array(2 * length)
  longer.set(bytes)
  return longer
}

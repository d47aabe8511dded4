import { expectIn } from '../core/units/range.ts'
import { MOST_SIDE_PX } from './bilevel.ts'
import {
  BLACK_RUNS,
  codeBits,
  coded,
  codeLength,
  LONGEST_JOINED,
  LONGEST_MAKE_UP,
  WHITE_RUNS,
} from './g4Codes.ts'
import type { G4Encoder } from './g4Encoder.ts'
import { changeList, listChanges } from './rowChanges.ts'

const PASS = coded('0001')
const HORIZONTAL = coded('001')
/** The end of a row's change left of, under or right of the change above, by −3 … 3 pixels. */
const VERTICAL = Uint32Array.of(
  coded('0000010'),
  coded('000010'),
  coded('010'),
  coded('1'),
  coded('011'),
  coded('000011'),
  coded('0000011'),
)
/** Twice in a row it ends the block. */
const END_OF_LINE = coded('000000000001')

/** The bits on their way out: `word` holds 32 − `free` of them, `bytes` what is before. */
type Out = { bytes: Uint8Array; at: number; word: number; free: number }

/** Changes of one row and of the one above it, and the codes of a horizontal mode. */
type Rows = Readonly<{ widthPx: number; here: Int32Array; above: Int32Array; queue: Uint32Array }>

/**
 * Group 4 in plain loops, which keep two rows and the bytes of one call: what kernels/g4Rows.ts is
 * held to, byte by byte.
 *
 * @throws RangeError where the width is no whole number from 1 to MOST_SIDE_PX
 * @source t6 (2.2: modes and coding procedure; 2.4.1.1: end of block)
 */
export function plainG4({ widthPx }: Readonly<{ widthPx: number }>): G4Encoder {
  expectIn(widthPx, { name: 'widthPx', low: 1, high: MOST_SIDE_PX, unit: 'px', whole: true })
  const rowBytes = Math.ceil(widthPx / 8)
  const queue = new Uint32Array(3 + 2 * Math.ceil(widthPx / 2560))
  const out: Out = { bytes: new Uint8Array(2 ** 16), at: 0, word: 0, free: 32 }
  let here = changeList(widthPx)
  let above = changeList(widthPx).fill(widthPx)
  let aboveCount = 0
  return {
    push: (rows) => {
      if (rows.length % rowBytes !== 0) {
        throw new RangeError(`rows: expected rows of ${rowBytes} bytes, got ${rows.length} in all`)
      }
      const bits = new DataView(rows.buffer, rows.byteOffset, rows.length)
      out.at = 0
      for (let start = 0; start < rows.length; start += rowBytes) {
        const count = listChanges(bits, { start, widthPx }, here)
        makeRoom(out, { codes: count + aboveCount + 2, widthPx })
        codeRow(out, { widthPx, here, above, queue })
        ;[here, above] = [above, here]
        aboveCount = count
      }
      return out.bytes.subarray(0, out.at)
    },
    end: () => {
      out.at = 0
      put(out, END_OF_LINE)
      put(out, END_OF_LINE)
      const bytes = flush(out)
      above.fill(widthPx)
      aboveCount = 0
      return bytes
    },
  }
}

/** A mode has 53 bits at most, and the make-up codes 12 every 2560 pixels. */
function makeRoom(
  out: Out,
  { codes, widthPx }: Readonly<{ codes: number; widthPx: number }>,
): void {
  const needed = out.at + 7 * codes + widthPx / 1000 + 64
  if (needed <= out.bytes.length) return
  const longer = new Uint8Array(Math.max(2 * out.bytes.length, Math.ceil(needed)))
  longer.set(out.bytes.subarray(0, out.at))
  out.bytes = longer
}

/**
 * One row, in the standard's letters: a0 is where we stand, a1 and a2 are the next changes here, b1
 * the first change above that is right of a0 and to the other colour than a0's, b2 the next one.
 */
function codeRow(out: Out, { widthPx, here, above, queue }: Rows): void {
  const { bytes } = out
  let { at, word, free } = out
  let a0 = -1 // before the row
  let next = 0 // of `here`; odd while a0 is black
  let over = 0 // of `above`; even and odd as `next`
  while (a0 < widthPx) {
    while ((above[over] ?? 0) <= a0) over += 2
    const a1 = here[next] ?? 0
    const b1 = above[over] ?? 0
    const b2 = above[over + 1] ?? 0
    let code = 0
    let waiting = 0
    if (b2 < a1) {
      code = PASS
      a0 = b2
    } else if (a1 - b1 <= 3 && b1 - a1 <= 3) {
      code = VERTICAL[a1 - b1 + 3] ?? 0
      a0 = a1
      next += 1
      over += over > 0 ? -1 : 1
    } else {
      const a2 = here[next + 1] ?? 0
      code = HORIZONTAL
      waiting = queueRuns(queue, { black: next & 1, first: a1 - Math.max(a0, 0), second: a2 - a1 })
      a0 = a2
      next += 2
    }
    for (let queued = 0; ; queued++) {
      const length = codeLength(code)
      const pattern = codeBits(code)
      if (length < free) {
        word = (word << length) | pattern
        free -= length
      } else {
        const rest = length - free
        const full = (word << free) | (pattern >>> rest)
        bytes[at] = full >>> 24
        bytes[at + 1] = full >>> 16
        bytes[at + 2] = full >>> 8
        bytes[at + 3] = full
        at += 4
        word = pattern // its upper bits are written; they are shifted out before the next are
        free = 32 - rest
      }
      if (queued === waiting) break
      code = queue[queued] ?? 0
    }
  }
  out.at = at
  out.word = word
  out.free = free
}

/** The codes of two runs into the queue; how many. */
function queueRuns(
  queue: Uint32Array,
  { black, first, second }: Readonly<{ black: number; first: number; second: number }>,
): number {
  let count = 0
  let run = first
  while (run > LONGEST_JOINED) {
    queue[count++] = LONGEST_MAKE_UP
    run -= 2560
  }
  queue[count++] = (black === 1 ? BLACK_RUNS[run] : WHITE_RUNS[run]) ?? 0
  run = second
  while (run > LONGEST_JOINED) {
    queue[count++] = LONGEST_MAKE_UP
    run -= 2560
  }
  queue[count++] = (black === 1 ? WHITE_RUNS[run] : BLACK_RUNS[run]) ?? 0
  return count
}

/** One code, bit by bit: for the few that stand outside rows. */
function put(out: Out, code: number): void {
  for (let bit = codeLength(code) - 1; bit >= 0; bit--) {
    out.word = (out.word << 1) | ((codeBits(code) >>> bit) & 1)
    out.free -= 1
    if (out.free === 0) writeWord(out, 4)
  }
}

/** What is left, filled up with zeros to a whole byte. */
function flush(out: Out): Uint8Array {
  const used = 32 - out.free
  out.word <<= out.free % 32
  writeWord(out, Math.ceil(used / 8))
  return out.bytes.subarray(0, out.at)
}

/** The upper bytes of a word that fills it from its highest bit on. */
function writeWord(out: Out, count: number): void {
  for (let byte = 0; byte < count; byte++) out.bytes[out.at++] = out.word >>> (24 - 8 * byte)
  out.word = 0
  out.free = 32
}

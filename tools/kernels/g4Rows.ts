// Group 4 for the kernel compiler: rows of bits, each by how it differs from the row above. What it
// writes are the bytes of src/formats/plainG4.ts.
//
// Memory: codes of white and of black runs, as src/formats/g4Codes.ts has them; the places where two
// rows change colour; rows that wait; bytes that are done.

const RUNS: i32 = 2624
const LONGEST_JOINED: i32 = RUNS - 1
const END_MARKS: i32 = 4

let widthPx: i32 = 0
let rowBytes: i32 = 0
let whiteRuns: i32 = 0
let blackRuns: i32 = 0
let hereAt: i32 = 0
let aboveAt: i32 = 0
let rowsAt: i32 = 0
let outAt: i32 = 0
let outLimit: i32 = 0

/** Bits on their way out: the lower `held` of `word`, fewer than 32. */
let word: u64 = 0
let held: i32 = 0
let out: i32 = 0

/** Lays out memory for rows of this width, so many bytes of them at a time; returns where codes go. */
export function layOut(width: i32, roomBytes: i32): i32 {
  widthPx = width
  rowBytes = (width + 7) >> 3
  whiteRuns = (<i32>__heap_base + 15) & ~15
  blackRuns = whiteRuns + 4 * RUNS
  hereAt = blackRuns + 4 * RUNS
  const list = 4 * (width + END_MARKS)
  aboveAt = hereAt + list
  rowsAt = (aboveAt + list + 15) & ~15
  outAt = (rowsAt + roomBytes + 31) & ~15
  outLimit = outAt + roomBytes
  // a row has no more codes than its own changes and those above, of 53 bits at most
  const end = outLimit + 14 * width + width / 1000 + 256
  const pages = ((end + 65535) >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
  begin()
  return whiteRuns
}

export function rowsRoom(): i32 {
  return rowsAt
}

export function outRoom(): i32 {
  return outAt
}

/** The row above the first is white. */
function begin(): void {
  for (let at = 0; at < END_MARKS; at++) store<i32>(aboveAt + 4 * at, widthPx)
  word = 0
  held = 0
}

let taken: i32 = 0

/** Codes rows from the first on until the room is full; returns how many bytes are done. */
export function push(first: i32, rows: i32): i32 {
  out = outAt
  taken = 0
  while (taken < rows && out < outLimit) {
    listChanges(rowsAt + (first + taken) * rowBytes)
    codeRow()
    const other = hereAt
    hereAt = aboveAt
    aboveAt = other
    taken++
  }
  return out - outAt
}

/** How many rows the last push took. */
export function rowsTaken(): i32 {
  return taken
}

/** The end-of-block mark and what is left, filled up to a whole byte; returns how many bytes. */
export function end(): i32 {
  out = outAt
  word = (word << 24) | 0x001001
  let left = held + 24
  while (left > 0) {
    left -= 8
    store<u8>(out++, <u32>(left >= 0 ? word >> left : word << -left))
  }
  begin()
  return out - outAt
}

/** Where the row changes colour; it began after a white pixel. */
function listChanges(row: i32): void {
  let to = hereAt
  let before: i64 = 0
  let x = 0
  const whole = widthPx & ~63
  while (x < whole) {
    const at = row + (x >> 3)
    if (x + 128 <= widthPx) {
      const two = v128.load(at)
      if (i64x2.all_true(i64x2.eq(two, i64x2.splat(before)))) {
        x += 128
        continue
      }
    }
    const pixels = bswap<u64>(load<u64>(at))
    if (<i64>pixels != before) {
      to = differences(to, pixels ^ ((pixels >> 1) | (<u64>before << 63)), x)
      before = -(<i64>(pixels & 1))
    }
    x += 64
  }
  const rest = widthPx - whole
  if (rest > 0) {
    const pixels = bswap<u64>(load<u64>(row + (whole >> 3)))
    const kept = <u64>-1 << (64 - rest)
    to = differences(to, (pixels ^ ((pixels >> 1) | (<u64>before << 63))) & kept, whole)
  }
  for (let mark = 0; mark < END_MARKS; mark++) store<i32>(to + 4 * mark, widthPx)
}

/** Places of the bits of a word, behind those that are listed. */
// @ts-ignore: a decorator of the kernel compiler
@inline
function differences(first: i32, word: u64, base: i32): i32 {
  let to = first
  let differs = word
  while (differs != 0) {
    const lead = <i32>clz<u64>(differs)
    store<i32>(to, base + lead)
    to += 4
    differs &= (<u64>-1 >> 1) >> lead
  }
  return to
}

/** One row, in the standard's letters, as src/formats/plainG4.ts explains them. */
function codeRow(): void {
  const width = widthPx
  let a0 = -1
  let here = hereAt
  let above = aboveAt
  let isBlack = false
  let bits = word
  let count = held
  let to = out
  while (a0 < width) {
    while (load<i32>(above) <= a0) above += 8
    const a1 = load<i32>(here)
    const b1 = load<i32>(above)
    const b2 = load<i32>(above, 4)
    if (b2 < a1) {
      bits = (bits << 4) | 1 // pass
      count += 4
      a0 = b2
    } else {
      const apart = a1 - b1
      if (<u32>(apart + 3) <= 6) {
        if (apart == 0) {
          bits = (bits << 1) | 1
          count += 1
        } else {
          // 011 and 010, 000011 and 000010, 0000011 and 0000010
          const far = abs(apart)
          const length = far == 1 ? 3 : far + 4
          bits = (bits << length) | (apart > 0 ? 3 : 2)
          count += length
        }
        a0 = a1
        here += 4
        isBlack = !isBlack
        above += above > aboveAt ? -4 : 4
      } else {
        const a2 = load<i32>(here, 4)
        bits = (bits << 3) | 1 // horizontal
        count += 3
        let run = a1 - max(a0, 0)
        let runs = isBlack ? blackRuns : whiteRuns
        for (let part = 0; part < 2; part++) {
          for (;;) {
            if (count >= 32) {
              count -= 32
              store<u32>(to, bswap<u32>(<u32>(bits >> count)))
              to += 4
            }
            if (run <= LONGEST_JOINED) break
            bits = (bits << 12) | 0x1f // 2560 pixels
            count += 12
            run -= 2560
          }
          const code = load<u32>(runs + 4 * run)
          const length = code & 31
          bits = (bits << length) | (code >> 5)
          count += length
          run = a2 - a1
          runs = isBlack ? whiteRuns : blackRuns
        }
        a0 = a2
        here += 8
      }
    }
    if (count >= 32) {
      count -= 32
      store<u32>(to, bswap<u32>(<u32>(bits >> count)))
      to += 4
    }
  }
  word = bits
  held = count
  out = to
}

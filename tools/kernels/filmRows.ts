// Rows of films for the kernel compiler: tones made wider, held within what a fabric holds, and
// turned into dots. What it computes are the plain loops of src/raster/films/plainRows.ts, operation
// by operation, so that both give the same bits.
//
// Every argument that ends in At is an address in bytes; what stands where is laid out by
// src/kernels/filmRows.ts. Rows of tones are filled up with nothing to a multiple of 16 pixels.

/** Where memory is free. */
export function baseAt(): i32 {
  return (<i32>__heap_base + 15) & ~15
}

export function makeRoom(end: i32): void {
  const pages = ((end + 65535) >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
}

/** Tones of greys 0 … 255 by a table; rows are filled up to a multiple of 16 pixels. */
export function lookUp(greysAt: i32, width: i32, tableAt: i32, intoAt: i32): void {
  const end = intoAt + 2 * width
  let from = greysAt
  for (let into = intoAt; into < end; into += 4) {
    const first = <u32>load<u16>(tableAt + 2 * <i32>load<u8>(from))
    const second = <u32>load<u16>(tableAt + 2 * <i32>load<u8>(from, 1))
    store<u32>(into, first | (second << 16))
    from += 2
  }
  clearRest(intoAt, width)
}

/**
 * A row of tones made wider, in 15 bits. For every eight pixels there is a record: which of 16 bytes
 * are each pixel's left neighbour, how far each is on to the right one in 1/32 768, and where the
 * bytes begin in the row.
 */
export function widen(rowAt: i32, recordsAt: i32, width: i32, intoAt: i32): void {
  const next = i8x16.splat(2)
  const end = intoAt + 2 * ((width + 7) & ~7)
  let record = recordsAt
  for (let into = intoAt; into < end; into += 16) {
    const near = i16x8.shr_u(v128.load(rowAt + load<i32>(record, 32)), 1)
    const left = v128.load(record)
    const from = i8x16.swizzle(near, left)
    const rise = i16x8.sub(i8x16.swizzle(near, i8x16.add(left, next)), from)
    v128.store(into, i16x8.add(from, i16x8.q15mulr_sat_s(rise, v128.load(record, 16))))
    record += 48
  }
}

/** The records of `widen`, from the left neighbour of each pixel and how far it is on. */
export function layRecords(leftsAt: i32, partsAt: i32, width: i32, recordsAt: i32): void {
  for (let x = 0; x < width; x++) {
    const record = recordsAt + 48 * (x >> 3)
    const lane = 2 * (x & 7)
    const first = load<i32>(leftsAt + 4 * (x & ~7))
    const left = 2 * (load<i32>(leftsAt + 4 * x) - first)
    store<u16>(record + lane, left | ((left + 1) << 8))
    store<u16>(record + lane, load<u16>(partsAt + 2 * x), 16)
    store<i32>(record, 2 * first, 32)
  }
}

/** As `widen`, where eight pixels reach further than 16 bytes: a place and a part for each pixel. */
export function widenEach(rowAt: i32, recordsAt: i32, width: i32, intoAt: i32): void {
  for (let x = 0; x < width; x++) {
    const near = rowAt + load<i32>(recordsAt + 8 * x)
    const from = <i32>load<u16>(near) >> 1
    const rise = (<i32>load<u16>(near, 2) >> 1) - from
    const tone = from + ((rise * load<i32>(recordsAt + 8 * x, 4) + 0x4000) >> 15)
    store<u16>(intoAt + 2 * x, tone)
  }
}

/** From one row of 15 bits to another, above + part · (below − above), and tones of 16 bits again. */
export function blend(aboveAt: i32, belowAt: i32, part: i32, width: i32, intoAt: i32): void {
  const parts = i16x8.splat(<i16>part)
  for (let at = 0; at < 2 * width; at += 16) {
    const above = v128.load(aboveAt + at)
    const rise = i16x8.sub(v128.load(belowAt + at), above)
    const tone = i16x8.add(above, i16x8.q15mulr_sat_s(rise, parts))
    v128.store(intoAt + at, v128.or(i16x8.shl(tone, 1), i16x8.shr_u(tone, 14)))
  }
  clearRest(intoAt, width)
}

function clearRest(rowAt: i32, width: i32): void {
  const padded = (width + 15) & ~15
  memory.fill(rowAt + 2 * width, 0, 2 * (padded - width))
}

/** Tones moved to the nearest that is held; nothing and solid stay. */
export function limit(
  rowAt: i32,
  width: i32,
  nothingBelow: i32,
  least: i32,
  most: i32,
  solidAbove: i32,
): void {
  const firstHeld = i16x8.splat(<i16>nothingBelow)
  const lowest = i16x8.splat(<i16>least)
  const highest = i16x8.splat(<i16>most)
  const lastHeld = i16x8.splat(<i16>solidAbove)
  for (let at = rowAt; at < rowAt + 2 * width; at += 16) {
    const tone = v128.load(at)
    const held = i16x8.min_u(i16x8.max_u(tone, lowest), highest)
    const isSome = i16x8.ge_u(tone, firstHeld)
    v128.store(at, v128.or(v128.and(held, isSome), i16x8.gt_u(tone, lastHeld)))
  }
  clearRest(rowAt, width)
}

/** Sixteen masks as two bytes, the first in the highest bit of the first. */
// @ts-ignore: a decorator of the kernel compiler
@inline
function bytesOf(first: v128, second: v128): i32 {
  const lanes = i8x16.narrow_i16x8_s(first, second)
  const turned = v128.shuffle<i8>(lanes, lanes, 7, 6, 5, 4, 3, 2, 1, 0, 15, 14, 13, 12, 11, 10, 9, 8)
  return i8x16.bitmask(turned)
}

// A pixel's place in its cell is −32 768 … 32 767 from the middle either way. Four pixels are looked at
// together: 16 bits along the screen and 16 bits across it for each, in turn.

/** When ink comes to four pixels: by x² + y², x² + (1.5 y)² or |y|, in the units of each shape. */
// @ts-ignore: a decorator of the kernel compiler
@inline
function order(shape: i32, place: v128): v128 {
  if (shape == 0) return i32x4.shr_u(i32x4.dot_i16x8_s(place, place), 15)
  if (shape == 1) {
    const shrunk = i16x8.q15mulr_sat_s(place, i32x4.splat((18432 << 16) | 8192))
    return i32x4.shr_u(i32x4.dot_i16x8_s(place, shrunk), 14)
  }
  return i32x4.shl(i32x4.abs(i32x4.shr_s(place, 16)), 1)
}

/** When it comes to eight, 0 … 65 534. */
// @ts-ignore: a decorator of the kernel compiler
@inline
function orders(shape: i32, first: v128, second: v128): v128 {
  const eight = i16x8.narrow_i32x4_u(order(shape, first), order(shape, second))
  return i16x8.min_u(eight, i16x8.splat(-2))
}

/** How far four pixels from the first on are moved along and across. */
// @ts-ignore: a decorator of the kernel compiler
@inline
function stepsOf(first: i32, du: i32, dv: i32): v128 {
  const numbers = i32x4.add(i32x4.splat(first), i32x4(0, 1, 2, 3))
  return v128.or(
    i32x4.shr_u(i32x4.mul(numbers, i32x4.splat(du)), 16),
    v128.and(i32x4.mul(numbers, i32x4.splat(dv)), i32x4.splat(0xffff0000)),
  )
}

/** Places of a patch of 61 times 16 pixels. */
const SCATTER_BYTES: i32 = 61 * 64

// @ts-ignore: a decorator of the kernel compiler
@inline
function dotRow(
  shape: i32,
  tonesAt: i32,
  width: i32,
  bitsAt: i32,
  firstU: i32,
  firstV: i32,
  du: i32,
  dv: i32,
  scatterAt: i32,
): void {
  const steps0 = stepsOf(0, du, dv)
  const steps1 = stepsOf(4, du, dv)
  const steps2 = stepsOf(8, du, dv)
  const steps3 = stepsOf(12, du, dv)
  const none = i16x8.splat(0)
  const du16 = 16 * du
  const dv16 = 16 * dv
  const end = tonesAt + 2 * width
  const lastScatter = scatterAt + SCATTER_BYTES
  let u = firstU
  let v = firstV
  let bits = bitsAt
  let scatter = scatterAt
  for (let at = tonesAt; at < end; at += 32) {
    const flat = load<i64>(at)
    if (<u64>(flat + 1) <= 1 && isAll(at, i64x2.splat(flat))) {
      store<u16>(bits, <i32>flat)
    } else {
      const place = i32x4.splat((u >>> 16) | (v & 0xffff0000))
      let place0 = i16x8.add(place, steps0)
      let place1 = i16x8.add(place, steps1)
      let place2 = i16x8.add(place, steps2)
      let place3 = i16x8.add(place, steps3)
      if (scatterAt != 0) {
        place0 = i16x8.add(place0, v128.load(scatter))
        place1 = i16x8.add(place1, v128.load(scatter, 16))
        place2 = i16x8.add(place2, v128.load(scatter, 32))
        place3 = i16x8.add(place3, v128.load(scatter, 48))
      }
      // nothing is left of a tone where its pixel comes later than it
      const first = i16x8.eq(i16x8.sub_sat_u(v128.load(at), orders(shape, place0, place1)), none)
      const second = i16x8.eq(
        i16x8.sub_sat_u(v128.load(at, 16), orders(shape, place2, place3)),
        none,
      )
      store<u16>(bits, bytesOf(first, second) ^ 0xffff)
    }
    bits += 2
    if (scatterAt != 0) {
      scatter += 64
      if (scatter == lastScatter) scatter = scatterAt
    }
    u += du16
    v += dv16
  }
}

/** Whether sixteen tones are eight times the same two. */
// @ts-ignore: a decorator of the kernel compiler
@inline
function isAll(at: i32, flat: v128): bool {
  const differs = v128.or(v128.xor(v128.load(at), flat), v128.xor(v128.load(at, 16), flat))
  return !v128.any_true(differs)
}

// Dots of a shape, of tones as its orders have them. u and v are where the first pixel lies in its cell,
// from the cell's middle on, du and dv from a pixel to the next, a whole cell 2^32; scatterAt, if there
// is one, how far each pixel of a patch is moved, a whole cell 2^16. One function for each shape: in one
// for all the compiler would fold their loops into one that asks for the shape again and again.

export function roundDots(
  tonesAt: i32,
  width: i32,
  bitsAt: i32,
  u: i32,
  v: i32,
  du: i32,
  dv: i32,
  scatterAt: i32,
): void {
  dotRow(0, tonesAt, width, bitsAt, u, v, du, dv, scatterAt)
}

export function ellipticalDots(
  tonesAt: i32,
  width: i32,
  bitsAt: i32,
  u: i32,
  v: i32,
  du: i32,
  dv: i32,
  scatterAt: i32,
): void {
  dotRow(1, tonesAt, width, bitsAt, u, v, du, dv, scatterAt)
}

export function lineDots(
  tonesAt: i32,
  width: i32,
  bitsAt: i32,
  u: i32,
  v: i32,
  du: i32,
  dv: i32,
  scatterAt: i32,
): void {
  dotRow(2, tonesAt, width, bitsAt, u, v, du, dv, scatterAt)
}

/** Black where a threshold is below the tone: lines of thresholds repeat every period, 16 n pixels. */
export function mask(tonesAt: i32, width: i32, bitsAt: i32, lineAt: i32, period: i32): void {
  const end = tonesAt + 2 * width
  const lineEnd = lineAt + 2 * period
  let line = lineAt
  let bits = bitsAt
  for (let at = tonesAt; at < end; at += 32) {
    const first = v128.load(line)
    const second = v128.load(line, 16)
    const one = i16x8.eq(i16x8.max_u(first, v128.load(at)), first)
    const two = i16x8.eq(i16x8.max_u(second, v128.load(at, 16)), second)
    store<u16>(bits, bytesOf(one, two) ^ 0xffff)
    bits += 2
    line += 32
    if (line == lineEnd) line = lineAt
  }
}

/**
 * Lines of a mask for `maskRows`. A tone t of 15 bits is 2 t of 16, and 1 more from 16 384 on: it is
 * above the threshold where t is above what is laid here.
 */
export function layLines(thresholdsAt: i32, count: i32, dotPx: i32, linesAt: i32): void {
  let to = linesAt
  for (let at = thresholdsAt; at < thresholdsAt + 2 * count; at += 2) {
    const threshold = <i32>load<u16>(at)
    const own = threshold < 0x8000 ? threshold >> 1 : ((threshold + 1) >> 1) - 1
    for (let x = 0; x < dotPx; x++, to += 2) store<u16>(to, own)
  }
}

/**
 * Rows between two of 15 bits, drawn by a mask as they are blended, which keeps no tones: as `blend`
 * and `mask` do. A line for every dotPx rows, 128 of them; thresholds are in 15 bits too: black above.
 *
 * @param partsAt how far each row is from the first of the two, in 1/32 768
 * @param y the first row on the film
 */
export function maskRows(
  aboveAt: i32,
  belowAt: i32,
  width: i32,
  partsAt: i32,
  y: i32,
  rows: i32,
  linesAt: i32,
  period: i32,
  dotPx: i32,
  bitsAt: i32,
  rowBytes: i32,
): void {
  const toBelow = belowAt - aboveAt
  const end = aboveAt + 2 * width
  const past = 0xffff << (-width & 15)
  const kept = ((past >> 8) & 0xff) | ((past & 0xff) << 8)
  const last = 2 * ((width - 1) >> 4)
  for (let row = 0; row < rows; row++) {
    const parts = i16x8.splat(load<i16>(partsAt + 2 * row))
    const lineAt = linesAt + 2 * period * (((y + row) / dotPx) & 127)
    const lineEnd = lineAt + 2 * period
    const firstBits = bitsAt + row * rowBytes
    let bits = firstBits
    let line = lineAt
    for (let at = aboveAt; at < end; at += 32) {
      const one = blended(at, toBelow, parts)
      const two = blended(at + 16, toBelow, parts)
      const first = i16x8.gt_s(one, v128.load(line))
      const second = i16x8.gt_s(two, v128.load(line, 16))
      store<u16>(bits, bytesOf(first, second))
      bits += 2
      line += 32
      if (line == lineEnd) line = lineAt
    }
    store<u16>(firstBits + last, <i32>load<u16>(firstBits + last) & kept)
  }
}

// @ts-ignore: a decorator of the kernel compiler
@inline
function blended(aboveAt: i32, toBelow: i32, parts: v128): v128 {
  const above = v128.load(aboveAt)
  const rise = i16x8.sub(v128.load(aboveAt + toBelow), above)
  return i16x8.add(above, i16x8.q15mulr_sat_s(rise, parts))
}

/**
 * Rows between two of 15 bits, blended one after another into room for one and drawn as dots.
 *
 * @param shape 0 round, 1 elliptical, 2 line
 * @param phasesAt of each row, four numbers: u, v, scatterAt and nothing
 */
export function dotRows(
  shape: i32,
  aboveAt: i32,
  belowAt: i32,
  width: i32,
  partsAt: i32,
  phasesAt: i32,
  rows: i32,
  du: i32,
  dv: i32,
  rowAt: i32,
  bitsAt: i32,
  rowBytes: i32,
): void {
  for (let row = 0; row < rows; row++) {
    blend(aboveAt, belowAt, load<i16>(partsAt + 2 * row), width, rowAt)
    const phases = phasesAt + 16 * row
    const u = load<i32>(phases)
    const v = load<i32>(phases, 4)
    const scatterAt = load<i32>(phases, 8)
    const bits = bitsAt + row * rowBytes
    if (shape == 0) roundDots(rowAt, width, bits, u, v, du, dv, scatterAt)
    else if (shape == 1) ellipticalDots(rowAt, width, bits, u, v, du, dv, scatterAt)
    else lineDots(rowAt, width, bits, u, v, du, dv, scatterAt)
  }
}

/** Black from half a tone up. */
export function solid(tonesAt: i32, width: i32, bitsAt: i32): void {
  let bits = bitsAt
  for (let at = tonesAt; at < tonesAt + 2 * width; at += 32) {
    store<u16>(bits, bytesOf(v128.load(at), v128.load(at, 16)))
    bits += 2
  }
}

/** Bits of another row where a tone is beyond low … high; returns 0 where none is, and leaves all. */
export function hasEnds(tonesAt: i32, width: i32, low: i32, high: i32): i32 {
  const lowest = i16x8.splat(<i16>low)
  const highest = i16x8.splat(<i16>high)
  const none = i16x8.splat(0)
  const all = i16x8.splat(-1)
  for (let at = tonesAt; at < tonesAt + 2 * width; at += 16) {
    const tone = v128.load(at)
    const flat = v128.or(i16x8.eq(tone, none), i16x8.eq(tone, all))
    const beyond = v128.or(i16x8.lt_u(tone, lowest), i16x8.gt_u(tone, highest))
    if (v128.any_true(v128.andnot(beyond, flat))) return 1
  }
  return 0
}

export function takeEnds(
  tonesAt: i32,
  width: i32,
  low: i32,
  high: i32,
  bitsAt: i32,
  otherAt: i32,
): void {
  const lowest = i16x8.splat(<i16>low)
  const highest = i16x8.splat(<i16>high)
  let byte = 0
  for (let at = tonesAt; at < tonesAt + 2 * width; at += 32) {
    const one = v128.load(at)
    const two = v128.load(at, 16)
    const first = v128.or(i16x8.lt_u(one, lowest), i16x8.gt_u(one, highest))
    const second = v128.or(i16x8.lt_u(two, lowest), i16x8.gt_u(two, highest))
    const beyond = bytesOf(first, second)
    const own = <i32>load<u16>(bitsAt + byte)
    const other = <i32>load<u16>(otherAt + byte)
    store<u16>(bitsAt + byte, (own & ~beyond) | (other & beyond))
    byte += 2
  }
}

/**
 * Flat colours from shares of them: each pixel wholly the plate that has most of it, the first of
 * those, unless more of it is left for none. Rows of plates lie at equal distances.
 */
export function decide(firstAt: i32, strideBytes: i32, plates: i32, width: i32): void {
  const all = i16x8.splat(-1)
  const none = i16x8.splat(0)
  for (let at = firstAt; at < firstAt + 2 * width; at += 16) {
    let rest = all
    let most = none
    for (let plate = 0, row = at; plate < plates; plate++, row += strideBytes) {
      const part = v128.load(row)
      rest = i16x8.sub_sat_u(rest, part)
      most = i16x8.max_u(most, part)
    }
    let free = v128.andnot(i16x8.ge_u(most, rest), i16x8.eq(most, none))
    for (let plate = 0, row = at; plate < plates; plate++, row += strideBytes) {
      const won = v128.and(free, i16x8.eq(v128.load(row), most))
      free = v128.andnot(free, won)
      v128.store(row, won)
    }
  }
  for (let plate = 0; plate < plates; plate++) clearRest(firstAt + plate * strideBytes, width)
}

/** Adds how many bits of a row are black in each square; 8 bytes behind the row may be read. */
export function countSquares(bitsAt: i32, squarePx: i32, squares: i32, countsAt: i32): void {
  for (let square = 0, from = 0; square < squares; square++, from += squarePx) {
    let count: i64 = 0
    for (let x = from, end = from + squarePx; x < end; x += 56) {
      const bits = bswap<u64>(load<u64>(bitsAt + (x >> 3))) << (x & 7)
      count += popcnt<u64>(bits >> (64 - min(56, end - x)))
    }
    const to = countsAt + 4 * square
    store<i32>(to, load<i32>(to) + <i32>count)
  }
}

// The leak map's strips for the kernel compiler: a subset of TypeScript with machine types. What it
// computes is src/raster/plainTiles.ts, operation by operation in 32-bit floats, four lanes at a
// time, so that both give the same bits.
//
// Memory, every address in bytes: cosines and sines for columns; turns for rows, as vectors, pass by
// pass; the filter in the order in which it is used; transmissions and codes of the samples; the
// square of one pair of tiles; the window; what differs in its columns; codes of leak and film. The
// square holds its rows in groups of eight columns: eight real parts, then eight imaginary ones, one
// line of the cache together.

/** What a leak code is shifted by: src/raster/leakCode.ts. */
const OFFSET: i32 = 456353
/** Columns of a group, and its bytes. */
const GROUP: i32 = 8
const GROUP_BYTES: i32 = 64

let high: i32 = 0
let wide: i32 = 0
let margin: i32 = 0
let widthPx: i32 = 0
/** Bytes of a window's sample: 1 with a table, or 4, a transmission itself. */
let sampleBytes: i32 = 0
let stride: i32 = 0
let turns: i32 = 0
let turnsAlong: i32 = 0
let filter: i32 = 0
let transmissions: i32 = 0
let ownCodes: i32 = 0
let square: i32 = 0
let window: i32 = 0
let differences: i32 = 0
let codes: i32 = 0
let filmCodes: i32 = 0
/** From a row of the square to the next. */
let rowBytes: i32 = 0
/** Whether this strip's samples are all 0 or 255. */
let isTwoTone: bool = false

/** Lays out the memory for windows of this size and makes room; returns where the cosines stand. */
export function layOut(
  newHigh: i32,
  newWide: i32,
  newMargin: i32,
  newWidthPx: i32,
  newStride: i32,
  newSampleBytes: i32,
): i32 {
  high = newHigh
  wide = newWide
  margin = newMargin
  widthPx = newWidthPx
  stride = newStride
  sampleBytes = newSampleBytes
  rowBytes = 8 * wide + GROUP_BYTES // one line more, against conflicts in the cache
  const inner = high - 2 * margin
  turns = <i32>__heap_base + 63 & ~63
  turnsAlong = turns + 8 * high + 63 & ~63
  filter = turnsAlong + 16 * wide
  transmissions = filter + 4 * high * wide
  ownCodes = transmissions + 4 * 256
  square = ownCodes + 2 * 256
  window = square + rowBytes * high
  differences = window + sampleBytes * stride * high
  codes = differences + sampleBytes * stride + 63 & ~63
  filmCodes = codes + 2 * inner * widthPx + 63 & ~63
  const end = filmCodes + 2 * inner * widthPx + 64
  const pages = (end + 65535 >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
  return turns
}

export function turnsAlongAt(): i32 {
  return turnsAlong
}

export function filterAt(): i32 {
  return filter
}

export function transmissionsAt(): i32 {
  return transmissions
}

export function windowAt(): i32 {
  return window
}

export function codesAt(): i32 {
  return codes
}

export function filmCodesAt(): i32 {
  return filmCodes
}

/** Codes of the samples' transmissions, once those stand. */
export function codeSamples(): void {
  for (let at = 0; at < 256; at++) {
    store<u16>(ownCodes + 2 * at, codeOf(load<f32>(transmissions + 4 * at)))
  }
}

/** The window's first `rows` rows inside its margin, as codes. */
export function strip(rows: i32): void {
  compareRows()
  const inner = wide - 2 * margin
  const around = 2 * margin / GROUP + 1
  const groups = (widthPx + GROUP - 1) / GROUP
  let known = 0 // groups of the window looked at
  let alike = 0 // groups up to there that are flat and of one value
  let waiting = -1
  for (let at = 0; at < groups; ) {
    for (; known < at + around; known++) {
      if (!isFlat(known)) alike = 0
      else alike = alike > 0 && isSame(known - 1, known) ? alike + 1 : 1
    }
    const left = GROUP * at
    if (alike >= around) {
      fill(left, min(GROUP, widthPx - left), rows)
      at++
      continue
    }
    if (waiting < 0) {
      waiting = left
    } else {
      pair(waiting, left, rows)
      waiting = -1
    }
    at += inner / GROUP
    known = at
    alike = 0
  }
  if (waiting >= 0) pair(waiting, waiting, rows)
  for (let row = 0; row < rows; row++) {
    const from = window + sampleBytes * ((row + margin) * stride + margin)
    const to = filmCodes + 2 * row * widthPx
    if (sampleBytes == 4) codesOfRow(from, to)
    else if (isTwoTone) codesOfTones(from, to)
    else codesOfSamples(from, to)
  }
}

/** What differs from the first row anywhere below, bit by bit; and whether there are two tones. */
function compareRows(): void {
  const bytes = sampleBytes * stride
  memory.fill(differences, 0, bytes)
  const zero = i32x4.splat(0)
  let other = zero
  for (let row = 0; row < high; row += 4) {
    const start = window + row * bytes
    for (let at = 0; at < bytes; at += 16) {
      const first = v128.load(window + at)
      const a = v128.load(start + at)
      const b = v128.load(start + bytes + at)
      const c = v128.load(start + 2 * bytes + at)
      const d = v128.load(start + 3 * bytes + at)
      const ab = v128.or(v128.xor(a, first), v128.xor(b, first))
      const cd = v128.or(v128.xor(c, first), v128.xor(d, first))
      v128.store(differences + at, v128.or(v128.load(differences + at), v128.or(ab, cd)))
      const others = v128.or(
        v128.or(v128.xor(a, i8x16.lt_s(a, zero)), v128.xor(b, i8x16.lt_s(b, zero))),
        v128.or(v128.xor(c, i8x16.lt_s(c, zero)), v128.xor(d, i8x16.lt_s(d, zero))),
      )
      other = v128.or(other, others)
    }
  }
  isTwoTone = sampleBytes == 1 && !v128.any_true(other)
}

/** Whether all of a group's columns of the window are one value. */
function isFlat(group: i32): bool {
  if (sampleBytes == 1) {
    const first = load<u64>(window + 8 * group)
    return (
      load<u64>(differences + 8 * group) == 0 &&
      first == <u64>load<u8>(window + 8 * group) * 0x0101010101010101
    )
  }
  const at = 32 * group
  const first = v128.load32_splat(window + at)
  const changes = v128.or(v128.load(differences + at), v128.load(differences + at, 16))
  const others = v128.or(
    v128.xor(v128.load(window + at), first),
    v128.xor(v128.load(window + at, 16), first),
  )
  return !v128.any_true(v128.or(changes, others))
}

/** Whether two flat groups are of one value. */
function isSame(one: i32, other: i32): bool {
  if (sampleBytes == 1) return load<u8>(window + 8 * one) == load<u8>(window + 8 * other)
  return load<i32>(window + 32 * one) == load<i32>(window + 32 * other)
}

function fill(left: i32, count: i32, rows: i32): void {
  const code =
    sampleBytes == 1
      ? <i32>load<u16>(ownCodes + 2 * load<u8>(window + left))
      : codeOf(load<f32>(window + 4 * left))
  const eight = i16x8.splat(<i16>code)
  for (let row = 0; row < rows; row++) {
    const start = codes + 2 * (row * widthPx + left)
    if (count == GROUP) v128.store(start, eight)
    else for (let at = start; at < start + 2 * count; at += 2) store<u16>(at, code)
  }
}

function codeOf(value: f32): i32 {
  const bits = value > 0 ? reinterpret<i32>(value) : 0
  return max(0, min(65535, (bits + 1024 >>> 11) - OFFSET))
}

/** Codes of four values, saturated when they are narrowed; what is below 0 is 0. */
// @ts-ignore: a word of the compiler
@inline
function codesOf(floats: v128): v128 {
  const bits = i32x4.max_s(floats, i32x4.splat(0))
  return i32x4.sub(i32x4.shr_u(i32x4.add(bits, i32x4.splat(1024)), 11), i32x4.splat(OFFSET))
}

function codesOfRow(from: i32, to: i32): void {
  let x = 0
  for (; x + 8 <= widthPx; x += 8) {
    const low = codesOf(v128.load(from + 4 * x))
    const rest = codesOf(v128.load(from + 4 * x, 16))
    v128.store(to + 2 * x, i16x8.narrow_i32x4_u(low, rest))
  }
  for (; x < widthPx; x++) store<u16>(to + 2 * x, codeOf(load<f32>(from + 4 * x)))
}

function codesOfTones(from: i32, to: i32): void {
  const none = v128.load16_splat(ownCodes)
  const full = v128.load16_splat(ownCodes + 2 * 255)
  let x = 0
  for (; x + 8 <= widthPx; x += 8) {
    const mask = i16x8.extend_low_i8x16_s(v128.load64_zero(from + x))
    v128.store(to + 2 * x, v128.bitselect(full, none, mask))
  }
  for (; x < widthPx; x++) store<u16>(to + 2 * x, load<u16>(ownCodes + 2 * load<u8>(from + x)))
}

function codesOfSamples(from: i32, to: i32): void {
  for (let x = 0; x < widthPx; x++) {
    store<u16>(to + 2 * x, load<u16>(ownCodes + 2 * load<u8>(from + x)))
  }
}

/** Two tiles as real and imaginary part of one transform, through the filter, and back to codes. */
function pair(left: i32, right: i32, rows: i32): void {
  for (let x = 0; x < wide; x += GROUP) {
    const column = square + GROUP * x
    if (sampleBytes == 4) takeValues(left + x, right + x, column)
    else if (isTwoTone) takeTones(left + x, right + x, column)
    else takeSamples(left + x, right + x, column)
    columnsForward(column)
  }
  const isOdd = 31 - clz(wide) & 1
  for (let y = 0; y < high; y++) {
    const row = square + y * rowBytes
    let table = turnsAlong
    let span = wide
    for (; span > 16; span >>= 2) table = rowForward(row, span, table)
    if (isOdd) throughOdd(row, table, filter + 4 * y * wide)
    else throughEven(row, table, filter + 4 * y * wide)
    for (span = isOdd ? 32 : 64; span <= wide; span <<= 2) {
      table -= 6 * span
      rowBackward(row, span, table)
    }
  }
  for (let x = margin; x < wide - margin; x += GROUP) {
    const column = square + GROUP * x
    const at = x - margin
    const countLeft = min(GROUP, widthPx - left - at)
    if (countLeft <= 0) break
    const countRight = left == right ? 0 : max(0, min(GROUP, widthPx - right - at))
    columnsBackward(column, rows, left + at, countLeft, right + at, countRight)
  }
}

/** Eight columns of both tiles' windows, into the square. */
function takeValues(left: i32, right: i32, column: i32): void {
  let from = window + 4 * left
  let other = window + 4 * right
  const end = column + high * rowBytes
  for (let to = column; to < end; to += rowBytes) {
    v128.store(to, v128.load(from))
    v128.store(to, v128.load(from, 16), 16)
    v128.store(to, v128.load(other), 32)
    v128.store(to, v128.load(other, 16), 48)
    from += 4 * stride
    other += 4 * stride
  }
}

function takeTones(left: i32, right: i32, column: i32): void {
  const none = v128.load32_splat(transmissions)
  const full = v128.load32_splat(transmissions + 4 * 255)
  let from = window + left
  let other = window + right
  const end = column + high * rowBytes
  for (let to = column; to < end; to += rowBytes) {
    const a = i16x8.extend_low_i8x16_s(v128.load64_zero(from))
    const b = i16x8.extend_low_i8x16_s(v128.load64_zero(other))
    v128.store(to, v128.bitselect(full, none, i32x4.extend_low_i16x8_s(a)))
    v128.store(to, v128.bitselect(full, none, i32x4.extend_high_i16x8_s(a)), 16)
    v128.store(to, v128.bitselect(full, none, i32x4.extend_low_i16x8_s(b)), 32)
    v128.store(to, v128.bitselect(full, none, i32x4.extend_high_i16x8_s(b)), 48)
    from += stride
    other += stride
  }
}

function takeSamples(left: i32, right: i32, column: i32): void {
  let from = window + left
  let other = window + right
  const end = column + high * rowBytes
  for (let to = column; to < end; to += rowBytes) {
    for (let at = 0; at < GROUP; at++) {
      store<f32>(to + 4 * at, load<f32>(transmissions + 4 * load<u8>(from + at)))
      store<f32>(to + 4 * at, load<f32>(transmissions + 4 * load<u8>(other + at)), 32)
    }
    from += stride
    other += stride
  }
}

function columnsForward(column: i32): void {
  for (let span = high; span > 4; span = span == 8 ? 4 : span >> 2) {
    if (span == 8) halveColumns(column)
    else quarterColumns(column, span)
  }
  const end = column + high * rowBytes
  for (let at = column; at < end; at += 4 * rowBytes) {
    quarterFour(at, rowBytes)
    quarterFour(at + 16, rowBytes)
  }
}

function quarterColumns(column: i32, span: i32): void {
  const part = span >> 2
  const hop = part * rowBytes
  const whole = span * rowBytes
  const end = column + high * rowBytes
  const turn = 4 * (high / span)
  for (let at = column; at < end; at += whole) {
    quarterFour(at, hop)
    quarterFour(at + 16, hop)
  }
  for (let j = 1; j < part; j++) {
    const step = j * turn
    const c = turns + step
    const s = c + 4 * high
    const w1r = v128.load32_splat(c)
    const w1i = v128.load32_splat(s)
    const w2r = v128.load32_splat(c + step)
    const w2i = v128.load32_splat(s + step)
    const w3r = v128.load32_splat(c + 2 * step)
    const w3i = v128.load32_splat(s + 2 * step)
    for (let at = column + j * rowBytes; at < end; at += whole) {
      quarter(at, hop, w1r, w1i, w2r, w2i, w3r, w3i)
      quarter(at + 16, hop, w1r, w1i, w2r, w2i, w3r, w3i)
    }
  }
}

/** A radix-4 pass at four places, then turned; imaginary parts lie 32 bytes on. */
// @ts-ignore: a word of the compiler
@inline
function quarter(
  at: i32,
  hop: i32,
  w1r: v128,
  w1i: v128,
  w2r: v128,
  w2i: v128,
  w3r: v128,
  w3i: v128,
): void {
  const b = at + hop
  const c = b + hop
  const d = c + hop
  const ar = v128.load(at)
  const cr = v128.load(c)
  const t0r = f32x4.add(ar, cr)
  const t1r = f32x4.sub(ar, cr)
  const br = v128.load(b)
  const dr = v128.load(d)
  const t2r = f32x4.add(br, dr)
  const t3r = f32x4.sub(br, dr)
  const ai = v128.load(at, 32)
  const ci = v128.load(c, 32)
  const t0i = f32x4.add(ai, ci)
  const t1i = f32x4.sub(ai, ci)
  const bi = v128.load(b, 32)
  const di = v128.load(d, 32)
  const t2i = f32x4.add(bi, di)
  const t3i = f32x4.sub(bi, di)
  v128.store(at, f32x4.add(t0r, t2r))
  v128.store(at, f32x4.add(t0i, t2i), 32)
  const yr = f32x4.sub(t0r, t2r)
  const yi = f32x4.sub(t0i, t2i)
  v128.store(c, f32x4.sub(f32x4.mul(yr, w2r), f32x4.mul(yi, w2i)))
  v128.store(c, f32x4.add(f32x4.mul(yr, w2i), f32x4.mul(yi, w2r)), 32)
  const xr = f32x4.add(t1r, t3i)
  const xi = f32x4.sub(t1i, t3r)
  v128.store(b, f32x4.sub(f32x4.mul(xr, w1r), f32x4.mul(xi, w1i)))
  v128.store(b, f32x4.add(f32x4.mul(xr, w1i), f32x4.mul(xi, w1r)), 32)
  const zr = f32x4.sub(t1r, t3i)
  const zi = f32x4.add(t1i, t3r)
  v128.store(d, f32x4.sub(f32x4.mul(zr, w3r), f32x4.mul(zi, w3i)))
  v128.store(d, f32x4.add(f32x4.mul(zr, w3i), f32x4.mul(zi, w3r)), 32)
}

/** The pass above undone; turned by the same numbers the other way. */
// @ts-ignore: a word of the compiler
@inline
function join(
  at: i32,
  hop: i32,
  w1r: v128,
  w1i: v128,
  w2r: v128,
  w2i: v128,
  w3r: v128,
  w3i: v128,
): void {
  const b = at + hop
  const c = b + hop
  const d = c + hop
  const qr = v128.load(c)
  const qi = v128.load(c, 32)
  const cr = f32x4.add(f32x4.mul(qr, w2r), f32x4.mul(qi, w2i))
  const ci = f32x4.sub(f32x4.mul(qi, w2r), f32x4.mul(qr, w2i))
  const ar = v128.load(at)
  const ai = v128.load(at, 32)
  const t0r = f32x4.add(ar, cr)
  const t0i = f32x4.add(ai, ci)
  const t1r = f32x4.sub(ar, cr)
  const t1i = f32x4.sub(ai, ci)
  const pr = v128.load(b)
  const pi = v128.load(b, 32)
  const br = f32x4.add(f32x4.mul(pr, w1r), f32x4.mul(pi, w1i))
  const bi = f32x4.sub(f32x4.mul(pi, w1r), f32x4.mul(pr, w1i))
  const sr = v128.load(d)
  const si = v128.load(d, 32)
  const dr = f32x4.add(f32x4.mul(sr, w3r), f32x4.mul(si, w3i))
  const di = f32x4.sub(f32x4.mul(si, w3r), f32x4.mul(sr, w3i))
  const t2r = f32x4.add(br, dr)
  const t2i = f32x4.add(bi, di)
  const t3r = f32x4.sub(br, dr)
  const t3i = f32x4.sub(bi, di)
  v128.store(at, f32x4.add(t0r, t2r))
  v128.store(at, f32x4.add(t0i, t2i), 32)
  v128.store(b, f32x4.sub(t1r, t3i))
  v128.store(b, f32x4.add(t1i, t3r), 32)
  v128.store(c, f32x4.sub(t0r, t2r))
  v128.store(c, f32x4.sub(t0i, t2i), 32)
  v128.store(d, f32x4.add(t1r, t3i))
  v128.store(d, f32x4.sub(t1i, t3r), 32)
}

/** A radix-4 pass at four places that need no turning. */
// @ts-ignore: a word of the compiler
@inline
function quarterFour(at: i32, hop: i32): void {
  const b = at + hop
  const c = b + hop
  const d = c + hop
  const ar = v128.load(at)
  const ai = v128.load(at, 32)
  const br = v128.load(b)
  const bi = v128.load(b, 32)
  const cr = v128.load(c)
  const ci = v128.load(c, 32)
  const dr = v128.load(d)
  const di = v128.load(d, 32)
  const t0r = f32x4.add(ar, cr)
  const t0i = f32x4.add(ai, ci)
  const t1r = f32x4.sub(ar, cr)
  const t1i = f32x4.sub(ai, ci)
  const t2r = f32x4.add(br, dr)
  const t2i = f32x4.add(bi, di)
  const t3r = f32x4.sub(br, dr)
  const t3i = f32x4.sub(bi, di)
  v128.store(at, f32x4.add(t0r, t2r))
  v128.store(at, f32x4.add(t0i, t2i), 32)
  v128.store(b, f32x4.add(t1r, t3i))
  v128.store(b, f32x4.sub(t1i, t3r), 32)
  v128.store(c, f32x4.sub(t0r, t2r))
  v128.store(c, f32x4.sub(t0i, t2i), 32)
  v128.store(d, f32x4.sub(t1r, t3i))
  v128.store(d, f32x4.add(t1i, t3r), 32)
}

// @ts-ignore: a word of the compiler
@inline
function joinFour(at: i32, hop: i32): void {
  const b = at + hop
  const c = b + hop
  const d = c + hop
  const ar = v128.load(at)
  const ai = v128.load(at, 32)
  const br = v128.load(b)
  const bi = v128.load(b, 32)
  const cr = v128.load(c)
  const ci = v128.load(c, 32)
  const dr = v128.load(d)
  const di = v128.load(d, 32)
  const t0r = f32x4.add(ar, cr)
  const t0i = f32x4.add(ai, ci)
  const t1r = f32x4.sub(ar, cr)
  const t1i = f32x4.sub(ai, ci)
  const t2r = f32x4.add(br, dr)
  const t2i = f32x4.add(bi, di)
  const t3r = f32x4.sub(br, dr)
  const t3i = f32x4.sub(bi, di)
  v128.store(at, f32x4.add(t0r, t2r))
  v128.store(at, f32x4.add(t0i, t2i), 32)
  v128.store(b, f32x4.sub(t1r, t3i))
  v128.store(b, f32x4.add(t1i, t3r), 32)
  v128.store(c, f32x4.sub(t0r, t2r))
  v128.store(c, f32x4.sub(t0i, t2i), 32)
  v128.store(d, f32x4.add(t1r, t3i))
  v128.store(d, f32x4.sub(t1i, t3r), 32)
}

/** One radix-2 pass over spans of 8 rows, for heights that are no power of 4. */
function halveColumns(column: i32): void {
  const hop = 4 * rowBytes
  const end = column + high * rowBytes
  for (let j = 0; j < 4; j++) {
    const c = turns + 4 * (j * high >> 3)
    const wr = v128.load32_splat(c)
    const wi = v128.load32_splat(c + 4 * high)
    for (let at = column + j * rowBytes; at < end; at += 2 * hop) {
      halve(at, at + hop, wr, wi)
      halve(at + 16, at + hop + 16, wr, wi)
    }
  }
}

// @ts-ignore: a word of the compiler
@inline
function halve(a: i32, b: i32, wr: v128, wi: v128): void {
  const ar = v128.load(a)
  const ai = v128.load(a, 32)
  const br = v128.load(b)
  const bi = v128.load(b, 32)
  const xr = f32x4.sub(ar, br)
  const xi = f32x4.sub(ai, bi)
  v128.store(a, f32x4.add(ar, br))
  v128.store(a, f32x4.add(ai, bi), 32)
  v128.store(b, f32x4.sub(f32x4.mul(xr, wr), f32x4.mul(xi, wi)))
  v128.store(b, f32x4.add(f32x4.mul(xr, wi), f32x4.mul(xi, wr)), 32)
}

function joinColumnPairs(column: i32): void {
  const hop = 4 * rowBytes
  const end = column + high * rowBytes
  for (let j = 0; j < 4; j++) {
    const c = turns + 4 * (j * high >> 3)
    const wr = v128.load32_splat(c)
    const wi = v128.load32_splat(c + 4 * high)
    for (let at = column + j * rowBytes; at < end; at += 2 * hop) {
      joinTwo(at, at + hop, wr, wi)
      joinTwo(at + 16, at + hop + 16, wr, wi)
    }
  }
}

// @ts-ignore: a word of the compiler
@inline
function joinTwo(a: i32, b: i32, wr: v128, wi: v128): void {
  const pr = v128.load(b)
  const pi = v128.load(b, 32)
  const xr = f32x4.add(f32x4.mul(pr, wr), f32x4.mul(pi, wi))
  const xi = f32x4.sub(f32x4.mul(pi, wr), f32x4.mul(pr, wi))
  const ar = v128.load(a)
  const ai = v128.load(a, 32)
  v128.store(a, f32x4.add(ar, xr))
  v128.store(a, f32x4.add(ai, xi), 32)
  v128.store(b, f32x4.sub(ar, xr))
  v128.store(b, f32x4.sub(ai, xi), 32)
}

/** One pass along a row, 32 columns or more; returns where the next pass's turns stand. */
function rowForward(row: i32, span: i32, table: i32): i32 {
  const hop = 2 * span
  const end = row + 8 * wide
  for (let j = 0; j < hop; j += GROUP_BYTES) {
    const w1r = v128.load(table)
    const w1i = v128.load(table, 16)
    const w2r = v128.load(table, 32)
    const w2i = v128.load(table, 48)
    const w3r = v128.load(table, 64)
    const w3i = v128.load(table, 80)
    for (let at = row + j; at < end; at += 8 * span) {
      quarter(at, hop, w1r, w1i, w2r, w2i, w3r, w3i)
    }
    const v1r = v128.load(table, 96)
    const v1i = v128.load(table, 112)
    const v2r = v128.load(table, 128)
    const v2i = v128.load(table, 144)
    const v3r = v128.load(table, 160)
    const v3i = v128.load(table, 176)
    for (let at = row + j + 16; at < end; at += 8 * span) {
      quarter(at, hop, v1r, v1i, v2r, v2i, v3r, v3i)
    }
    table += 192
  }
  return table
}

function rowBackward(row: i32, span: i32, table: i32): void {
  const hop = 2 * span
  const end = row + 8 * wide
  for (let j = 0; j < hop; j += GROUP_BYTES) {
    const w1r = v128.load(table)
    const w1i = v128.load(table, 16)
    const w2r = v128.load(table, 32)
    const w2i = v128.load(table, 48)
    const w3r = v128.load(table, 64)
    const w3i = v128.load(table, 80)
    for (let at = row + j; at < end; at += 8 * span) {
      join(at, hop, w1r, w1i, w2r, w2i, w3r, w3i)
    }
    const v1r = v128.load(table, 96)
    const v1i = v128.load(table, 112)
    const v2r = v128.load(table, 128)
    const v2i = v128.load(table, 144)
    const v3r = v128.load(table, 160)
    const v3i = v128.load(table, 176)
    for (let at = row + j + 16; at < end; at += 8 * span) {
      join(at, hop, v1r, v1i, v2r, v2i, v3r, v3i)
    }
    table += 192
  }
}

/** The passes over 16 and 4 columns, the product, and both passes back, in registers. */
function throughEven(row: i32, table: i32, weights: i32): void {
  const end = row + 8 * wide
  const w1r = v128.load(table)
  const w1i = v128.load(table, 16)
  const w2r = v128.load(table, 32)
  const w2i = v128.load(table, 48)
  const w3r = v128.load(table, 64)
  const w3i = v128.load(table, 80)
  for (let at = row; at < end; at += 2 * GROUP_BYTES) {
    const ar = v128.load(at)
    const ai = v128.load(at, 32)
    const br = v128.load(at, 16)
    const bi = v128.load(at, 48)
    const cr = v128.load(at, 64)
    const ci = v128.load(at, 96)
    const dr = v128.load(at, 80)
    const di = v128.load(at, 112)
    const t0r = f32x4.add(ar, cr)
    const t0i = f32x4.add(ai, ci)
    const t1r = f32x4.sub(ar, cr)
    const t1i = f32x4.sub(ai, ci)
    const t2r = f32x4.add(br, dr)
    const t2i = f32x4.add(bi, di)
    const t3r = f32x4.sub(br, dr)
    const t3i = f32x4.sub(bi, di)
    const xr = f32x4.add(t1r, t3i)
    const xi = f32x4.sub(t1i, t3r)
    const yr = f32x4.sub(t0r, t2r)
    const yi = f32x4.sub(t0i, t2i)
    const zr = f32x4.sub(t1r, t3i)
    const zi = f32x4.add(t1i, t3r)
    throughFour(
      at,
      weights,
      f32x4.add(t0r, t2r),
      f32x4.add(t0i, t2i),
      f32x4.sub(f32x4.mul(xr, w1r), f32x4.mul(xi, w1i)),
      f32x4.add(f32x4.mul(xr, w1i), f32x4.mul(xi, w1r)),
      f32x4.sub(f32x4.mul(yr, w2r), f32x4.mul(yi, w2i)),
      f32x4.add(f32x4.mul(yr, w2i), f32x4.mul(yi, w2r)),
      f32x4.sub(f32x4.mul(zr, w3r), f32x4.mul(zi, w3i)),
      f32x4.add(f32x4.mul(zr, w3i), f32x4.mul(zi, w3r)),
    )
    weights += 64
    const ur = v128.load(at)
    const ui = v128.load(at, 32)
    const pr = v128.load(at, 16)
    const pi = v128.load(at, 48)
    const qr = v128.load(at, 64)
    const qi = v128.load(at, 96)
    const sr = v128.load(at, 80)
    const si = v128.load(at, 112)
    const er = f32x4.add(f32x4.mul(pr, w1r), f32x4.mul(pi, w1i))
    const ei = f32x4.sub(f32x4.mul(pi, w1r), f32x4.mul(pr, w1i))
    const fr = f32x4.add(f32x4.mul(qr, w2r), f32x4.mul(qi, w2i))
    const fi = f32x4.sub(f32x4.mul(qi, w2r), f32x4.mul(qr, w2i))
    const gr = f32x4.add(f32x4.mul(sr, w3r), f32x4.mul(si, w3i))
    const gi = f32x4.sub(f32x4.mul(si, w3r), f32x4.mul(sr, w3i))
    const v0r = f32x4.add(ur, fr)
    const v0i = f32x4.add(ui, fi)
    const v1r = f32x4.sub(ur, fr)
    const v1i = f32x4.sub(ui, fi)
    const v2r = f32x4.add(er, gr)
    const v2i = f32x4.add(ei, gi)
    const v3r = f32x4.sub(er, gr)
    const v3i = f32x4.sub(ei, gi)
    v128.store(at, f32x4.add(v0r, v2r))
    v128.store(at, f32x4.add(v0i, v2i), 32)
    v128.store(at, f32x4.sub(v1r, v3i), 16)
    v128.store(at, f32x4.add(v1i, v3r), 48)
    v128.store(at, f32x4.sub(v0r, v2r), 64)
    v128.store(at, f32x4.sub(v0i, v2i), 96)
    v128.store(at, f32x4.add(v1r, v3i), 80)
    v128.store(at, f32x4.sub(v1i, v3r), 112)
  }
}

/** The same for widths that are no power of 4: passes over 8 and 4 columns. */
function throughOdd(row: i32, table: i32, weights: i32): void {
  const end = row + 8 * wide
  const wr = v128.load(table)
  const wi = v128.load(table, 16)
  for (let at = row; at < end; at += 2 * GROUP_BYTES) {
    const ar = v128.load(at)
    const ai = v128.load(at, 32)
    const br = v128.load(at, 16)
    const bi = v128.load(at, 48)
    const cr = v128.load(at, 64)
    const ci = v128.load(at, 96)
    const dr = v128.load(at, 80)
    const di = v128.load(at, 112)
    const xr = f32x4.sub(ar, br)
    const xi = f32x4.sub(ai, bi)
    const yr = f32x4.sub(cr, dr)
    const yi = f32x4.sub(ci, di)
    throughFour(
      at,
      weights,
      f32x4.add(ar, br),
      f32x4.add(ai, bi),
      f32x4.sub(f32x4.mul(xr, wr), f32x4.mul(xi, wi)),
      f32x4.add(f32x4.mul(xr, wi), f32x4.mul(xi, wr)),
      f32x4.add(cr, dr),
      f32x4.add(ci, di),
      f32x4.sub(f32x4.mul(yr, wr), f32x4.mul(yi, wi)),
      f32x4.add(f32x4.mul(yr, wi), f32x4.mul(yi, wr)),
    )
    weights += 64
    joinTwo(at, at + 16, wr, wi)
    joinTwo(at + GROUP_BYTES, at + GROUP_BYTES + 16, wr, wi)
  }
}

/** Four neighbours each in four vectors: the last pass forward, the product, the first one back. */
// @ts-ignore: a word of the compiler
@inline
function throughFour(
  to: i32,
  weights: i32,
  r0: v128,
  i0: v128,
  r1: v128,
  i1: v128,
  r2: v128,
  i2: v128,
  r3: v128,
  i3: v128,
): void {
  let l0 = i32x4.shuffle(r0, r1, 0, 4, 1, 5)
  let l1 = i32x4.shuffle(r2, r3, 0, 4, 1, 5)
  let h0 = i32x4.shuffle(r0, r1, 2, 6, 3, 7)
  let h1 = i32x4.shuffle(r2, r3, 2, 6, 3, 7)
  const ar = i64x2.shuffle(l0, l1, 0, 2)
  const br = i64x2.shuffle(l0, l1, 1, 3)
  const cr = i64x2.shuffle(h0, h1, 0, 2)
  const dr = i64x2.shuffle(h0, h1, 1, 3)
  l0 = i32x4.shuffle(i0, i1, 0, 4, 1, 5)
  l1 = i32x4.shuffle(i2, i3, 0, 4, 1, 5)
  h0 = i32x4.shuffle(i0, i1, 2, 6, 3, 7)
  h1 = i32x4.shuffle(i2, i3, 2, 6, 3, 7)
  const ai = i64x2.shuffle(l0, l1, 0, 2)
  const bi = i64x2.shuffle(l0, l1, 1, 3)
  const ci = i64x2.shuffle(h0, h1, 0, 2)
  const di = i64x2.shuffle(h0, h1, 1, 3)
  let t0r = f32x4.add(ar, cr)
  let t0i = f32x4.add(ai, ci)
  let t1r = f32x4.sub(ar, cr)
  let t1i = f32x4.sub(ai, ci)
  let t2r = f32x4.add(br, dr)
  let t2i = f32x4.add(bi, di)
  let t3r = f32x4.sub(br, dr)
  let t3i = f32x4.sub(bi, di)
  const f0 = v128.load(weights)
  const f1 = v128.load(weights, 16)
  const f2 = v128.load(weights, 32)
  const f3 = v128.load(weights, 48)
  const er = f32x4.mul(f32x4.add(t0r, t2r), f0)
  const ei = f32x4.mul(f32x4.add(t0i, t2i), f0)
  const fr = f32x4.mul(f32x4.add(t1r, t3i), f1)
  const fi = f32x4.mul(f32x4.sub(t1i, t3r), f1)
  const gr = f32x4.mul(f32x4.sub(t0r, t2r), f2)
  const gi = f32x4.mul(f32x4.sub(t0i, t2i), f2)
  const hr = f32x4.mul(f32x4.sub(t1r, t3i), f3)
  const hi = f32x4.mul(f32x4.add(t1i, t3r), f3)
  t0r = f32x4.add(er, gr)
  t0i = f32x4.add(ei, gi)
  t1r = f32x4.sub(er, gr)
  t1i = f32x4.sub(ei, gi)
  t2r = f32x4.add(fr, hr)
  t2i = f32x4.add(fi, hi)
  t3r = f32x4.sub(fr, hr)
  t3i = f32x4.sub(fi, hi)
  const o0 = f32x4.add(t0r, t2r)
  const o1 = f32x4.sub(t1r, t3i)
  const o2 = f32x4.sub(t0r, t2r)
  const o3 = f32x4.add(t1r, t3i)
  l0 = i32x4.shuffle(o0, o1, 0, 4, 1, 5)
  l1 = i32x4.shuffle(o2, o3, 0, 4, 1, 5)
  h0 = i32x4.shuffle(o0, o1, 2, 6, 3, 7)
  h1 = i32x4.shuffle(o2, o3, 2, 6, 3, 7)
  v128.store(to, i64x2.shuffle(l0, l1, 0, 2))
  v128.store(to, i64x2.shuffle(l0, l1, 1, 3), 16)
  v128.store(to, i64x2.shuffle(h0, h1, 0, 2), 64)
  v128.store(to, i64x2.shuffle(h0, h1, 1, 3), 80)
  const p0 = f32x4.add(t0i, t2i)
  const p1 = f32x4.add(t1i, t3r)
  const p2 = f32x4.sub(t0i, t2i)
  const p3 = f32x4.sub(t1i, t3r)
  l0 = i32x4.shuffle(p0, p1, 0, 4, 1, 5)
  l1 = i32x4.shuffle(p2, p3, 0, 4, 1, 5)
  h0 = i32x4.shuffle(p0, p1, 2, 6, 3, 7)
  h1 = i32x4.shuffle(p2, p3, 2, 6, 3, 7)
  v128.store(to, i64x2.shuffle(l0, l1, 0, 2), 32)
  v128.store(to, i64x2.shuffle(l0, l1, 1, 3), 48)
  v128.store(to, i64x2.shuffle(h0, h1, 0, 2), 96)
  v128.store(to, i64x2.shuffle(h0, h1, 1, 3), 112)
}

/** Passes back down eight columns, and the wanted rows as codes of both tiles. */
function columnsBackward(
  column: i32,
  rows: i32,
  left: i32,
  countLeft: i32,
  right: i32,
  countRight: i32,
): void {
  const end = column + high * rowBytes
  for (let at = column; at < end; at += 4 * rowBytes) {
    joinFour(at, rowBytes)
    joinFour(at + 16, rowBytes)
  }
  let span = 16
  if (31 - clz(high) & 1) {
    joinColumnPairs(column)
    span = 32
  }
  for (; span <= high; span <<= 2) {
    const part = span >> 2
    const hop = part * rowBytes
    const whole = span * rowBytes
    const turn = 4 * (high / span)
    for (let at = column; at < end; at += whole) {
      joinFour(at, hop)
      joinFour(at + 16, hop)
    }
    for (let j = 1; j < part; j++) {
      const step = j * turn
      const c = turns + step
      const s = c + 4 * high
      const w1r = v128.load32_splat(c)
      const w1i = v128.load32_splat(s)
      const w2r = v128.load32_splat(c + step)
      const w2i = v128.load32_splat(s + step)
      const w3r = v128.load32_splat(c + 2 * step)
      const w3i = v128.load32_splat(s + 2 * step)
      for (let at = column + j * rowBytes; at < end; at += whole) {
        join(at, hop, w1r, w1i, w2r, w2i, w3r, w3i)
        join(at + 16, hop, w1r, w1i, w2r, w2i, w3r, w3i)
      }
    }
  }
  let from = column + margin * rowBytes
  let to = codes + 2 * left
  let other = codes + 2 * right
  for (let row = 0; row < rows; row++) {
    keep(to, countLeft, codesOf(v128.load(from)), codesOf(v128.load(from, 16)))
    if (countRight > 0) {
      keep(other, countRight, codesOf(v128.load(from, 32)), codesOf(v128.load(from, 48)))
    }
    from += rowBytes
    to += 2 * widthPx
    other += 2 * widthPx
  }
}

// @ts-ignore: a word of the compiler
@inline
function keep(to: i32, count: i32, low: v128, rest: v128): void {
  const eight = i16x8.narrow_i32x4_u(low, rest)
  if (count == GROUP) v128.store(to, eight)
  else keepSome(to, count, eight)
}

function keepSome(to: i32, count: i32, eight: v128): void {
  let rest = eight
  for (let at = 0; at < count; at++) {
    store<u16>(to + 2 * at, i16x8.extract_lane_u(rest, 0))
    rest = i8x16.shuffle(rest, rest, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 0, 1)
  }
}

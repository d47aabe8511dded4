// The leak map's strips for the kernel compiler: a subset of TypeScript with machine types. What it
// computes is src/raster/plainTiles.ts, operation by operation, two lanes of 64 bits at a time, so
// that both give the same bits.
//
// Memory, every address in bytes: cosines and sines; the filter, two columns side by side; a line
// of two rows or columns side by side, real and imaginary parts in turn; the square of one pair of
// tiles, column by column, real plane and imaginary plane; the window; codes of leak and film.

/** What a leak code is shifted by: src/raster/leakCode.ts. */
const OFFSET: i32 = 456353

let side: i32 = 0
let margin: i32 = 0
let widthPx: i32 = 0
let stride: i32 = 0
let turns: i32 = 0
let filter: i32 = 0
let line: i32 = 0
let square: i32 = 0
let values: i32 = 0
let codes: i32 = 0
let filmCodes: i32 = 0
/** From a column to the next, and from its real plane to the imaginary one. */
let columnBytes: i32 = 0
let planeBytes: i32 = 0

/** Lays out the memory for windows of this size and makes room; returns where the cosines stand. */
export function layOut(newSide: i32, newMargin: i32, newWidthPx: i32): i32 {
  side = newSide
  margin = newMargin
  widthPx = newWidthPx
  const inner = side - 2 * margin
  stride = ((widthPx + inner - 1) / inner) * inner + 2 * margin
  columnBytes = 8 * (side + 2) // two more, against conflicts in the cache
  planeBytes = columnBytes * side
  turns = <i32>__heap_base + 15 & ~15
  filter = turns + 16 * side
  line = filter + 8 * side * side
  square = line + 32 * side
  values = square + 2 * planeBytes
  codes = values + 4 * stride * side
  filmCodes = codes + 2 * inner * widthPx + 15 & ~15
  const end = filmCodes + 2 * inner * widthPx + 16
  const pages = (end + 65535 >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
  return turns
}

export function filterAt(): i32 {
  return filter
}

export function valuesAt(): i32 {
  return values
}

export function codesAt(): i32 {
  return codes
}

export function filmCodesAt(): i32 {
  return filmCodes
}

/** The window's first `rows` rows inside its margin, as codes. */
export function strip(rows: i32): void {
  const inner = side - 2 * margin
  let waiting = -1
  for (let left = 0; left < widthPx; left += inner) {
    if (isFlat(left)) {
      fill(left, min(inner, widthPx - left), rows)
    } else if (waiting < 0) {
      waiting = left
    } else {
      pair(waiting, left, rows)
      waiting = -1
    }
  }
  if (waiting >= 0) pair(waiting, waiting, rows)
  for (let row = 0; row < rows; row++) {
    codesOfRow(values + 4 * ((row + margin) * stride + margin), filmCodes + 2 * row * widthPx)
  }
}

/** Whether all of a tile's window is one value. */
function isFlat(left: i32): bool {
  const first = v128.load32_splat(values + 4 * left)
  for (let row = 0; row < side; row++) {
    const start = values + 4 * (row * stride + left)
    const end = start + 4 * side
    for (let at = start; at < end; at += 16) {
      if (v128.any_true(f32x4.ne(v128.load(at), first))) return false
    }
  }
  return true
}

function fill(left: i32, count: i32, rows: i32): void {
  const code = codeOf(load<f32>(values + 4 * left))
  for (let row = 0; row < rows; row++) {
    const start = codes + 2 * (row * widthPx + left)
    for (let at = start; at < start + 2 * count; at += 2) store<u16>(at, code)
  }
}

function codeOf(value: f32): i32 {
  const bits = value > 0 ? reinterpret<i32>(value) : 0
  return max(0, min(65535, (bits + 1024 >>> 11) - OFFSET))
}

/** Codes of four values, saturated when they are narrowed. */
function codesOf(floats: v128): v128 {
  return i32x4.sub(i32x4.shr_u(i32x4.add(floats, i32x4.splat(1024)), 11), i32x4.splat(OFFSET))
}

function codesOfRow(from: i32, to: i32): void {
  let x = 0
  for (; x + 8 <= widthPx; x += 8) {
    const low = codesOf(v128.load(from + 4 * x))
    const high = codesOf(v128.load(from + 4 * x, 16))
    v128.store(to + 2 * x, i16x8.narrow_i32x4_u(low, high))
  }
  for (; x < widthPx; x++) store<u16>(to + 2 * x, codeOf(load<f32>(from + 4 * x)))
}

/** Two tiles as real and imaginary part of one transform, through the filter, and back to codes. */
function pair(left: i32, right: i32, rows: i32): void {
  for (let y = 0; y < side; y += 2) {
    rowsToLine(values + 4 * (y * stride + left), values + 4 * (y * stride + right))
    forward()
    lineToColumns(square + 8 * y)
  }
  for (let x = 0; x < side; x += 2) {
    columnsToLine(square + x * columnBytes)
    forward()
    throughFilter(filter + 8 * x * side)
    backward()
    lineBack(square + x * columnBytes, rows)
  }
  const inner = side - 2 * margin
  const countLeft = min(inner, widthPx - left)
  const countRight = min(inner, widthPx - right)
  for (let y = 0; y < rows; y += 2) {
    rowsFromColumns(square + 8 * (y + margin))
    backward()
    const both = y + 1 < rows
    const row = codes + 2 * y * widthPx
    lineToCodes(line + 32 * margin, row + 2 * left, countLeft, both)
    if (left != right) lineToCodes(line + 32 * margin + 16, row + 2 * right, countRight, both)
  }
}

/** Rows y and y + 1 of both tiles, side by side. */
function rowsToLine(left: i32, right: i32): void {
  const down = 4 * stride
  for (let x = 0; x < side; x += 2) {
    const at = 4 * x
    const a = f64x2.promote_low_f32x4(v128.load64_zero(left + at))
    const b = f64x2.promote_low_f32x4(v128.load64_zero(left + down + at))
    const c = f64x2.promote_low_f32x4(v128.load64_zero(right + at))
    const d = f64x2.promote_low_f32x4(v128.load64_zero(right + down + at))
    const to = line + 32 * x
    v128.store(to, i64x2.shuffle(a, b, 0, 2))
    v128.store(to, i64x2.shuffle(c, d, 0, 2), 16)
    v128.store(to, i64x2.shuffle(a, b, 1, 3), 32)
    v128.store(to, i64x2.shuffle(c, d, 1, 3), 48)
  }
}

/** The last radix-4 pass of two rows, into two places of every column. */
function lineToColumns(place: i32): void {
  for (let x = 0; x < side; x += 4) {
    const a = line + 32 * x
    const ar = v128.load(a)
    const ai = v128.load(a, 16)
    const br = v128.load(a, 32)
    const bi = v128.load(a, 48)
    const cr = v128.load(a, 64)
    const ci = v128.load(a, 80)
    const dr = v128.load(a, 96)
    const di = v128.load(a, 112)
    const t0r = f64x2.add(ar, cr)
    const t0i = f64x2.add(ai, ci)
    const t1r = f64x2.sub(ar, cr)
    const t1i = f64x2.sub(ai, ci)
    const t2r = f64x2.add(br, dr)
    const t2i = f64x2.add(bi, di)
    const t3r = f64x2.sub(br, dr)
    const t3i = f64x2.sub(bi, di)
    let re = place + x * columnBytes
    let im = re + planeBytes
    v128.store(re, f64x2.add(t0r, t2r))
    v128.store(im, f64x2.add(t0i, t2i))
    re += columnBytes
    im += columnBytes
    v128.store(re, f64x2.add(t1r, t3i))
    v128.store(im, f64x2.sub(t1i, t3r))
    re += columnBytes
    im += columnBytes
    v128.store(re, f64x2.sub(t0r, t2r))
    v128.store(im, f64x2.sub(t0i, t2i))
    re += columnBytes
    im += columnBytes
    v128.store(re, f64x2.sub(t1r, t3i))
    v128.store(im, f64x2.add(t1i, t3r))
  }
}

/** Two columns, side by side. */
function columnsToLine(re: i32): void {
  const im = re + planeBytes
  for (let y = 0; y < side; y += 2) {
    const at = 8 * y
    const a = v128.load(re + at)
    const b = v128.load(re + columnBytes + at)
    const c = v128.load(im + at)
    const d = v128.load(im + columnBytes + at)
    const to = line + 32 * y
    v128.store(to, i64x2.shuffle(a, b, 0, 2))
    v128.store(to, i64x2.shuffle(c, d, 0, 2), 16)
    v128.store(to, i64x2.shuffle(a, b, 1, 3), 32)
    v128.store(to, i64x2.shuffle(c, d, 1, 3), 48)
  }
}

/** The wanted places of two columns, put back. */
function lineBack(re: i32, rows: i32): void {
  const im = re + planeBytes
  for (let y = margin & ~1; y < margin + rows; y += 2) {
    const at = 8 * y
    const from = line + 32 * y
    const a = v128.load(from)
    const c = v128.load(from, 16)
    const b = v128.load(from, 32)
    const d = v128.load(from, 48)
    v128.store(re + at, i64x2.shuffle(a, b, 0, 2))
    v128.store(re + columnBytes + at, i64x2.shuffle(a, b, 1, 3))
    v128.store(im + at, i64x2.shuffle(c, d, 0, 2))
    v128.store(im + columnBytes + at, i64x2.shuffle(c, d, 1, 3))
  }
}

/** The first radix-4 pass back of two rows, from two places of every column. */
function rowsFromColumns(place: i32): void {
  for (let x = 0; x < side; x += 4) {
    let re = place + x * columnBytes
    let im = re + planeBytes
    const ar = v128.load(re)
    const ai = v128.load(im)
    re += columnBytes
    im += columnBytes
    const br = v128.load(re)
    const bi = v128.load(im)
    re += columnBytes
    im += columnBytes
    const cr = v128.load(re)
    const ci = v128.load(im)
    re += columnBytes
    im += columnBytes
    const dr = v128.load(re)
    const di = v128.load(im)
    joinFour(line + 32 * x, ar, ai, br, bi, cr, ci, dr, di)
  }
}

/** The last radix-4 pass down two columns, the product, and the first pass back. */
function throughFilter(weights: i32): void {
  for (let y = 0; y < side; y += 4) {
    const a = line + 32 * y
    const w = weights + 16 * y
    const fa = v128.load(w)
    const fb = v128.load(w, 16)
    const fc = v128.load(w, 32)
    const fd = v128.load(w, 48)
    const ar = v128.load(a)
    const ai = v128.load(a, 16)
    const br = v128.load(a, 32)
    const bi = v128.load(a, 48)
    const cr = v128.load(a, 64)
    const ci = v128.load(a, 80)
    const dr = v128.load(a, 96)
    const di = v128.load(a, 112)
    const t0r = f64x2.add(ar, cr)
    const t0i = f64x2.add(ai, ci)
    const t1r = f64x2.sub(ar, cr)
    const t1i = f64x2.sub(ai, ci)
    const t2r = f64x2.add(br, dr)
    const t2i = f64x2.add(bi, di)
    const t3r = f64x2.sub(br, dr)
    const t3i = f64x2.sub(bi, di)
    joinFour(
      a,
      f64x2.mul(f64x2.add(t0r, t2r), fa),
      f64x2.mul(f64x2.add(t0i, t2i), fa),
      f64x2.mul(f64x2.add(t1r, t3i), fb),
      f64x2.mul(f64x2.sub(t1i, t3r), fb),
      f64x2.mul(f64x2.sub(t0r, t2r), fc),
      f64x2.mul(f64x2.sub(t0i, t2i), fc),
      f64x2.mul(f64x2.sub(t1r, t3i), fd),
      f64x2.mul(f64x2.add(t1i, t3r), fd),
    )
  }
}

/** A radix-4 pass back over four neighbours, which need no turning. */
function joinFour(
  to: i32,
  ar: v128,
  ai: v128,
  br: v128,
  bi: v128,
  cr: v128,
  ci: v128,
  dr: v128,
  di: v128,
): void {
  const t0r = f64x2.add(ar, cr)
  const t0i = f64x2.add(ai, ci)
  const t1r = f64x2.sub(ar, cr)
  const t1i = f64x2.sub(ai, ci)
  const t2r = f64x2.add(br, dr)
  const t2i = f64x2.add(bi, di)
  const t3r = f64x2.sub(br, dr)
  const t3i = f64x2.sub(bi, di)
  v128.store(to, f64x2.add(t0r, t2r))
  v128.store(to, f64x2.add(t0i, t2i), 16)
  v128.store(to, f64x2.sub(t1r, t3i), 32)
  v128.store(to, f64x2.add(t1i, t3r), 48)
  v128.store(to, f64x2.sub(t0r, t2r), 64)
  v128.store(to, f64x2.sub(t0i, t2i), 80)
  v128.store(to, f64x2.add(t1r, t3i), 96)
  v128.store(to, f64x2.sub(t1i, t3r), 112)
}

/** All passes along the line but the last. */
function forward(): void {
  for (let span = side; span > 4; span = span == 8 ? 4 : span >> 2) {
    if (span == 8) halve()
    else quarter(span)
  }
}

/** All passes back along the line but the first. */
function backward(): void {
  let span = 16
  if (31 - clz(side) & 1) {
    joinPairs()
    span = 32
  }
  for (; span <= side; span <<= 2) join(span)
}

function quarter(span: i32): void {
  const part = span >> 2
  const hop = 32 * part
  for (let j = 0; j < part; j++) {
    const step = 8 * j * (side / span)
    const c = turns + step
    const s = c + 8 * side
    const w1r = v128.load64_splat(c)
    const w1i = v128.load64_splat(s)
    const w2r = v128.load64_splat(c + step)
    const w2i = v128.load64_splat(s + step)
    const w3r = v128.load64_splat(c + 2 * step)
    const w3i = v128.load64_splat(s + 2 * step)
    for (let at = j; at < side; at += span) {
      let a = line + 32 * at
      const ar = v128.load(a)
      const ai = v128.load(a, 16)
      a += hop
      const br = v128.load(a)
      const bi = v128.load(a, 16)
      a += hop
      const cr = v128.load(a)
      const ci = v128.load(a, 16)
      a += hop
      const dr = v128.load(a)
      const di = v128.load(a, 16)
      const t0r = f64x2.add(ar, cr)
      const t0i = f64x2.add(ai, ci)
      const t1r = f64x2.sub(ar, cr)
      const t1i = f64x2.sub(ai, ci)
      const t2r = f64x2.add(br, dr)
      const t2i = f64x2.add(bi, di)
      const t3r = f64x2.sub(br, dr)
      const t3i = f64x2.sub(bi, di)
      const zr = f64x2.sub(t1r, t3i)
      const zi = f64x2.add(t1i, t3r)
      v128.store(a, f64x2.sub(f64x2.mul(zr, w3r), f64x2.mul(zi, w3i)))
      v128.store(a, f64x2.add(f64x2.mul(zr, w3i), f64x2.mul(zi, w3r)), 16)
      a -= hop
      const yr = f64x2.sub(t0r, t2r)
      const yi = f64x2.sub(t0i, t2i)
      v128.store(a, f64x2.sub(f64x2.mul(yr, w2r), f64x2.mul(yi, w2i)))
      v128.store(a, f64x2.add(f64x2.mul(yr, w2i), f64x2.mul(yi, w2r)), 16)
      a -= hop
      const xr = f64x2.add(t1r, t3i)
      const xi = f64x2.sub(t1i, t3r)
      v128.store(a, f64x2.sub(f64x2.mul(xr, w1r), f64x2.mul(xi, w1i)))
      v128.store(a, f64x2.add(f64x2.mul(xr, w1i), f64x2.mul(xi, w1r)), 16)
      a -= hop
      v128.store(a, f64x2.add(t0r, t2r))
      v128.store(a, f64x2.add(t0i, t2i), 16)
    }
  }
}

function join(span: i32): void {
  const part = span >> 2
  const hop = 32 * part
  for (let j = 0; j < part; j++) {
    const step = 8 * j * (side / span)
    const c = turns + step
    const s = c + 8 * side
    const w1r = v128.load64_splat(c)
    const w1i = f64x2.neg(v128.load64_splat(s))
    const w2r = v128.load64_splat(c + step)
    const w2i = f64x2.neg(v128.load64_splat(s + step))
    const w3r = v128.load64_splat(c + 2 * step)
    const w3i = f64x2.neg(v128.load64_splat(s + 2 * step))
    for (let at = j; at < side; at += span) {
      let a = line + 32 * at
      const ar = v128.load(a)
      const ai = v128.load(a, 16)
      a += hop
      const pr = v128.load(a)
      const pi = v128.load(a, 16)
      a += hop
      const qr = v128.load(a)
      const qi = v128.load(a, 16)
      a += hop
      const sr = v128.load(a)
      const si = v128.load(a, 16)
      const br = f64x2.sub(f64x2.mul(pr, w1r), f64x2.mul(pi, w1i))
      const bi = f64x2.add(f64x2.mul(pr, w1i), f64x2.mul(pi, w1r))
      const cr = f64x2.sub(f64x2.mul(qr, w2r), f64x2.mul(qi, w2i))
      const ci = f64x2.add(f64x2.mul(qr, w2i), f64x2.mul(qi, w2r))
      const dr = f64x2.sub(f64x2.mul(sr, w3r), f64x2.mul(si, w3i))
      const di = f64x2.add(f64x2.mul(sr, w3i), f64x2.mul(si, w3r))
      const t0r = f64x2.add(ar, cr)
      const t0i = f64x2.add(ai, ci)
      const t1r = f64x2.sub(ar, cr)
      const t1i = f64x2.sub(ai, ci)
      const t2r = f64x2.add(br, dr)
      const t2i = f64x2.add(bi, di)
      const t3r = f64x2.sub(br, dr)
      const t3i = f64x2.sub(bi, di)
      v128.store(a, f64x2.add(t1r, t3i))
      v128.store(a, f64x2.sub(t1i, t3r), 16)
      a -= hop
      v128.store(a, f64x2.sub(t0r, t2r))
      v128.store(a, f64x2.sub(t0i, t2i), 16)
      a -= hop
      v128.store(a, f64x2.sub(t1r, t3i))
      v128.store(a, f64x2.add(t1i, t3r), 16)
      a -= hop
      v128.store(a, f64x2.add(t0r, t2r))
      v128.store(a, f64x2.add(t0i, t2i), 16)
    }
  }
}

/** One radix-2 pass over spans of 8, for sides that are no power of 4. */
function halve(): void {
  for (let j = 0; j < 4; j++) {
    const c = turns + side * j
    const wr = v128.load64_splat(c)
    const wi = v128.load64_splat(c + 8 * side)
    for (let at = j; at < side; at += 8) {
      const a = line + 32 * at
      const ar = v128.load(a)
      const ai = v128.load(a, 16)
      const br = v128.load(a, 128)
      const bi = v128.load(a, 144)
      const xr = f64x2.sub(ar, br)
      const xi = f64x2.sub(ai, bi)
      v128.store(a, f64x2.add(ar, br))
      v128.store(a, f64x2.add(ai, bi), 16)
      v128.store(a, f64x2.sub(f64x2.mul(xr, wr), f64x2.mul(xi, wi)), 128)
      v128.store(a, f64x2.add(f64x2.mul(xr, wi), f64x2.mul(xi, wr)), 144)
    }
  }
}

function joinPairs(): void {
  for (let j = 0; j < 4; j++) {
    const c = turns + side * j
    const wr = v128.load64_splat(c)
    const wi = f64x2.neg(v128.load64_splat(c + 8 * side))
    for (let at = j; at < side; at += 8) {
      const a = line + 32 * at
      const ar = v128.load(a)
      const ai = v128.load(a, 16)
      const br = v128.load(a, 128)
      const bi = v128.load(a, 144)
      const xr = f64x2.sub(f64x2.mul(br, wr), f64x2.mul(bi, wi))
      const xi = f64x2.add(f64x2.mul(br, wi), f64x2.mul(bi, wr))
      v128.store(a, f64x2.add(ar, xr))
      v128.store(a, f64x2.add(ai, xi), 16)
      v128.store(a, f64x2.sub(ar, xr), 128)
      v128.store(a, f64x2.sub(ai, xi), 144)
    }
  }
}

/** One part of the line's two rows as codes; what came out below 0 is 0. */
function lineToCodes(from: i32, to: i32, count: i32, both: bool): void {
  const zero = f32x4.splat(0)
  const next = to + 2 * widthPx
  let x = 0
  for (; x + 4 <= count; x += 4) {
    const at = from + 32 * x
    const a = f32x4.demote_f64x2_zero(v128.load(at))
    const b = f32x4.demote_f64x2_zero(v128.load(at, 32))
    const c = f32x4.demote_f64x2_zero(v128.load(at, 64))
    const d = f32x4.demote_f64x2_zero(v128.load(at, 96))
    const ab = i32x4.shuffle(a, b, 0, 4, 1, 5)
    const cd = i32x4.shuffle(c, d, 0, 4, 1, 5)
    const upper = i64x2.shuffle(ab, cd, 0, 2)
    const lower = i64x2.shuffle(ab, cd, 1, 3)
    const four = i16x8.narrow_i32x4_u(
      codesOf(v128.and(upper, f32x4.gt(upper, zero))),
      codesOf(v128.and(lower, f32x4.gt(lower, zero))),
    )
    v128.store64_lane(to + 2 * x, four, 0)
    if (both) v128.store64_lane(next + 2 * x, four, 1)
  }
  for (; x < count; x++) {
    const at = from + 32 * x
    store<u16>(to + 2 * x, codeOf(<f32>load<f64>(at)))
    if (both) store<u16>(next + 2 * x, codeOf(<f32>load<f64>(at, 8)))
  }
}

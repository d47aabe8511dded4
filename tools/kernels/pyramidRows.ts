// A pyramid of tiles, row by row, for the kernel compiler. Holds one row of tiles a level, laid out
// row by row over the film's whole width: on level 0 the planes of leak code high and low and of the
// film's density, on each coarser one four planes of codes, the film's density and the share of
// marks, as src/raster/tiles.ts says. Beside a coarser level stand, for its last two rows or for
// all, what its bytes are too coarse to add up: how many mark pixels a cell has, and the film's mean
// transmission there.

const SIDE: i32 = 256
/** What a leak code is shifted by: src/raster/leakCode.ts. */
const OFFSET: i32 = 456353
const MOST_LEVELS: i32 = 32

let firstLevel: i32 = 0
let lastLevel: i32 = 0
let widthPx: i32 = 0
let markByte: i32 = 0
/** A pixel of these codes is clear film. */
let leakFrom: i32 = 0
let leakTo: i32 = 0
let filmFrom: i32 = 0
let filmTo: i32 = 0
let clearHigh: i32 = 0
let clearLow: i32 = 0
let clearDensity: i32 = 0

let densityOf: i32 = 0 // density byte of every code
let passOf: i32 = 0 // transmission of every density byte, f32
let counts: i32 = 0 // pixels of each leak code >> 4, u32
let rowCodes: i32 = 0 // a row of film pixels to come in
let rowFilm: i32 = 0
let tileOut: i32 = 0
let levels: i32 = 0 // a record a level, below
const RECORD: i32 = 32
const ACROSS: i32 = 0 // tiles
const PLANES: i32 = 4
const MARKS: i32 = 8
const PASSES: i32 = 12
const MADE: i32 = 16 // a byte a tile
const ROWS: i32 = 20 // rows that have come
const KEPT: i32 = 24 // rows of marks and transmissions less 1, as a mask: all on the last level, else two

function field(level: i32, which: i32): i32 {
  return load<i32>(levels + RECORD * level + which)
}

function setField(level: i32, which: i32, value: i32): void {
  store<i32>(levels + RECORD * level + which, value)
}

function widthOf(level: i32): i32 {
  return SIDE * field(level, ACROSS)
}

function planesOf(level: i32): i32 {
  return level == 0 ? 3 : 6
}

/** Where a row of a level's plane begins. */
function planeRow(level: i32, plane: i32, row: i32): i32 {
  return field(level, PLANES) + (plane * SIDE + row) * widthOf(level)
}

/**
 * Lays out the memory for levels first … last of a film and makes room; returns where the table of
 * density bytes is to be put, and behind it 256 transmissions.
 */
export function layOut(width: i32, first: i32, last: i32): i32 {
  widthPx = width
  firstLevel = first
  lastLevel = last
  densityOf = (<i32>__heap_base + 15) & ~15
  passOf = densityOf + 65536
  counts = passOf + 1024
  rowCodes = counts + 4 * 4096
  rowFilm = rowCodes + ((2 * width + 15) & ~15)
  tileOut = rowFilm + ((2 * width + 15) & ~15)
  levels = tileOut + 6 * SIDE * SIDE
  let end = levels + RECORD * MOST_LEVELS
  makeRoom(end)
  for (let level = first; level <= last; level++) {
    const across = ((width - 1) >> (8 + level)) + 1
    const cells = SIDE * SIDE * across
    const kept = level == first && first > 0 ? SIDE : level == last ? SIDE : 2
    setField(level, ACROSS, across)
    setField(level, KEPT, level == 0 ? 0 : kept - 1)
    setField(level, ROWS, 0)
    setField(level, PLANES, end)
    end += cells * planesOf(level)
    setField(level, MARKS, end)
    if (level > 0) end += 4 * SIDE * across * kept
    setField(level, PASSES, end)
    if (level > 0) end += 4 * SIDE * across * kept
    setField(level, MADE, end)
    end += (across + 15) & ~15
  }
  makeRoom(end)
  return densityOf
}

function makeRoom(end: i32): void {
  const pages = ((end + 65535) >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
}

/** What counts as a mark and what as clear; empties all levels. */
export function begin(
  mark: i32,
  codeFrom: i32,
  codeTo: i32,
  ownFrom: i32,
  ownTo: i32,
  clearCode: i32,
): void {
  markByte = mark
  leakFrom = codeFrom
  leakTo = codeTo
  filmFrom = ownFrom
  filmTo = ownTo
  clearHigh = clearCode >> 8
  clearLow = clearCode & 0xf0
  clearDensity = load<u8>(densityOf + clearCode)
  memory.fill(counts, 0, 4 * 4096)
  for (let level = firstLevel; level <= lastLevel; level++) clear(level)
}

export function countsAt(): i32 {
  return counts
}

export function rowCodesAt(): i32 {
  return rowCodes
}

export function rowFilmAt(): i32 {
  return rowFilm
}

/** Where four planes of codes, and where all marks and then all transmissions of a level stand. */
export function planesAt(level: i32): i32 {
  return field(level, PLANES)
}

export function marksAt(level: i32): i32 {
  return field(level, MARKS)
}

export function madeAt(level: i32): i32 {
  return field(level, MADE)
}

/** A level's row of tiles is handed over: the next begins, all clear. */
export function clear(level: i32): void {
  const plane = SIDE * widthOf(level)
  const at = field(level, PLANES)
  if (level == 0) {
    memory.fill(at, <u8>clearHigh, plane)
    memory.fill(at + plane, <u8>clearLow, plane)
    memory.fill(at + 2 * plane, <u8>clearDensity, plane)
  } else {
    memory.fill(at, <u8>clearHigh, 4 * plane)
    memory.fill(at + 4 * plane, <u8>clearDensity, plane)
    memory.fill(at + 5 * plane, 0, plane)
  }
  if (field(level, KEPT) > 1) {
    for (let x = 0; x < plane; x += SIDE / 2) {
      clearCells(field(level, MARKS) + 4 * x, field(level, PASSES) + 4 * x)
    }
  }
  memory.fill(field(level, MADE), 0, field(level, ACROSS))
  setField(level, ROWS, 0)
}

/** The row of film pixels that was put in is the next one of level 0. */
export function pixelRow(): void {
  const row = field(0, ROWS)
  const made = field(0, MADE)
  const width = widthOf(0)
  const high = planeRow(0, 0, row)
  for (let left = 0; left < widthPx; left += SIDE) {
    const count = min(SIDE, widthPx - left)
    const codes = rowCodes + 2 * left
    const film = rowFilm + 2 * left
    countCodes(codes, count)
    if (load<u8>(made + (left >> 8)) == 0) {
      if (isClear(codes, film, count)) continue
      store<u8>(made + (left >> 8), 1)
    }
    split(codes, film, high + left, count, SIDE * width)
  }
  setField(0, ROWS, row + 1)
  if (row & 1) foldInto(1, row)
}

function countCodes(codes: i32, count: i32): void {
  const first = v128.load16_splat(codes)
  let x = 0
  for (; x + 8 <= count; x += 8) {
    if (!i16x8.all_true(i16x8.eq(v128.load(codes + 2 * x), first))) break
  }
  if (x > 0) {
    const bin = counts + (((<i32>load<u16>(codes)) >> 4) << 2)
    store<i32>(bin, load<i32>(bin) + x)
  }
  for (; x < count; x++) {
    const bin = counts + (((<i32>load<u16>(codes + 2 * x)) >> 4) << 2)
    store<i32>(bin, load<i32>(bin) + 1)
  }
}

function isClear(codes: i32, film: i32, count: i32): bool {
  const leakLow = i16x8.splat(<i16>leakFrom)
  const leakHigh = i16x8.splat(<i16>leakTo)
  const filmLow = i16x8.splat(<i16>filmFrom)
  const filmHigh = i16x8.splat(<i16>filmTo)
  let x = 0
  for (; x + 8 <= count; x += 8) {
    const leak = v128.load(codes + 2 * x)
    const own = v128.load(film + 2 * x)
    const within = v128.and(
      v128.and(i16x8.ge_u(leak, leakLow), i16x8.le_u(leak, leakHigh)),
      v128.and(i16x8.ge_u(own, filmLow), i16x8.le_u(own, filmHigh)),
    )
    if (!i16x8.all_true(within)) return false
  }
  for (; x < count; x++) {
    const leak: i32 = load<u16>(codes + 2 * x)
    const own: i32 = load<u16>(film + 2 * x)
    if (leak < leakFrom || leak > leakTo || own < filmFrom || own > filmTo) return false
  }
  return true
}

/** Codes into their bytes, the film's codes into densities. */
function split(codes: i32, film: i32, to: i32, count: i32, plane: i32): void {
  const low = i16x8.splat(0xf0)
  let x = 0
  for (; x + 16 <= count; x += 16) {
    const a = v128.load(codes + 2 * x)
    const b = v128.load(codes + 2 * x, 16)
    const highs = i8x16.narrow_i16x8_u(i16x8.shr_u(a, 8), i16x8.shr_u(b, 8))
    const lows = i8x16.narrow_i16x8_u(v128.and(a, low), v128.and(b, low))
    v128.store(to + x, highs)
    v128.store(to + plane + x, lows)
  }
  for (; x < count; x++) {
    const code = <i32>load<u16>(codes + 2 * x)
    store<u8>(to + x, code >> 8)
    store<u8>(to + plane + x, code & 0xf0)
  }
  const density = to + 2 * plane
  for (x = 0; x < count; x++) store<u8>(density + x, load<u8>(densityOf + load<u16>(film + 2 * x)))
}

/** Row `lower` of the level below and the one above it, into the next row of this level. */
function foldInto(level: i32, lower: i32): void {
  if (level > lastLevel) return
  const row = field(level, ROWS)
  const kept = row & field(level, KEPT)
  const marks = field(level, MARKS) + 4 * kept * widthOf(level)
  const passes = field(level, PASSES) + 4 * kept * widthOf(level)
  const below = field(level - 1, MADE)
  const made = field(level, MADE)
  const tiles = field(level - 1, ACROSS)
  for (let tile = 0; tile < tiles; tile++) {
    const from = tile * (SIDE / 2)
    if (load<u8>(below + tile) == 0) {
      clearCells(marks + 4 * from, passes + 4 * from)
      continue
    }
    store<u8>(made + (tile >> 1), 1)
    if (level == 1) foldPixels(lower - 1, row, from, marks, passes)
    else foldCells(level, lower - 1, row, from, marks, passes)
    finish(level, row, from, marks, passes)
  }
  if (tiles & 1) clearCells(marks + 4 * tiles * (SIDE / 2), passes + 4 * tiles * (SIDE / 2))
  setField(level, ROWS, row + 1)
  if (row & 1) foldInto(level + 1, row)
}

function clearCells(marks: i32, passes: i32): void {
  memory.fill(marks, 0, 2 * SIDE)
  const clearPass = v128.load32_splat(passOf + 4 * clearDensity)
  for (let at = 0; at < 2 * SIDE; at += 16) v128.store(passes + at, clearPass)
}

function pass(density: i32): f64 {
  return load<f32>(passOf + (density << 2))
}

/**
 * Pixels into cells: exact for one, two and four mark pixels; of three the middle one's code counts
 * for two quarters. Ground has its mean code.
 */
function foldPixels(upper: i32, row: i32, from: i32, marks: i32, passes: i32): void {
  const width = widthOf(0)
  const high = planeRow(0, 0, upper) + 2 * from
  const film = planeRow(0, 2, upper) + 2 * from
  const plane = SIDE * widthOf(1)
  const to = planeRow(1, 0, row) + from
  const even = i16x8.splat(0xff)
  const limit = i16x8.splat(<i16>markByte)
  const above = i16x8.splat(256)
  const two = i16x8.splat(2)
  for (let x = 0; x < SIDE / 2; x += 8) {
    const at = 2 * x
    const filmUp = v128.load(film + at)
    const filmDown = v128.load(film + width + at)
    const codeUp = v128.load(high + at)
    const codeDown = v128.load(high + width + at)
    const inA = i16x8.ge_s(v128.and(filmUp, even), limit)
    const inB = i16x8.ge_s(i16x8.shr_u(filmUp, 8), limit)
    const inC = i16x8.ge_s(v128.and(filmDown, even), limit)
    const inD = i16x8.ge_s(i16x8.shr_u(filmDown, 8), limit)
    let a = v128.and(codeUp, even)
    let b = i16x8.shr_u(codeUp, 8)
    let c = v128.and(codeDown, even)
    let d = i16x8.shr_u(codeDown, 8)
    const mean = i16x8.shr_u(i16x8.add(i16x8.add(i16x8.add(a, b), i16x8.add(c, d)), two), 2)
    const count = i16x8.neg(i16x8.add(i16x8.add(inA, inB), i16x8.add(inC, inD)))
    // ground's codes are put above every code, so the marks' come first in rising order
    a = v128.bitselect(a, above, inA)
    b = v128.bitselect(b, above, inB)
    c = v128.bitselect(c, above, inC)
    d = v128.bitselect(d, above, inD)
    const lowAB = i16x8.min_s(a, b)
    const highAB = i16x8.max_s(a, b)
    const lowCD = i16x8.min_s(c, d)
    const highCD = i16x8.max_s(c, d)
    const upperMiddle = i16x8.max_s(lowAB, lowCD)
    const lowerMiddle = i16x8.min_s(highAB, highCD)
    const first = i16x8.min_s(lowAB, lowCD)
    const second = i16x8.min_s(upperMiddle, lowerMiddle)
    const third = i16x8.max_s(upperMiddle, lowerMiddle)
    const fourth = i16x8.max_s(highAB, highCD)
    const none = i16x8.eq(count, i16x8.splat(0))
    const overOne = i16x8.gt_s(count, i16x8.splat(1))
    const overTwo = i16x8.gt_s(count, two)
    const all = i16x8.eq(count, i16x8.splat(4))
    // one: its code four times; two: each twice; three: the middle one twice; four: each once
    const q0 = v128.bitselect(mean, first, none)
    const q1 = v128.bitselect(mean, v128.bitselect(second, first, overTwo), none)
    const q2 = v128.bitselect(
      mean,
      v128.bitselect(v128.bitselect(third, second, all), first, overOne),
      none,
    )
    const q3 = v128.bitselect(
      mean,
      v128.bitselect(
        fourth,
        v128.bitselect(third, v128.bitselect(second, first, overOne), overTwo),
        all,
      ),
      none,
    )
    v128.store64_lane(to + x, i8x16.narrow_i16x8_u(q0, q0), 0)
    v128.store64_lane(to + plane + x, i8x16.narrow_i16x8_u(q1, q1), 0)
    v128.store64_lane(to + 2 * plane + x, i8x16.narrow_i16x8_u(q2, q2), 0)
    v128.store64_lane(to + 3 * plane + x, i8x16.narrow_i16x8_u(q3, q3), 0)
    const mark = marks + 4 * (from + x)
    v128.store(mark, i32x4.extend_low_i16x8_u(count))
    v128.store(mark, i32x4.extend_high_i16x8_u(count), 16)
  }
  for (let x = 0; x < SIDE / 2; x++) {
    const above = film + 2 * x
    const fa: i32 = load<u8>(above)
    const fb: i32 = load<u8>(above, 1)
    const fc: i32 = load<u8>(above + width)
    const fd: i32 = load<u8>(above + width, 1)
    const count = load<i32>(marks + 4 * (from + x))
    let sum: f64 = 0
    if ((count & 3) == 0) {
      sum = (pass(fa) + pass(fb) + pass(fc) + pass(fd)) / 4
    } else {
      if (fa >= markByte) sum += pass(fa)
      if (fb >= markByte) sum += pass(fb)
      if (fc >= markByte) sum += pass(fc)
      if (fd >= markByte) sum += pass(fd)
      sum /= count
    }
    store<f32>(passes + 4 * (from + x), <f32>sum)
  }
}

/**
 * Cells into coarser ones: each one's codes weigh a quarter of its mark pixels, and the coarse
 * cell's are those at 1/8, 3/8, 5/8 and 7/8 of all that weight. Ground has its mean code.
 */
function foldCells(level: i32, upper: i32, row: i32, from: i32, marks: i32, passes: i32): void {
  const below = level - 1
  const width = widthOf(below)
  const plane = SIDE * width
  const planeTo = SIDE * widthOf(level)
  const kept = field(below, KEPT)
  const up = upper & kept
  const down = (upper + 1) & kept
  const marksUp = field(below, MARKS) + 4 * up * width
  const marksDown = field(below, MARKS) + 4 * down * width
  const passesUp = field(below, PASSES) + 4 * up * width
  const passesDown = field(below, PASSES) + 4 * down * width
  const codes = planeRow(below, 0, upper)
  for (let cell = from; cell < from + SIDE / 2; cell++) {
    const b = 2 * cell
    const m0 = load<i32>(marksUp + 4 * b)
    const m1 = load<i32>(marksUp + 4 * b, 4)
    const m2 = load<i32>(marksDown + 4 * b)
    const m3 = load<i32>(marksDown + 4 * b, 4)
    const p0: f64 = load<f32>(passesUp + 4 * b)
    const p1: f64 = load<f32>(passesUp + 4 * b, 4)
    const p2: f64 = load<f32>(passesDown + 4 * b)
    const p3: f64 = load<f32>(passesDown + 4 * b, 4)
    const total = m0 + m1 + m2 + m3
    const a = codes + b
    const c = a + width
    const to = planeRow(level, 0, row) + cell
    store<i32>(marks + 4 * cell, total)
    let code = <i32>load<u8>(a)
    if (total == 0) {
      code = (code + load<u8>(a, 1) + load<u8>(c) + load<u8>(c, 1) + 2) >> 2
      store<f32>(passes + 4 * cell, <f32>((p0 + p1 + p2 + p3) / 4))
      fill(to, code, planeTo)
      continue
    }
    const weighed = <f64>m0 * p0 + <f64>m1 * p1 + <f64>m2 * p2 + <f64>m3 * p3
    store<f32>(passes + 4 * cell, <f32>(weighed / <f64>total))
    // a cell's codes rise from plane to plane
    const top = a + 3 * plane
    const pairUp = <i32>load<u16>(a) & load<u16>(c)
    if (
      pairUp == code * 0x101 &&
      (<i32>load<u16>(top) | load<u16>(top + width) | load<u16>(a) | load<u16>(c)) == pairUp
    ) {
      fill(to, code, planeTo)
      continue
    }
    merge(a, width, plane, m0, m1, m2, m3, total, to, planeTo)
  }
}

function fill(to: i32, code: i32, plane: i32): void {
  store<u8>(to, code)
  store<u8>(to + plane, code)
  store<u8>(to + 2 * plane, code)
  store<u8>(to + 3 * plane, code)
}

/** The next code of a cell; none where it has no marks or is used up. */
function next(at: i32, end: i32): i32 {
  return at < end ? <i32>load<u8>(at) : 256
}

/** Four cells' codes in rising order, each with its cell's weight, until 7/8 of it is passed. */
function merge(
  a: i32,
  width: i32,
  plane: i32,
  m0: i32,
  m1: i32,
  m2: i32,
  m3: i32,
  total: i32,
  to: i32,
  planeTo: i32,
): void {
  const span = 4 * plane
  let at0 = a
  let at1 = a + 1
  let at2 = a + width
  let at3 = at2 + 1
  const end0 = m0 == 0 ? at0 : at0 + span
  const end1 = m1 == 0 ? at1 : at1 + span
  const end2 = m2 == 0 ? at2 : at2 + span
  const end3 = m3 == 0 ? at3 : at3 + span
  let c0 = next(at0, end0)
  let c1 = next(at1, end1)
  let c2 = next(at2, end2)
  let c3 = next(at3, end3)
  let sum = 0
  let limit = total
  let out = to
  const last = to + 4 * planeTo
  while (out != last) {
    const low01 = min(c0, c1)
    const low23 = min(c2, c3)
    const code = min(low01, low23)
    if (low01 <= low23) {
      if (c0 <= c1) {
        sum += m0
        at0 += plane
        c0 = next(at0, end0)
      } else {
        sum += m1
        at1 += plane
        c1 = next(at1, end1)
      }
    } else if (c2 <= c3) {
      sum += m2
      at2 += plane
      c2 = next(at2, end2)
    } else {
      sum += m3
      at3 += plane
      c3 = next(at3, end3)
    }
    while (out != last && 2 * sum > limit) {
      store<u8>(out, code)
      out += planeTo
      limit += 2 * total
    }
  }
}

/** Film density and share of marks of half a tile's row of cells just folded. */
function finish(level: i32, row: i32, from: i32, marks: i32, passes: i32): void {
  const film = planeRow(level, 4, row) + from
  const shares = planeRow(level, 5, row) + from
  const area = <f64>(1 << (2 * level))
  for (let x = 0; x < SIDE / 2; x++) {
    const code = (load<i32>(passes + 4 * (from + x)) + 1024 >> 11) - OFFSET
    store<u8>(film + x, load<u8>(densityOf + max(0, min(65535, code))))
    const count = load<i32>(marks + 4 * (from + x))
    const share = 255 * <f64>count / area
    store<u8>(shares + x, share > 0 && share < 1 ? 1 : <i32>(share + 0.5))
  }
}

/** No further row comes: what waits for a partner gets a clear one. */
export function end(): void {
  for (let level = firstLevel; level < lastLevel; level++) {
    const rows = field(level, ROWS)
    if ((rows & 1) == 0) continue
    if (level > 0) {
      const kept = rows & field(level, KEPT)
      const marks = field(level, MARKS) + 4 * kept * widthOf(level)
      const passes = field(level, PASSES) + 4 * kept * widthOf(level)
      for (let x = 0; x < widthOf(level); x += SIDE / 2) clearCells(marks + 4 * x, passes + 4 * x)
    }
    setField(level, ROWS, rows + 1)
    foldInto(level + 1, rows)
  }
}

/** Folds a whole row of tiles of the first level, put in as it stands. */
export function foldFirst(rows: i32): void {
  for (let lower = 1; lower < rows; lower += 2) foldInto(firstLevel + 1, lower)
  setField(firstLevel, ROWS, rows)
}

/** A tile's planes one after another; returns where they stand, 0 where the tile is clear. */
export function tile(level: i32, x: i32): i32 {
  if (load<u8>(field(level, MADE) + x) == 0) return 0
  const width = widthOf(level)
  let from = field(level, PLANES) + SIDE * x
  const end = tileOut + planesOf(level) * SIDE * SIDE
  for (let to = tileOut; to < end; to += SIDE) {
    memory.copy(to, from, SIDE)
    from += width
  }
  return tileOut
}

// A film's marks row by row, for the kernel compiler: which pixels belong to one, how far the ground
// is from each, and where the medial axis passes. What it computes is src/raster/plainMarkLook.ts,
// number by number.
//
// Memory, every address in bytes, rows `stride` pixels apart: film codes and mask of the rows held;
// squared distance, column and rows down of the nearest ground of the rows looked at; one row each
// of counts, axis widths, runs and axis points; room for the lower envelope.

const FAR: i32 = 0x3fffffff
const NONE: i32 = 0x7fff
/** A deeper look into the rows above and below: src/raster/axis.ts. */
const LOOK: i32 = 3
/** 0.75 · √8: the rise over a diagonal step. */
const DIAGONAL: f64 = 2.121320343559643

let widthPx: i32 = 0
let stride: i32 = 0
let limitPx: i32 = 0
let film: i32 = 0
let mask: i32 = 0
let squared: i32 = 0
let column: i32 = 0
let down: i32 = 0
let since: i32 = 0
let widths: i32 = 0
let spans: i32 = 0
let deepest: i32 = 0
let points: i32 = 0
let columns: i32 = 0
let axis: i32 = 0
let sites: i32 = 0
let starts: i32 = 0
let heights: i32 = 0
/** Rows held when the ground was looked for last. */
let heldRows: i32 = 0

/** Lays out the memory for so many rows held and looked at; returns where the film's codes stand. */
export function layOut(newWidthPx: i32, held: i32, looked: i32, newLimitPx: i32): i32 {
  widthPx = newWidthPx
  limitPx = newLimitPx
  stride = widthPx + 15 & ~15
  film = <i32>__heap_base + 15 & ~15
  mask = film + 2 * stride * held
  squared = mask + stride * held
  column = squared + 4 * stride * looked
  down = column + 4 * stride * looked
  since = down + 2 * stride * looked
  widths = since + 2 * stride
  spans = widths + 4 * stride
  deepest = spans + 8 * stride
  points = deepest + 8 * stride
  columns = points + 4 * stride
  axis = columns + 4 * stride
  sites = axis + 4 * stride
  starts = sites + 4 * (stride + 16)
  heights = starts + 8 * (stride + 16)
  const end = heights + 8 * (stride + 16)
  const pages = (end + 65535 >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
  return film
}

export function maskAt(): i32 {
  return mask
}

export function spansAt(): i32 {
  return spans
}

export function deepestAt(): i32 {
  return deepest
}

export function pointsAt(): i32 {
  return points
}

export function columnsAt(): i32 {
  return columns
}

export function axisAt(): i32 {
  return axis
}

/** The mask of a row held: where the film's code is below this one. */
export function maskRow(row: i32, belowCode: i32): void {
  const from = film + 2 * stride * row
  const to = mask + stride * row
  const below = i16x8.splat(<i16>belowCode)
  const one = i8x16.splat(1)
  for (let x = 0; x < stride; x += 16) {
    const low = i16x8.lt_u(v128.load(from + 2 * x), below)
    const high = i16x8.lt_u(v128.load(from + 2 * x, 16), below)
    v128.store(to + x, v128.and(i8x16.narrow_i16x8_s(low, high), one))
  }
}

/** Rows before `gone` are let go; those up to `count` move to the beginning. */
export function drop(gone: i32, count: i32): void {
  memory.copy(film, film + 2 * stride * gone, 2 * stride * (count - gone))
  memory.copy(mask, mask + stride * gone, stride * (count - gone))
}

/** Nearest ground of rows first … first + count − 1 of the `rows` held. */
export function near(first: i32, count: i32, rows: i32): void {
  heldRows = rows
  lookDown(first, count)
  lookUp(first, count, rows)
  for (let row = 0; row < count; row++) {
    const values = mask + stride * (first + row)
    const at = 4 * stride * row
    let x = 0
    while (x < widthPx) {
      if (load<u8>(values + x) == 0) {
        store<i32>(squared + at + 4 * x, 0)
        store<i32>(column + at + 4 * x, x)
        x++
        continue
      }
      let end = x
      while (end + 1 < widthPx && load<u8>(values + end + 1)) end++
      envelope(row, x, end)
      x = end + 1
    }
  }
}

/** Nearest ground above, or NONE, of eight columns at a time. */
function lookDown(first: i32, count: i32): void {
  const one = i16x8.splat(1)
  const limit = i16x8.splat(<i16>limitPx)
  const none = i16x8.splat(<i16>NONE)
  const begin = max(0, first - limitPx)
  const start = i16x8.splat(<i16>(first - limitPx <= 0 ? 0 : limitPx))
  for (let x = 0; x < stride; x += 8) v128.store(since + 2 * x, start)
  for (let row = begin; row < first + count; row++) {
    const from = mask + stride * row
    const to = down + 2 * stride * (row - first)
    const wanted = row >= first
    for (let x = 0; x < stride; x += 8) {
      const isMark = i16x8.neg(i16x8.extend_low_i8x16_u(v128.load64_zero(from + x)))
      const far = v128.and(i16x8.add(v128.load(since + 2 * x), one), isMark)
      v128.store(since + 2 * x, far)
      if (!wanted) continue
      v128.store(to + 2 * x, v128.bitselect(none, i16x8.neg(far), i16x8.gt_s(far, limit)))
    }
  }
}

/** The ground below where that is nearer. */
function lookUp(first: i32, count: i32, rows: i32): void {
  const one = i16x8.splat(1)
  const limit = i16x8.splat(<i16>limitPx)
  const none = i16x8.splat(<i16>NONE)
  const stop = min(rows, first + count + limitPx)
  const start = i16x8.splat(<i16>(first + count + limitPx >= rows ? 0 : limitPx))
  for (let x = 0; x < stride; x += 8) v128.store(since + 2 * x, start)
  for (let row = stop - 1; row >= first; row--) {
    const from = mask + stride * row
    const to = down + 2 * stride * (row - first)
    const wanted = row < first + count
    for (let x = 0; x < stride; x += 8) {
      const isMark = i16x8.neg(i16x8.extend_low_i8x16_u(v128.load64_zero(from + x)))
      const far = v128.and(i16x8.add(v128.load(since + 2 * x), one), isMark)
      v128.store(since + 2 * x, far)
      if (!wanted) continue
      const up = v128.load(to + 2 * x)
      const isNearer = v128.or(i16x8.eq(up, none), i16x8.lt_s(far, i16x8.neg(up)))
      const take = v128.andnot(isNearer, i16x8.gt_s(far, limit))
      v128.store(to + 2 * x, v128.bitselect(far, up, take))
    }
  }
}

/** Along a run of mark pixels the lower envelope of the parabolas (x − s)² + v(s)². */
function envelope(row: i32, from: i32, to: i32): void {
  const line = down + 2 * stride * row
  let top = -1
  for (let site = from - 1; site <= to + 1; site++) {
    let own: f64 = 0
    if (site >= from && site <= to) {
      const v = <i32>load<i16>(line + 2 * site)
      if (v == NONE) continue
      own = <f64>(v * v)
    }
    const place = <f64>site
    const sum = own + place * place
    let start: f64 = -Infinity
    while (top >= 0) {
      const other = load<i32>(sites + 4 * top)
      const height = load<f64>(heights + 8 * top)
      const there = <f64>other
      start = (sum - height - there * there) / <f64>(2 * (site - other))
      if (start > load<f64>(starts + 8 * top)) break
      top--
    }
    top++
    store<i32>(sites + 4 * top, site)
    store<f64>(heights + 8 * top, own)
    store<f64>(starts + 8 * top, top == 0 ? -Infinity : start)
  }
  store<f64>(starts + 8 * (top + 1), Infinity)
  const squares = squared + 4 * stride * row
  const grounds = column + 4 * stride * row
  const most = limitPx * limitPx
  let at = 0
  for (let x = from; x <= to; x++) {
    while (load<f64>(starts + 8 * at, 8) < <f64>x) at++
    const site = load<i32>(sites + 4 * at)
    const off = x - site
    let value = FAR
    if (off <= limitPx && off >= -limitPx) {
      const sum = off * off + <i32>load<f64>(heights + 8 * at)
      if (sum <= most) value = sum
    }
    store<i32>(squares + 4 * x, value)
    store<i32>(grounds + 4 * x, site)
  }
}

/**
 * Runs, deepest pixels and axis points of a row: `held` counted in the rows held, `row` in the
 * `rows` looked at. Returns how many runs there are.
 */
export function marksOfRow(held: i32, row: i32, rows: i32, throughDeep: i32): i32 {
  const values = mask + stride * held
  const squares = squared + 4 * stride * row
  let runs = 0
  let all = 0
  for (let x = 0; x < widthPx; x++) {
    if (load<u8>(values + x) == 0) continue
    const first = x
    while (x + 1 < widthPx && load<u8>(values + x + 1)) x++
    const last = x
    let deep = first
    let most = load<i32>(squares + 4 * first)
    const before = all
    for (let at = first; at <= last; at++) {
      const own = load<i32>(squares + 4 * at)
      if (own > most) {
        deep = at
        most = own
      }
      let width: f32 = 0
      if (own == FAR) {
        if (!throughDeep) continue
        width = <f32>(limitPx + limitPx)
      } else {
        width = axisWidth(held, row, rows, at, first, last, own)
        if (width == 0) continue
      }
      store<i32>(columns + 4 * all, at)
      store<f32>(axis + 4 * all, width)
      all++
    }
    store<i32>(spans + 8 * runs, first)
    store<i32>(spans + 8 * runs, last, 4)
    store<i32>(deepest + 8 * runs, deep)
    store<i32>(deepest + 8 * runs, min(limitPx * limitPx, most), 4)
    store<i32>(points + 4 * runs, all - before)
    runs++
  }
  return runs
}

/** Width of the mark where its axis passes, 0 beside it. */
function axisWidth(held: i32, row: i32, rows: i32, x: i32, first: i32, last: i32, own: i32): f32 {
  const line = row * stride
  let apart = 0
  if (x < last) apart = groundsApart(line, x, 1, 0, own + 1)
  if (x > first) apart = max(apart, groundsApart(line, x, -1, 0, own))
  if (row + 1 < rows) apart = max(apart, groundsApart(line, x, 0, 1, own + 1))
  if (row > 0) apart = max(apart, groundsApart(line, x, 0, -1, own))
  let width: f64 = 0
  if (apart >= 8 && <f64>apart >= 3.06 * <f64>own) width = Math.sqrt(<f64>apart) - 1
  if (width == 0 && own == 1 && (first == last || isOneHigh(held, x))) width = 1
  return width > 0 && !climbs(row, rows, x, own) ? <f32>width : 0
}

// @ts-ignore: a word of the compiler
@inline
function groundsApart(line: i32, x: i32, dx: i32, dy: i32, under: i32): i32 {
  const next = line + dy * stride
  const other = load<i32>(squared + 4 * (next + x + dx))
  if (other == 0 || other >= under) return 0
  const px = load<i32>(column + 4 * (line + x))
  const qx = load<i32>(column + 4 * (next + x + dx))
  // a column outside the film is ground beside the pixel
  const py = px < 0 || px >= widthPx ? 0 : <i32>load<i16>(down + 2 * (line + px))
  const qy = qx < 0 || qx >= widthPx ? 0 : <i32>load<i16>(down + 2 * (next + qx))
  const across = px - qx
  const along = py - qy - dy
  return across * across + along * along
}

/** Ground above and below at once. */
function isOneHigh(held: i32, x: i32): bool {
  const at = mask + stride * held + x
  if (held > 0 && load<u8>(at - stride)) return false
  return !(held + 1 < heldRows && load<u8>(at + stride))
}

/** Whether the ground gets further off by three quarters of a step or more, on some side. */
function climbs(row: i32, rows: i32, x: i32, own: i32): bool {
  const root = Math.sqrt(<f64>own)
  return (
    isSteep(row, rows, x, LOOK, 0, root, 2.25) ||
    isSteep(row, rows, x, -LOOK, 0, root, 2.25) ||
    isSteep(row, rows, x, 0, LOOK, root, 2.25) ||
    isSteep(row, rows, x, 0, -LOOK, root, 2.25) ||
    isSteep(row, rows, x, 2, 2, root, DIAGONAL) ||
    isSteep(row, rows, x, -2, 2, root, DIAGONAL) ||
    isSteep(row, rows, x, 2, -2, root, DIAGONAL) ||
    isSteep(row, rows, x, -2, -2, root, DIAGONAL)
  )
}

// @ts-ignore: a word of the compiler
@inline
function isSteep(row: i32, rows: i32, x: i32, dx: i32, dy: i32, root: f64, rise: f64): bool {
  const there = x + dx
  const line = row + dy
  if (there < 0 || there >= widthPx || line < 0 || line >= rows) return false
  const value = load<i32>(squared + 4 * (line * stride + there))
  return value > 0 && Math.sqrt(<f64>value) - root > rise
}

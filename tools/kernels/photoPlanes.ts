// A photo of tens of millions of pixels, for the kernel compiler: what a file stores turned to linear
// light, the light made smaller, laid true to size, and turned to densities, four pixels at a time.
// The plain loops of src/raster/photo and src/raster/inspect give the same bits.
//
// The light of the whole photo is kept in 16 bits, as src/raster/leakCode.ts keeps leaks: a float's
// own bits, rounded to 12 bits of mantissa, less an offset.

/** Values of one stored channel, at most. */
const VALUES: i32 = 65536
/** Places are reckoned exactly every so many pixels both ways, and lie on a line between. */
const STRETCH: i32 = 16
/** What a knot holds: a place in the photo, what is taken off its light, what that is divided by. */
const FIELDS: i32 = 4

const LOG_DROPS: i32 = 12
const LOG_FROM: i32 = (127 - 17) << 11
const LOG_COUNT: i32 = 18 << 11

const CODE_DROPS: i32 = 11
const CODE_OFFSET: i32 = 456353

const SEEN_FROM: f32 = -0.5
const SEEN_PER_DENSITY: f32 = 1000
const MOST_SEEN: i32 = 8192
const MARKED_FROM: f32 = 0.12
const GLARE: f32 = 0.12
const CLIPPED_FROM: f32 = 0.9995

let widthPx: i32 = 0
let heightPx: i32 = 0
let tables: i32 = 0 // of three channels, light by stored value, f32
let logs: i32 = 0 // log10 of light by its leading bits, f32
let seenTable: i32 = 0 // density by what is seen, f32
let knotsAt: i32 = 0 // FIELDS rows of knots above, as many below, f64
let mostKnots: i32 = 0
let counts: i32 = 0 // dark, clipped, glare, unseen, marked, i32
let stored: i32 = 0 // rows of a file
let line: i32 = 0 // of sums, f32
let light: i32 = 0 // its codes, u16
let small: i32 = 0
let sheet: i32 = 0

/** Lays out the memory for a photo; its pages are only touched as they are used. */
export function layOut(width: i32, height: i32, storedBytes: i32): i32 {
  widthPx = width
  heightPx = height
  const longer = width > height ? width : height
  mostKnots = ((2 * longer) >> 4) + 4
  tables = (<i32>__heap_base + 15) & ~15
  logs = tables + 3 * 4 * VALUES
  seenTable = logs + 4 * LOG_COUNT
  knotsAt = seenTable + 4 * MOST_SEEN
  counts = knotsAt + 2 * FIELDS * 8 * mostKnots
  stored = counts + 32
  line = (stored + storedBytes + 15) & ~15
  light = line + 8 * longer + 64
  small = (light + 2 * width * height + 15) & ~15 // a quarter of the largest sheet
  sheet = (small + 2 * width * height + 64 + 15) & ~15
  const end = <u32>(sheet + 8 * width * height + 64) // a sheet may have twice the photo's pixels
  const pages = <i32>((end + 65535) >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
  return tables
}

export function logsAt(): i32 {
  return logs
}
export function seenTableAt(): i32 {
  return seenTable
}
export function knotsPlace(): i32 {
  return knotsAt
}
export function knotsHeld(): i32 {
  return mostKnots
}
export function countsAt(): i32 {
  return counts
}
export function storedAt(): i32 {
  return stored
}
export function lightAt(): i32 {
  return light
}
export function smallAt(): i32 {
  return small
}
export function sheetAt(): i32 {
  return sheet
}

/** The stored rows turned to light: 1 where any channel is at its end. */
export function toLight(row: i32, rows: i32, channels: i32, wide: bool): void {
  const bytes = (wide ? 2 : 1) * channels * widthPx
  for (let down = 0; down < rows; down++) {
    const from = stored + down * bytes
    if (channels >= 3 && !wide) sumColours(from, channels)
    else sumLights(from, channels, wide)
    codeLine(light + 2 * (row + down) * widthPx)
  }
}

/** The usual file, 8 bits of three colours: nothing is decided or fetched anew within the loop. */
function sumColours(first: i32, step: i32): void {
  const red = tables
  const green = red + 4 * VALUES
  const blue = green + 4 * VALUES
  const end = line + 4 * widthPx
  let from = first
  for (let to = line; to < end; to += 4, from += step) {
    const sum =
      load<f32>(red + (<i32>load<u8>(from) << 2)) +
      load<f32>(green + (<i32>load<u8>(from, 1) << 2)) +
      load<f32>(blue + (<i32>load<u8>(from, 2) << 2))
    store<f32>(to, sum)
  }
}

function sumLights(first: i32, channels: i32, wide: bool): void {
  const step = wide ? 2 * channels : channels
  const end = line + 4 * widthPx
  let from = first
  for (let to = line; to < end; to += 4, from += step) {
    let sum = lightOf(0, valueAt(from, 0, wide))
    if (channels >= 3) {
      sum += lightOf(1, valueAt(from, 1, wide))
      sum += lightOf(2, valueAt(from, 2, wide))
    }
    store<f32>(to, sum)
  }
}

function valueAt(from: i32, channel: i32, wide: bool): i32 {
  return wide ? load<u16>(from + 2 * channel) : load<u8>(from + channel)
}

function lightOf(channel: i32, value: i32): f32 {
  return load<f32>(tables + 4 * (channel * VALUES + value))
}

/** The line's sums, 1 at most, as codes; up to seven are written past its end, where more follows. */
function codeLine(start: i32): void {
  const end = start + 2 * widthPx
  let from = line
  for (let to = start; to < end; to += 16, from += 32) {
    v128.store(to, i16x8.narrow_i32x4_u(codesOf(v128.load(from)), codesOf(v128.load(from, 16))))
  }
}

function codesOf(lights: v128): v128 {
  const bits = i32x4.add(f32x4.min(lights, f32x4.splat(1)), i32x4.splat(1 << (CODE_DROPS - 1)))
  return i32x4.sub(i32x4.shr_u(bits, CODE_DROPS), i32x4.splat(CODE_OFFSET))
}

/** Lights of four codes, each in 32 bits. */
function lightsOf(codes: v128): v128 {
  return i32x4.shl(i32x4.add(codes, i32x4.splat(CODE_OFFSET)), CODE_DROPS)
}

/** Rows of means over squares of so many pixels a side, 0: of the light, 1: of the sheet, so wide. */
export function reduce(which: i32, across: i32, by: i32, first: i32, rows: i32): void {
  const toAcross = across / by
  const scale: f32 = 1 / <f32>(by * by)
  for (let row = first; row < first + rows; row++) {
    memory.fill(line, 0, 4 * across)
    for (let y = row * by; y < (row + 1) * by; y++) {
      if (which > 0) addLine(sheet + 4 * y * across, across)
      else addCodes(light + 2 * y * across, across)
    }
    const to = small + 4 * row * toAcross
    if (by == 2) meansOfTwo(to, to + 4 * toAcross, scale)
    else meansOf(by, to, to + 4 * toAcross, scale)
  }
}

function meansOf(by: i32, start: i32, end: i32, scale: f32): void {
  let from = line
  for (let to = start; to < end; to += 4) {
    let sum: f32 = 0
    for (const last = from + 4 * by; from < last; from += 4) sum += load<f32>(from)
    store<f32>(to, sum * scale)
  }
}

/** Up to three are written past the end, where the next row comes. */
function meansOfTwo(start: i32, end: i32, scale: f32): void {
  const scales = f32x4.splat(scale)
  let from = line
  for (let to = start; to < end; to += 16, from += 32) {
    const one = v128.load(from)
    const other = v128.load(from, 16)
    const even = v128.shuffle<i32>(one, other, 0, 2, 4, 6)
    const odd = v128.shuffle<i32>(one, other, 1, 3, 5, 7)
    v128.store(to, f32x4.mul(f32x4.add(even, odd), scales))
  }
}

/** The first so many of the means as greys, light by its root: 0 … 255, a byte each, from where the means began. */
export function toGreys(count: i32): void {
  let from = small
  for (let to = small; to < small + count; to += 16, from += 64) {
    const first = i16x8.narrow_i32x4_s(greysOf(from), greysOf(from + 16))
    const second = i16x8.narrow_i32x4_s(greysOf(from + 32), greysOf(from + 48))
    v128.store(to, i8x16.narrow_i16x8_u(first, second))
  }
}

function greysOf(from: i32): v128 {
  const roots = f32x4.sqrt(v128.load(from))
  return i32x4.trunc_sat_f32x4_s(f32x4.mul(roots, f32x4.splat(255)))
}

/** What is added past the line's end is not looked at. */
function addLine(start: i32, across: i32): void {
  const end = line + 4 * across
  let from = start
  for (let to = line; to < end; to += 16, from += 16) {
    v128.store(to, f32x4.add(v128.load(to), v128.load(from)))
  }
}

function addCodes(start: i32, across: i32): void {
  const end = line + 4 * across
  let from = start
  for (let to = line; to < end; to += 16, from += 8) {
    v128.store(to, f32x4.add(v128.load(to), lightsOf(v128.load16x4_u(from))))
  }
}

function knot(field: i32, at: i32, part: f64): f64 {
  const above = load<f64>(knotsAt + 8 * (field * mostKnots + at))
  const below = load<f64>(knotsAt + 8 * ((FIELDS + field) * mostKnots + at))
  return above + part * (below - above)
}

/**
 * Up to STRETCH rows of the sheet between the knots above and below: light between four pixels,
 * less the ground, over the gain; NaN outside the photo, whose number is returned.
 */
export function lay(row: i32, rows: i32, across: i32): i32 {
  const right = <f64>(widthPx - 2)
  const bottom = <f64>(heightPx - 2)
  let unseen = 0
  for (let down = 0; down < rows; down++) {
    const part = <f64>down / STRETCH
    let to = sheet + 4 * (row + down) * across
    const last = to + 4 * across
    let x = knot(0, 0, part)
    let y = knot(1, 0, part)
    let ground = knot(2, 0, part)
    let gain = knot(3, 0, part)
    for (let at = 1; to < last; at++) {
      const nextX = knot(0, at, part)
      const nextY = knot(1, at, part)
      const nextGround = knot(2, at, part)
      const nextGain = knot(3, at, part)
      const left = Math.floor(x)
      const top = Math.floor(y)
      startX = <f32>(x - left)
      startY = <f32>(y - top)
      startGround = <f32>ground
      startGain = <f32>gain
      stepX = <f32>((nextX - x) / STRETCH)
      stepY = <f32>((nextY - y) / STRETCH)
      stepGround = <f32>((nextGround - ground) / STRETCH)
      stepGain = <f32>((nextGain - gain) / STRETCH)
      const isWhole =
        min(x, nextX) >= 1 &&
        min(y, nextY) >= 1 &&
        max(x, nextX) < right &&
        max(y, nextY) < bottom &&
        to + 4 * STRETCH <= last
      if (isWhole) layStretch(to, <i32>left, <i32>top)
      else unseen += layPixels(to, <i32>min<i32>(STRETCH, (last - to) >> 2), <i32>left, <i32>top)
      to += 4 * STRETCH
      x = nextX
      y = nextY
      ground = nextGround
      gain = nextGain
    }
  }
  return unseen
}

/** A stretch: where it begins, from its first pixel's own place on, and how far each pixel is from the next. */
let startX: f32 = 0
let startY: f32 = 0
let startGround: f32 = 0
let startGain: f32 = 0
let stepX: f32 = 0
let stepY: f32 = 0
let stepGround: f32 = 0
let stepGain: f32 = 0

/** All of a stretch that lies well inside the photo. */
function layStretch(to: i32, left: i32, top: i32): void {
  const below = 2 * widthPx
  const first = light + 2 * (top * widthPx + left)
  const xs = f32x4.splat(startX)
  const ys = f32x4.splat(startY)
  const grounds = f32x4.splat(startGround)
  const gains = f32x4.splat(startGain)
  const dx = f32x4.splat(stepX)
  const dy = f32x4.splat(stepY)
  const dGround = f32x4.splat(stepGround)
  const dGain = f32x4.splat(stepGain)
  const across = i32x4.splat(widthPx)
  const from = i32x4.splat(first)
  const low = i32x4.splat(0xffff)
  let number = f32x4(0, 1, 2, 3)
  for (let at = 0; at < 4 * STRETCH; at += 16) {
    const x = f32x4.add(xs, f32x4.mul(number, dx))
    const y = f32x4.add(ys, f32x4.mul(number, dy))
    const column = f32x4.floor(x)
    const row = f32x4.floor(y)
    const cells = i32x4.add(
      i32x4.mul(i32x4.trunc_sat_f32x4_s(row), across),
      i32x4.trunc_sat_f32x4_s(column),
    )
    const places = i32x4.add(from, i32x4.shl(cells, 1))
    const p0 = i32x4.extract_lane(places, 0)
    const p1 = i32x4.extract_lane(places, 1)
    const p2 = i32x4.extract_lane(places, 2)
    const p3 = i32x4.extract_lane(places, 3)
    // each 32 bits hold a pixel's code and its right neighbour's
    let upper = v128.load32_zero(p0)
    upper = v128.load32_lane(p1, upper, 1)
    upper = v128.load32_lane(p2, upper, 2)
    upper = v128.load32_lane(p3, upper, 3)
    let lower = v128.load32_zero(p0 + below)
    lower = v128.load32_lane(p1 + below, lower, 1)
    lower = v128.load32_lane(p2 + below, lower, 2)
    lower = v128.load32_lane(p3 + below, lower, 3)
    const share = f32x4.sub(x, column)
    const over = between(
      lightsOf(v128.and(upper, low)),
      lightsOf(i32x4.shr_u(upper, 16)),
      share,
    )
    const under = between(
      lightsOf(v128.and(lower, low)),
      lightsOf(i32x4.shr_u(lower, 16)),
      share,
    )
    const lit = between(over, under, f32x4.sub(y, row))
    const ground = f32x4.add(grounds, f32x4.mul(number, dGround))
    const gain = f32x4.add(gains, f32x4.mul(number, dGain))
    v128.store(to + at, f32x4.div(f32x4.sub(lit, ground), gain))
    number = f32x4.add(number, f32x4.splat(4))
  }
}

function between(one: v128, other: v128, share: v128): v128 {
  return f32x4.add(one, f32x4.mul(share, f32x4.sub(other, one)))
}

/** The same pixel by pixel, where some may be outside the photo; says how many are. */
function layPixels(to: i32, count: i32, left: i32, top: i32): i32 {
  let unseen = 0
  for (let at = 0; at < count; at++) {
    const number = <f32>at
    const x = startX + number * stepX
    const y = startY + number * stepY
    const column = left + <i32>floor(x)
    const row = top + <i32>floor(y)
    if (column < 0 || row < 0 || column >= widthPx - 1 || row >= heightPx - 1) {
      store<f32>(to + 4 * at, NaN)
      unseen++
      continue
    }
    const share = x - floor(x)
    const from = light + 2 * (row * widthPx + column)
    const over = midway(lightAt16(from), lightAt16(from + 2), share)
    const lower = from + 2 * widthPx
    const under = midway(lightAt16(lower), lightAt16(lower + 2), share)
    const lit = midway(over, under, y - floor(y))
    const ground = startGround + number * stepGround
    const gain = startGain + number * stepGain
    store<f32>(to + 4 * at, (lit - ground) / gain)
  }
  return unseen
}

function midway(one: f32, other: f32, share: f32): f32 {
  return one + share * (other - one)
}

function lightAt16(at: i32): f32 {
  return reinterpret<f32>((<i32>load<u16>(at) + CODE_OFFSET) << CODE_DROPS)
}

/** Up to STRETCH rows of the sheet turned to densities; the knots' first field is log10 of clear light. */
export function toDensities(row: i32, rows: i32, across: i32, seenCount: i32, highest: f32): void {
  let dark = i32x4.splat(0)
  let clipped = i32x4.splat(0)
  let glare = i32x4.splat(0)
  let unseen = i32x4.splat(0)
  let marked = i32x4.splat(0)
  const lastLog = i32x4.splat(LOG_COUNT - 1)
  const lastSeen = i32x4.splat(seenCount - 1)
  const none = i32x4.splat(0)
  const most = f32x4.splat(highest)
  for (let down = 0; down < rows; down++) {
    const part = <f64>down / STRETCH
    let at = sheet + 4 * (row + down) * across
    const last = at + 4 * across
    let clear = knot(0, 0, part)
    for (let knotAt = 1; at < last; knotAt++) {
      const next = knot(0, knotAt, part)
      const first = f32x4.splat(<f32>clear)
      const step = f32x4.splat(<f32>((next - clear) / STRETCH))
      clear = next
      let number = f32x4(0, 1, 2, 3)
      const stop = at + 4 * STRETCH
      const end = stop < last ? stop : last
      for (; at < end; at += 16, number = f32x4.add(number, f32x4.splat(4))) {
        // past the row's end nothing counts, and nothing changes
        const isRow = i32x4.lt_s(i32x4(0, 4, 8, 12), i32x4.splat(end - at))
        const lit = v128.load(at)
        const isLit = f32x4.ge(lit, f32x4.splat(0))
        const counts = v128.and(isLit, isRow)
        const leading = i32x4.sub(i32x4.shr_u(lit, LOG_DROPS), i32x4.splat(LOG_FROM))
        const logged = gathered(logs, i32x4.min_s(i32x4.max_s(leading, none), lastLog))
        const light = f32x4.add(first, f32x4.mul(number, step))
        const seen = f32x4.sub(light, logged)
        const scaled = f32x4.mul(
          f32x4.sub(seen, f32x4.splat(SEEN_FROM)),
          f32x4.splat(SEEN_PER_DENSITY),
        )
        const place = i32x4.trunc_sat_f32x4_s(f32x4.add(scaled, f32x4.splat(0.5)))
        const density = gathered(seenTable, i32x4.min_s(i32x4.max_s(place, none), lastSeen))
        const isEnd = f32x4.gt(lit, f32x4.splat(CLIPPED_FROM))
        const isGlare = v128.andnot(f32x4.lt(seen, f32x4.splat(-GLARE)), isEnd)
        clipped = i32x4.sub(clipped, v128.and(isEnd, counts))
        glare = i32x4.sub(glare, v128.and(isGlare, counts))
        unseen = i32x4.sub(unseen, v128.andnot(isRow, isLit))
        marked = i32x4.sub(marked, v128.and(f32x4.gt(density, f32x4.splat(MARKED_FROM)), counts))
        dark = i32x4.sub(dark, v128.and(f32x4.gt(density, most), counts))
        const told = f32x4.max(f32x4.min(density, most), f32x4.splat(0))
        v128.store(at, v128.bitselect(v128.and(told, isLit), lit, isRow))
      }
      at = end
    }
  }
  add(0, dark)
  add(1, clipped)
  add(2, glare)
  add(3, unseen)
  add(4, marked)
}

function gathered(table: i32, places: v128): v128 {
  const at = i32x4.add(i32x4.splat(table), i32x4.shl(places, 2))
  let values = v128.load32_zero(i32x4.extract_lane(at, 0))
  values = v128.load32_lane(i32x4.extract_lane(at, 1), values, 1)
  values = v128.load32_lane(i32x4.extract_lane(at, 2), values, 2)
  return v128.load32_lane(i32x4.extract_lane(at, 3), values, 3)
}

function add(which: i32, count: v128): void {
  const sum =
    i32x4.extract_lane(count, 0) +
    i32x4.extract_lane(count, 1) +
    i32x4.extract_lane(count, 2) +
    i32x4.extract_lane(count, 3)
  store<i32>(counts + 4 * which, load<i32>(counts + 4 * which) + sum)
}

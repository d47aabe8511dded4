// A photo of tens of millions of pixels, for the kernel compiler: what a file stores turned to linear
// light, the light made smaller, laid true to size, and turned to densities. The plain loops of
// src/raster/photo and src/raster/inspect give the same bits.

/** Values of one stored channel, at most. */
const VALUES: i32 = 65536
/** Places are reckoned exactly every so many pixels both ways, and lie on a line between. */
const STRETCH: i32 = 16
/** What a knot holds: a place in the photo, what is taken off its light, what that is divided by. */
const FIELDS: i32 = 4

const LOG_DROPS: i32 = 12
const LOG_FROM: i32 = (127 - 17) << 11
const LOG_COUNT: i32 = 18 << 11

const SEEN_FROM: f64 = -0.5
const SEEN_STEP: f64 = 0.001
const MOST_SEEN: i32 = 8192
const MARKED_FROM: f64 = 0.12
const GLARE: f64 = 0.12
const CLIPPED_FROM: f64 = 0.9995

let widthPx: i32 = 0
let heightPx: i32 = 0
let tables: i32 = 0 // of three channels, light by stored value, f32
let logs: i32 = 0 // log10 of light by its leading bits, f32
let seenTable: i32 = 0 // density by what is seen, f32
let knotsAt: i32 = 0 // FIELDS rows of knots above, as many below, f64
let mostKnots: i32 = 0
let counts: i32 = 0 // dark, clipped, glare, unseen, marked, i32
let stored: i32 = 0 // rows of a file
let light: i32 = 0
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
  light = (stored + storedBytes + 15) & ~15
  small = light + 4 * width * height // a quarter of the largest sheet
  sheet = (small + 2 * width * height + 15) & ~15
  const end = <u32>(sheet + 8 * width * height) // a sheet may have twice the photo's pixels
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
  let to = light + 4 * row * widthPx
  const end = to + 4 * rows * widthPx
  let from = stored
  const coloured = channels >= 3
  if (coloured && !wide) return colouredToLight(from, channels, to, end)
  const step = wide ? 2 * channels : channels
  for (; to < end; to += 4, from += step) {
    let sum: f64 = 0
    if (!coloured) sum = lightOf(0, valueAt(from, 0, wide))
    else {
      sum = lightOf(0, valueAt(from, 0, true)) + lightOf(1, valueAt(from, 1, true))
      sum += lightOf(2, valueAt(from, 2, true))
    }
    store<f32>(to, sum < 1 ? <f32>sum : 1)
  }
}

/** The usual file, 8 bits of three colours: nothing is decided or fetched anew within the loop. */
function colouredToLight(first: i32, step: i32, start: i32, end: i32): void {
  const red = tables
  const green = red + 4 * VALUES
  const blue = green + 4 * VALUES
  let from = first
  for (let to = start; to < end; to += 4, from += step) {
    const sum =
      <f64>load<f32>(red + (<i32>load<u8>(from) << 2)) +
      <f64>load<f32>(green + (<i32>load<u8>(from, 1) << 2)) +
      <f64>load<f32>(blue + (<i32>load<u8>(from, 2) << 2))
    store<f32>(to, sum < 1 ? <f32>sum : 1)
  }
}

function valueAt(from: i32, channel: i32, wide: bool): i32 {
  return wide ? load<u16>(from + 2 * channel) : load<u8>(from + channel)
}

function lightOf(channel: i32, value: i32): f64 {
  return <f64>load<f32>(tables + 4 * (channel * VALUES + value))
}

/** Rows of means over squares of so many pixels a side, 0: of the light, 1: of the sheet, so wide. */
export function reduce(which: i32, across: i32, by: i32, first: i32, rows: i32): void {
  const toAcross = across / by
  const scale = 1 / <f64>(by * by)
  memory.fill(small + 4 * toAcross * first, 0, 4 * toAcross * rows)
  for (let y = first * by; y < (first + rows) * by; y++) {
    let from = (which > 0 ? sheet : light) + 4 * y * across
    let to = small + 4 * (y / by) * toAcross
    const end = to + 4 * toAcross
    for (; to < end; to += 4) {
      let sum: f64 = 0
      for (const last = from + 4 * by; from < last; from += 4) sum += <f64>load<f32>(from)
      store<f32>(to, <f32>(<f64>load<f32>(to) + sum * scale))
    }
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
  const right = <f64>(widthPx - 1)
  const bottom = <f64>(heightPx - 1)
  const line = 4 * widthPx
  let unseen = 0
  for (let down = 0; down < rows; down++) {
    const part = <f64>down / STRETCH
    let to = sheet + 4 * (row + down) * across
    const last = to + 4 * across
    for (let at = 0; to < last; at++) {
      let x = knot(0, at, part)
      let y = knot(1, at, part)
      let ground = knot(2, at, part)
      let gain = knot(3, at, part)
      const dx = (knot(0, at + 1, part) - x) / STRETCH
      const dy = (knot(1, at + 1, part) - y) / STRETCH
      const dGround = (knot(2, at + 1, part) - ground) / STRETCH
      const dGain = (knot(3, at + 1, part) - gain) / STRETCH
      const stop = to + 4 * STRETCH
      const end = stop < last ? stop : last
      for (; to < end; to += 4) {
        if (x >= 0 && y >= 0 && x < right && y < bottom) {
          const left = <i32>x
          const top = <i32>y
          const share = x - <f64>left
          const from = light + line * top + 4 * left
          const a = <f64>load<f32>(from)
          const b = <f64>load<f32>(from, 4)
          const c = <f64>load<f32>(from + line)
          const d = <f64>load<f32>(from + line, 4)
          const upper = a + share * (b - a)
          const lower = c + share * (d - c)
          store<f32>(to, <f32>((upper + (y - <f64>top) * (lower - upper) - ground) / gain))
        } else {
          store<f32>(to, NaN)
          unseen++
        }
        x += dx
        y += dy
        ground += dGround
        gain += dGain
      }
    }
  }
  return unseen
}

/** Up to STRETCH rows of the sheet turned to densities; the knots' first field is log10 of clear light. */
export function toDensities(row: i32, rows: i32, across: i32, seenCount: i32, highest: f64): void {
  let dark = 0
  let clipped = 0
  let glare = 0
  let unseen = 0
  let marked = 0
  for (let down = 0; down < rows; down++) {
    const part = <f64>down / STRETCH
    let at = sheet + 4 * (row + down) * across
    const last = at + 4 * across
    for (let knotAt = 0; at < last; knotAt++) {
      let clear = knot(0, knotAt, part)
      const step = (knot(0, knotAt + 1, part) - clear) / STRETCH
      const stop = at + 4 * STRETCH
      const end = stop < last ? stop : last
      for (; at < end; at += 4, clear += step) {
        const lit = load<f32>(at)
        if (!(lit >= 0)) {
          unseen++
          store<f32>(at, 0)
          continue
        }
        const leading = (load<i32>(at) >>> LOG_DROPS) - LOG_FROM
        const seen = clear - <f64>load<f32>(logs + 4 * (leading > 0 ? leading : 0))
        if (<f64>lit > CLIPPED_FROM) clipped++
        else if (seen < -GLARE) glare++
        const place = <i32>((seen - SEEN_FROM) / SEEN_STEP + 0.5)
        const within = place < 0 ? 0 : place < seenCount ? place : seenCount - 1
        const density = <f64>load<f32>(seenTable + 4 * within)
        if (density > MARKED_FROM) marked++
        if (density > highest) dark++
        const told = density > highest ? highest : density < 0 ? 0 : density
        store<f32>(at, <f32>told)
      }
    }
  }
  add(0, dark)
  add(1, clipped)
  add(2, glare)
  add(3, unseen)
  add(4, marked)
}

function add(which: i32, count: i32): void {
  store<i32>(counts + 4 * which, load<i32>(counts + 4 * which) + count)
}

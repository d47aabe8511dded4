// Which pixel of a stochastic mask turns black first, second and so on, by void and cluster. What it
// computes is what src/core/halftone/blueNoise.ts does in plain loops, where the method is told.
//
// Memory: the Gaussian; then two sides, the voids and the clusters. A side has a number for each pixel of
// a torus that belongs to it, infinite for all others, and of each row the least and its place. The number
// is how much of the Gaussian the pixel sees of those that are on: a void's above 0, a cluster's below, so
// that least numbers come first on both sides.

const SIDE: i32 = 128
const LAST: i32 = SIDE - 1
const PIXELS: i32 = SIDE * SIDE
const REACH: i32 = 7
const PARTS: i32 = (2 * REACH + 1) * (2 * REACH + 1)
/** Within a side, behind the numbers. */
const LEASTS: i32 = 8 * PIXELS
const PLACES: i32 = LEASTS + 8 * SIDE
const SIDE_BYTES: i32 = PLACES + 4 * SIDE

/** Where the Gaussian goes, row by row. */
export function gaussianAt(): i32 {
  return (<i32>__heap_base + 15) & ~15
}

// @ts-ignore: a decorator of the kernel compiler
@inline
function voidsAt(): i32 {
  return gaussianAt() + 8 * (PARTS + 1)
}

// @ts-ignore: a decorator of the kernel compiler
@inline
function clustersAt(): i32 {
  return voidsAt() + SIDE_BYTES
}

export function makeRoom(): void {
  const pages = ((clustersAt() + SIDE_BYTES + 65535) >>> 16) - memory.size()
  if (pages > 0 && memory.grow(pages) < 0) unreachable()
}

/** So many pixels are on. */
export function scatter(seed: i32, points: i32): void {
  memory.fill(voidsAt(), 0, LEASTS)
  for (let at = 0; at < PIXELS; at++) store<f64>(clustersAt() + 8 * at, Infinity)
  let state = seed
  for (let count = 0; count < points; ) {
    state += 0x6d2b79f5
    let mixed = (state ^ (state >>> 15)) * (state | 1)
    mixed ^= mixed + (mixed ^ (mixed >>> 7)) * (mixed | 61)
    const at = (mixed ^ (mixed >>> 14)) >>> 18
    if (load<f64>(voidsAt() + 8 * at) == Infinity) continue
    carry(at, voidsAt(), clustersAt())
    count++
  }
  for (let row = 0; row < SIDE; row++) {
    findLeast(voidsAt(), row)
    findLeast(clustersAt(), row)
  }
}

/** Moves the pixel of the tightest cluster to the largest void; returns 0 where that is where it stood. */
export function move(): i32 {
  const from = first(clustersAt())
  change(from, clustersAt(), voidsAt())
  const to = first(voidsAt())
  change(to, voidsAt(), clustersAt())
  return from ^ to
}

function change(at: i32, from: i32, to: i32): void {
  carry(at, from, to)
  findNear(from, at)
  for (let dy = -REACH; dy <= REACH; dy++) findLeast(to, ((at >> 7) + dy) & LAST)
}

/** A pixel goes over to the other side, whose numbers are its own below 0. */
function carry(at: i32, from: i32, to: i32): void {
  weigh(from, at, 1)
  weigh(to, at, -1)
  store<f64>(to + 8 * at, -load<f64>(from + 8 * at))
  store<f64>(from + 8 * at, Infinity)
}

/** A pixel about which numbers rise or fall by the Gaussian. */
function weigh(numbers: i32, at: i32, sign: f64): void {
  const x = at & LAST
  const y = at >> 7
  const isWhole = x >= REACH && x <= LAST - REACH
  const signs = f64x2.splat(sign)
  let part = gaussianAt()
  for (let dy = -REACH; dy <= REACH; dy++) {
    const row = numbers + 8 * SIDE * ((y + dy) & LAST)
    if (isWhole) {
      let place = row + 8 * (x - REACH)
      for (let pair = 0; pair < REACH; pair++, place += 16, part += 16) {
        v128.store(place, f64x2.add(v128.load(place), f64x2.mul(signs, v128.load(part))))
      }
      store<f64>(place, load<f64>(place) + sign * load<f64>(part))
      part += 8
    } else {
      for (let dx = -REACH; dx <= REACH; dx++, part += 8) {
        const place = row + 8 * ((x + dx) & LAST)
        store<f64>(place, load<f64>(place) + sign * load<f64>(part))
      }
    }
  }
}

/** The next pixel of the voids or of the clusters, which leaves its side. */
export function next(isOn: i32): i32 {
  const side = isOn != 0 ? clustersAt() : voidsAt()
  const at = first(side)
  store<f64>(side + 8 * at, Infinity)
  weigh(side, at, 1)
  findNear(side, at)
  return at
}

/** After numbers about a pixel have risen: a row's least changes only where it stands there. */
function findNear(side: i32, at: i32): void {
  for (let dy = -REACH; dy <= REACH; dy++) {
    const row = ((at >> 7) + dy) & LAST
    const place = load<i32>(side + PLACES + 4 * row)
    if (((place - at + REACH) & LAST) <= 2 * REACH) findLeast(side, row)
  }
}

/** The first pixel of the least number. */
function first(side: i32): i32 {
  return load<i32>(side + PLACES + 4 * leastOf(side + LEASTS))
}

function findLeast(side: i32, row: i32): void {
  const place = row * SIDE + leastOf(side + 8 * SIDE * row)
  store<f64>(side + LEASTS + 8 * row, load<f64>(side + 8 * place))
  store<i32>(side + PLACES + 4 * row, place)
}

/** Which of 128 numbers is the least, the first of equals. */
function leastOf(numbers: i32): i32 {
  const end = numbers + 8 * SIDE
  let one = v128.load(numbers)
  let two = v128.load(numbers, 16)
  let three = v128.load(numbers, 32)
  let four = v128.load(numbers, 48)
  for (let at = numbers + 64; at < end; at += 64) {
    one = f64x2.pmin(one, v128.load(at))
    two = f64x2.pmin(two, v128.load(at, 16))
    three = f64x2.pmin(three, v128.load(at, 32))
    four = f64x2.pmin(four, v128.load(at, 48))
  }
  const both = f64x2.pmin(f64x2.pmin(one, two), f64x2.pmin(three, four))
  const least = Math.min(f64x2.extract_lane(both, 0), f64x2.extract_lane(both, 1))
  let at = numbers
  while (load<f64>(at) != least) at += 8
  return (at - numbers) >> 3
}

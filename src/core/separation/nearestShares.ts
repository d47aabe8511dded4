import { labFromXyz50, labRoot, labRootSlope, WHITE_D50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'

/** A set of inks ready for looking for mixtures; one search at a time. */
export type Mixer = Readonly<{
  inks: number
  /** X, Y and Z of each combination of solids, in the order of `demichelWeights`. */
  primaries: Float64Array
  /** What may lie at one place, in solids. */
  limit: number
  scratch: Scratch
}>

/** Room for what a search works out, so that a million of them take none. */
type Scratch = Readonly<{
  /** The combinations folded together as far as the first inks; the last is `primaries`. */
  folded: readonly Float64Array[]
  /** The chance of each combination of the later inks, as far as each of those. */
  chances: readonly Float64Array[]
  off: Float64Array
  slopes: Float64Array
  pull: Float64Array
  rows: Float64Array
  free: Int8Array
}>

/**
 * @param primaries XYZ under D50 of each of the 2^inks combinations, in the order of `demichelWeights`
 * @param of limit: what may lie at one place, in solids
 */
export function mixerOf(primaries: readonly Xyz[], { limit }: Readonly<{ limit: number }>): Mixer {
  const inks = Math.log2(primaries.length)
  const all = Float64Array.from(primaries.flat())
  const rooms = Array.from({ length: inks }, (_, ink) => 2 ** ink)
  return {
    inks,
    primaries: all,
    limit,
    scratch: {
      folded: [...rooms.map((room) => new Float64Array(3 * room)), all],
      chances: [...rooms, 2 ** inks].map((room) => new Float64Array(room)),
      off: new Float64Array(3),
      slopes: new Float64Array(3 * inks),
      pull: new Float64Array(inks),
      rows: new Float64Array(inks * (inks + 1)),
      free: new Int8Array(inks),
    },
  }
}

export type Found = Readonly<{ shares: Float64Array; cost: number }>

/** What a whole solid of ink more is worth, in squares of a difference: it decides between equals. */
const PRICE_OF_INK = 0.05
/** A solid over the limit costs so many squares. */
const PRICE_OVER_LIMIT = 2500
const STEPS = 24
const SETTLED = 1e-4

/**
 * The shares whose mixture looks nearest to a colour, from where a search begins: Levenberg's and
 * Marquardt's steps between 0 and 1, chroma and hue weighed as in CIE94.
 *
 * @param start shares of each ink
 * @source demichel, neugebauer, levenberg-marquardt, cie94
 */
export function nearestShares(
  start: ArrayLike<number>,
  { target, mixer }: Readonly<{ target: Lab; mixer: Mixer }>,
): Found {
  const weights = weightsOf(target)
  let shares: Float64Array = Float64Array.from(start)
  let next: Float64Array = new Float64Array(mixer.inks)
  let cost = look(shares, { target, weights, mixer })
  let isKnown = false
  let damping = 1
  for (let step = 0; step < STEPS && damping < 1e6; step++) {
    if (!isKnown) findSlopes(shares, weights, mixer)
    stepTo(next, { shares, damping, mixer })
    const nextCost = look(next, { target, weights, mixer })
    if (nextCost >= cost) {
      look(shares, { target, weights, mixer })
      isKnown = true
      damping *= 6
      continue
    }
    isKnown = false
    const gained = cost - nextCost
    ;[shares, next] = [next, shares]
    cost = nextCost
    damping /= 4
    if (gained < SETTLED) break
  }
  return { shares, cost }
}

/** What shares of the inks look like. */
export function mixedColour(shares: Float64Array, mixer: Mixer): Lab {
  mix(shares, mixer)
  const [x = 0, y = 0, z = 0] = mixer.scratch.folded[0] ?? []
  return labFromXyz50([x, y, z])
}

/** Lays the inks' chances together, the last one first: what is left is their mean. */
function mix(shares: Float64Array, { inks, scratch: { folded } }: Mixer): void {
  for (let ink = inks - 1; ink >= 0; ink--) {
    const [from, into] = [folded[ink + 1], folded[ink]]
    if (from === undefined || into === undefined) continue
    const share = shares[ink] ?? 0
    const half = into.length
    for (let place = 0; place < half; place++) {
      const clear = from[place] ?? 0
      into[place] = clear + share * ((from[place + half] ?? 0) - clear)
    }
  }
}

/** How far a colour is from another in squares, chroma and hue weighed by the target's chroma. */
export function weighedSquares(target: Lab): (l: number, a: number, b: number) => number {
  const { ca, cb, ha, hb } = weightsOf(target)
  const [tl, ta, tb] = target
  return (l, a, b) => {
    const dl = l - tl
    const da = a - ta
    const db = b - tb
    const c = ca * da + cb * db
    const h = ha * da + hb * db
    return dl * dl + c * c + h * h
  }
}

type Weights = Readonly<{ ca: number; cb: number; ha: number; hb: number }>

function weightsOf([, a, b]: Lab): Weights {
  const chroma = Math.hypot(a, b)
  if (chroma < 1e-6) return { ca: 1, cb: 0, ha: 0, hb: 1 }
  const [toC, toH] = [1 / (1 + 0.045 * chroma) / chroma, 1 / (1 + 0.015 * chroma) / chroma]
  return { ca: toC * a, cb: toC * b, ha: -toH * b, hb: toH * a }
}

type Looked = Readonly<{ target: Lab; weights: Weights; mixer: Mixer }>

/** The cost of shares; how far off they are stays in the mixer's room. */
function look(shares: Float64Array, { target, weights, mixer }: Looked): number {
  const { inks, limit, scratch } = mixer
  const { off, folded } = scratch
  mix(shares, mixer)
  const xyz = folded[0] ?? off
  const x = labRoot((xyz[0] ?? 0) / WHITE_D50[0])
  const y = labRoot((xyz[1] ?? 0) / WHITE_D50[1])
  const z = labRoot((xyz[2] ?? 0) / WHITE_D50[2])
  const da = 500 * (x - y) - target[1]
  const db = 200 * (y - z) - target[2]
  const l = 116 * y - 16 - target[0]
  const c = weights.ca * da + weights.cb * db
  const h = weights.ha * da + weights.hb * db
  off[0] = l
  off[1] = c
  off[2] = h
  let all = 0
  for (let ink = 0; ink < inks; ink++) all += shares[ink] ?? 0
  const over = Math.max(0, all - limit)
  return l * l + c * c + h * h + PRICE_OF_INK * all + PRICE_OVER_LIMIT * over * over
}

/**
 * How the difference changes with each ink, at the shares looked at last: the chances of the later
 * inks' combinations weigh what the ink makes of what lies under it.
 */
function findSlopes(
  shares: Float64Array,
  weights: Weights,
  { inks, scratch: { folded, chances, slopes } }: Mixer,
): void {
  const xyz = folded[0] ?? slopes
  const sx = labRootSlope((xyz[0] ?? 0) / WHITE_D50[0]) / WHITE_D50[0]
  const sy = labRootSlope(xyz[1] ?? 0)
  const sz = labRootSlope((xyz[2] ?? 0) / WHITE_D50[2]) / WHITE_D50[2]
  const first = chances[0]
  if (first !== undefined) first[0] = 1
  for (let ink = 0; ink < inks; ink++) {
    const [from, own, next] = [folded[ink + 1], chances[ink], chances[ink + 1]]
    if (from === undefined || own === undefined || next === undefined) continue
    const share = shares[ink] ?? 0
    const half = own.length
    let [dx, dy, dz] = [0, 0, 0]
    for (let place = 0, at = 0, to = 3 * half; place < half; place++, at += 3, to += 3) {
      const chance = own[place] ?? 0
      dx += chance * ((from[to] ?? 0) - (from[at] ?? 0))
      dy += chance * ((from[to + 1] ?? 0) - (from[at + 1] ?? 0))
      dz += chance * ((from[to + 2] ?? 0) - (from[at + 2] ?? 0))
      next[place] = chance * (1 - share)
      next[place + half] = chance * share
    }
    dx *= sx
    dy *= sy
    dz *= sz
    const da = 500 * (dx - dy)
    const db = 200 * (dy - dz)
    slopes[3 * ink] = 116 * dy
    slopes[3 * ink + 1] = weights.ca * da + weights.cb * db
    slopes[3 * ink + 2] = weights.ha * da + weights.hb * db
  }
}

/** Shares after one damped step, each kept between 0 and 1. */
function stepTo(
  next: Float64Array,
  {
    shares,
    damping,
    mixer: { inks, limit, scratch },
  }: Readonly<{ shares: Float64Array; damping: number; mixer: Mixer }>,
): void {
  const { off, slopes, pull, rows, free } = scratch
  let all = 0
  for (let ink = 0; ink < inks; ink++) all += shares[ink] ?? 0
  const over = Math.max(0, all - limit)
  let count = 0
  for (let ink = 0; ink < inks; ink++) {
    let sum = PRICE_OF_INK / 2 + PRICE_OVER_LIMIT * over
    for (let part = 0; part < 3; part++) sum += (slopes[3 * ink + part] ?? 0) * (off[part] ?? 0)
    pull[ink] = sum
    // an ink at its end that would be pushed beyond stays there
    const share = shares[ink] ?? 0
    if (!((share <= 0 && sum > 0) || (share >= 1 && sum < 0))) free[count++] = ink
  }
  const across = count + 1
  const together = over > 0 ? PRICE_OVER_LIMIT : 0
  for (let row = 0; row < count; row++) {
    const ink = free[row] ?? 0
    for (let column = 0; column < count; column++) {
      const other = free[column] ?? 0
      let sum = ink === other ? together + damping : together
      for (let part = 0; part < 3; part++) {
        sum += (slopes[3 * ink + part] ?? 0) * (slopes[3 * other + part] ?? 0)
      }
      rows[row * across + column] = sum
    }
    rows[row * across + count] = -(pull[ink] ?? 0)
  }
  solve(rows, count)
  next.set(shares)
  for (let row = 0; row < count; row++) {
    const ink = free[row] ?? 0
    const moved = (next[ink] ?? 0) + (rows[row * across + count] ?? 0)
    next[ink] = moved < 0 ? 0 : moved > 1 ? 1 : moved
  }
}

/** Rows of a symmetric positive system, its right side last, by elimination: the answer in its place. */
function solve(rows: Float64Array, count: number): void {
  const across = count + 1
  for (let pivot = 0; pivot < count; pivot++) {
    const from = pivot * across
    for (let row = pivot + 1; row < count; row++) {
      const into = row * across
      const part = (rows[into + pivot] ?? 0) / (rows[from + pivot] ?? 1)
      for (let at = pivot; at <= count; at++) {
        rows[into + at] = (rows[into + at] ?? 0) - part * (rows[from + at] ?? 0)
      }
    }
  }
  for (let row = count - 1; row >= 0; row--) {
    const own = row * across
    let sum = rows[own + count] ?? 0
    for (let at = row + 1; at < count; at++) {
      sum -= (rows[own + at] ?? 0) * (rows[at * across + count] ?? 0)
    }
    rows[own + count] = sum / (rows[own + row] ?? 1)
  }
}

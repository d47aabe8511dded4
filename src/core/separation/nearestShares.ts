import { labFromXyz50, WHITE_D50 } from '../colour/lab.ts'
import type { Lab, Xyz } from '../colour/space.ts'

/** A set of inks ready for looking for mixtures. */
export type Mixer = Readonly<{
  inks: number
  /** X, Y and Z of each combination of solids, in the order of `demichelWeights`. */
  primaries: Float64Array
  /** What may lie at one place, in solids. */
  limit: number
}>

export function mixerOf(primaries: readonly Xyz[], { limit }: Readonly<{ limit: number }>): Mixer {
  return {
    inks: Math.log2(primaries.length),
    primaries: Float64Array.from(primaries.flat()),
    limit,
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
  const search = searchFor(target, mixer)
  let shares: Float64Array = Float64Array.from(start)
  let cost = search.look(shares)
  let damping = 1
  for (let step = 0; step < STEPS && damping < 1e6; step++) {
    search.slopes(shares)
    const next = search.step(shares, damping)
    const nextCost = search.look(next)
    if (nextCost >= cost) {
      search.look(shares)
      damping *= 6
      continue
    }
    const gained = cost - nextCost
    shares = next
    cost = nextCost
    damping /= 4
    if (gained < SETTLED) break
  }
  return { shares, cost }
}

/** What shares of the inks look like. */
export function mixedColour(shares: Float64Array, { inks, primaries }: Mixer): Lab {
  const folded = primaries.slice()
  for (let ink = inks - 1; ink >= 0; ink--) {
    const half = 3 * 2 ** ink
    for (let place = 0; place < half; place++) {
      const clear = folded[place] ?? 0
      folded[place] = clear + (shares[ink] ?? 0) * ((folded[place + half] ?? 0) - clear)
    }
  }
  return labFromXyz50([folded[0] ?? 0, folded[1] ?? 0, folded[2] ?? 0])
}

/** How far a colour is from another in squares, chroma and hue weighed by the target's chroma. */
export function weighedSquare([l, a, b]: Lab, target: Lab): number {
  const weights = weightsOf(target)
  const [dl, da, db] = [l - target[0], a - target[1], b - target[2]]
  const [c, h] = [weights.ca * da + weights.cb * db, weights.ha * da + weights.hb * db]
  return dl * dl + c * c + h * h
}

type Weights = Readonly<{ ca: number; cb: number; ha: number; hb: number }>

function weightsOf([, a, b]: Lab): Weights {
  const chroma = Math.hypot(a, b)
  if (chroma < 1e-6) return { ca: 1, cb: 0, ha: 0, hb: 1 }
  const [toC, toH] = [1 / (1 + 0.045 * chroma) / chroma, 1 / (1 + 0.015 * chroma) / chroma]
  return { ca: toC * a, cb: toC * b, ha: -toH * b, hb: toH * a }
}

type Search = Readonly<{
  /** The cost of shares; remembers how far off they are. */
  look: (shares: Float64Array) => number
  /** How the difference changes with each ink, at the shares looked at. */
  slopes: (shares: Float64Array) => void
  step: (shares: Float64Array, damping: number) => Float64Array
}>

function searchFor(target: Lab, { inks, primaries, limit }: Mixer): Search {
  const weights = weightsOf(target)
  const folded = new Float64Array(primaries.length)
  const xyz = new Float64Array(3)
  const off = new Float64Array(3)
  const slopes = new Float64Array(3 * inks)
  const root = new Float64Array(3)
  let over = 0
  /** Lays the inks' chances together, one after another; one of them may be held at 0 or 1. */
  const mix = (shares: Float64Array, held: number, at: number): void => {
    folded.set(primaries)
    for (let ink = inks - 1; ink >= 0; ink--) {
      const share = ink === held ? at : (shares[ink] ?? 0)
      const half = 3 * 2 ** ink
      for (let place = 0; place < half; place++) {
        const clear = folded[place] ?? 0
        folded[place] = clear + share * ((folded[place + half] ?? 0) - clear)
      }
    }
  }
  const turned = (l: number, a: number, b: number, into: Float64Array, at: number): void => {
    into[at] = l
    into[at + 1] = weights.ca * a + weights.cb * b
    into[at + 2] = weights.ha * a + weights.hb * b
  }
  return {
    look: (shares) => {
      mix(shares, -1, 0)
      xyz.set(folded.subarray(0, 3))
      for (const channel of [0, 1, 2] as const)
        root[channel] = f((xyz[channel] ?? 0) / WHITE_D50[channel])
      const [x = 0, y = 0, z = 0] = root
      turned(116 * y - 16 - target[0], 500 * (x - y) - target[1], 200 * (y - z) - target[2], off, 0)
      let all = 0
      for (let ink = 0; ink < inks; ink++) all += shares[ink] ?? 0
      over = Math.max(0, all - limit)
      const [l = 0, c = 0, h = 0] = off
      return l * l + c * c + h * h + PRICE_OF_INK * all + PRICE_OVER_LIMIT * over * over
    },
    slopes: (shares) => {
      for (let ink = 0; ink < inks; ink++) {
        mix(shares, ink, 1)
        const [x1 = 0, y1 = 0, z1 = 0] = folded
        mix(shares, ink, 0)
        const [x0 = 0, y0 = 0, z0 = 0] = folded
        const [dx, dy, dz] = [
          (slopeOfF((xyz[0] ?? 0) / WHITE_D50[0]) * (x1 - x0)) / WHITE_D50[0],
          slopeOfF(xyz[1] ?? 0) * (y1 - y0),
          (slopeOfF((xyz[2] ?? 0) / WHITE_D50[2]) * (z1 - z0)) / WHITE_D50[2],
        ]
        turned(116 * dy, 500 * (dx - dy), 200 * (dy - dz), slopes, 3 * ink)
      }
    },
    step: (shares, damping) => {
      const pull = Array.from({ length: inks }, (_, ink) => {
        let sum = PRICE_OF_INK / 2 + PRICE_OVER_LIMIT * over
        for (let part = 0; part < 3; part++) sum += (slopes[3 * ink + part] ?? 0) * (off[part] ?? 0)
        return sum
      })
      // an ink at its end that would be pushed beyond stays there
      const free = pull.flatMap((sum, ink) => {
        const share = shares[ink] ?? 0
        return (share <= 0 && sum > 0) || (share >= 1 && sum < 0) ? [] : [ink]
      })
      const rows = free.map((ink) => [
        ...free.map((other) => {
          let sum = over > 0 ? PRICE_OVER_LIMIT : 0
          for (let part = 0; part < 3; part++) {
            sum += (slopes[3 * ink + part] ?? 0) * (slopes[3 * other + part] ?? 0)
          }
          return ink === other ? sum + damping : sum
        }),
        -(pull[ink] ?? 0),
      ])
      const moves = solved(rows)
      const next = shares.slice()
      free.forEach((ink, at) => {
        next[ink] = Math.min(1, Math.max(0, (next[ink] ?? 0) + (moves[at] ?? 0)))
      })
      return next
    },
  }
}

/** Rows of a symmetric positive system with its right side last, by elimination. */
function solved(rows: number[][]): readonly number[] {
  const count = rows.length
  for (let pivot = 0; pivot < count; pivot++) {
    const from = rows[pivot] ?? []
    for (let row = pivot + 1; row < count; row++) {
      const into = rows[row] ?? []
      const part = (into[pivot] ?? 0) / (from[pivot] ?? 1)
      for (let at = pivot; at <= count; at++) into[at] = (into[at] ?? 0) - part * (from[at] ?? 0)
    }
  }
  const answer = Array.from({ length: count }, () => 0)
  for (let row = count - 1; row >= 0; row--) {
    const own = rows[row] ?? []
    let sum = own[count] ?? 0
    for (let at = row + 1; at < count; at++) sum -= (own[at] ?? 0) * (answer[at] ?? 0)
    answer[row] = sum / (own[row] ?? 1)
  }
  return answer
}

const EPSILON = 216 / 24_389
const KAPPA = 24_389 / 27

/** @source cie-lab */
function f(t: number): number {
  return t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116
}

function slopeOfF(t: number): number {
  return t > EPSILON ? 1 / (3 * Math.cbrt(t) ** 2) : KAPPA / 116
}

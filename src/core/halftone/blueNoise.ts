import { expectIn, type Range } from '../units/range.ts'
import { SOLID } from './solid.ts'

/** Pixels along a side of the mask, which repeats without a seam. */
export const MASK_SIDE = 128

export const SEED: Range = { name: 'seed', low: 0, high: 2 ** 32 - 1, unit: '', whole: true }

const SIDE = MASK_SIDE
const PIXELS = SIDE ** 2
/** Width of the Gaussian by which clusters and voids are weighed, in pixels, and where it ends. */
const SIGMA_PX = 1.5
const REACH_PX = 7
/** A tenth of all. */
const FIRST_COUNT = Math.ceil(PIXELS / 10)

/**
 * Thresholds of a stochastic screen: neighbours differ as much as can be, so that a tone's dots lie
 * evenly and without pattern. By void and cluster: points of a first scatter change places until
 * none stands in a cluster; those are ranked by taking out the tightest cluster again and again, the
 * others by filling the largest void. What is left void past the half is where white points are
 * densest, so that one rule fills the mask to its end.
 *
 * @param seed whole, 0 … 2^32 − 1; each gives another mask of the same kind
 * @param ranksOf which pixel turns black first, second …; in plain loops unless told otherwise
 * @returns MASK_SIDE rows of thresholds 0 … 65 534, evenly spread
 * @source ulichney1993
 */
export function blueNoise(
  { seed }: Readonly<{ seed: number }>,
  ranksOf: (plan: RankPlan) => Int32Array = plainRanks,
): Uint16Array {
  expectIn(seed, SEED)
  const ranks = ranksOf({ seed, gaussian: GAUSSIAN, firstCount: FIRST_COUNT, pixels: PIXELS })
  return new Uint16Array(PIXELS).map((_, at) =>
    Math.floor((((ranks[at] ?? 0) + 0.5) * SOLID) / PIXELS),
  )
}

/** What pixels of a mask are ranked by: a seed, the Gaussian's values and how many are scattered first. */
export type RankPlan = Readonly<{
  seed: number
  gaussian: Float64Array
  firstCount: number
  pixels: number
}>

function plainRanks({ seed, firstCount: first }: RankPlan): Int32Array {
  const field = scattered(seed)
  settle(field)
  const ranks = new Int32Array(PIXELS).fill(-1)
  const kept = copyOf(field)
  for (let rank = first - 1; rank >= 0; rank--) {
    const at = tightest(field)
    toggle(field, at)
    ranks[at] = rank
  }
  for (let rank = first; rank < PIXELS; rank++) {
    const at = largestVoid(kept)
    toggle(kept, at)
    ranks[at] = rank
  }
  return ranks
}

/** Points on a torus, how much of the Gaussian each pixel sees of them, and each row's extremes. */
type Field = {
  points: number
  readonly on: Uint8Array
  readonly weight: Float64Array
  readonly rowTightest: Int32Array
  readonly rowVoid: Int32Array
}

const GAUSSIAN: Float64Array = Float64Array.from({ length: (2 * REACH_PX + 1) ** 2 }, (_, at) => {
  const x = (at % (2 * REACH_PX + 1)) - REACH_PX
  const y = Math.floor(at / (2 * REACH_PX + 1)) - REACH_PX
  return Math.exp(-(x * x + y * y) / (2 * SIGMA_PX ** 2))
})

function scattered(seed: number): Field {
  const field: Field = {
    points: 0,
    on: new Uint8Array(PIXELS),
    weight: new Float64Array(PIXELS),
    rowTightest: new Int32Array(SIDE).fill(-1),
    rowVoid: new Int32Array(SIDE).fill(-1),
  }
  const random = randomFrom(seed)
  while (field.points < FIRST_COUNT) {
    const at = Math.floor(random() * PIXELS)
    if (field.on[at] === 0) toggle(field, at)
  }
  for (let row = 0; row < SIDE; row++) scanRow(field, row)
  return field
}

/** Takes the tightest point out and puts it into the largest void until that is where it stood. */
function settle(field: Field): void {
  for (;;) {
    const from = tightest(field)
    toggle(field, from)
    const to = largestVoid(field)
    toggle(field, to)
    if (to === from) return
  }
}

function copyOf(field: Field): Field {
  return {
    points: field.points,
    on: field.on.slice(),
    weight: field.weight.slice(),
    rowTightest: field.rowTightest.slice(),
    rowVoid: field.rowVoid.slice(),
  }
}

function toggle(field: Field, at: number): void {
  const { on, weight } = field
  const sign = on[at] === 0 ? 1 : -1
  on[at] = on[at] === 0 ? 1 : 0
  field.points += sign
  const [x, y] = [at % SIDE, Math.floor(at / SIDE)]
  let part = 0
  for (let dy = -REACH_PX; dy <= REACH_PX; dy++) {
    const row = (y + dy + SIDE) % SIDE
    for (let dx = -REACH_PX; dx <= REACH_PX; dx++) {
      const place = row * SIDE + ((x + dx + SIDE) % SIDE)
      weight[place] = (weight[place] ?? 0) + sign * (GAUSSIAN[part] ?? 0)
      part += 1
    }
    lookAgain(field, { row, x })
  }
}

/** A row's extremes after its pixels about x have changed: those that stood there are sought anew. */
function lookAgain(field: Field, { row, x }: Readonly<{ row: number; x: number }>): void {
  const { on, weight, rowTightest, rowVoid } = field
  let [tight, empty] = [rowTightest[row] ?? -1, rowVoid[row] ?? -1]
  if (isNear(tight, x) || isNear(empty, x)) {
    scanRow(field, row)
    return
  }
  let [most, least] = [weight[tight] ?? 0, weight[empty] ?? 0]
  for (let dx = -REACH_PX; dx <= REACH_PX; dx++) {
    const place = row * SIDE + ((x + dx + SIDE) % SIDE)
    const value = weight[place] ?? 0
    // of equals the first of the row counts
    if (on[place] === 1) {
      if (value > most || (value === most && place < tight)) [most, tight] = [value, place]
    } else if (value < least || (value === least && place < empty)) {
      ;[least, empty] = [value, place]
    }
  }
  rowTightest[row] = tight
  rowVoid[row] = empty
}

function isNear(at: number, x: number): boolean {
  return at < 0 || ((at % SIDE) - x + REACH_PX + SIDE) % SIDE <= 2 * REACH_PX
}

function scanRow({ on, weight, rowTightest, rowVoid }: Field, row: number): void {
  let [most, mostAt, least, leastAt] = [-Infinity, -1, Infinity, -1]
  for (let at = row * SIDE; at < (row + 1) * SIDE; at++) {
    const value = weight[at] ?? 0
    if (on[at] === 1) {
      if (value > most) {
        most = value
        mostAt = at
      }
    } else if (value < least) {
      least = value
      leastAt = at
    }
  }
  rowTightest[row] = mostAt
  rowVoid[row] = leastAt
}

function tightest({ rowTightest, weight }: Field): number {
  let best = -1
  for (const at of rowTightest) {
    if (at >= 0 && (best < 0 || (weight[at] ?? 0) > (weight[best] ?? 0))) best = at
  }
  return best
}

function largestVoid({ rowVoid, weight }: Field): number {
  let best = -1
  for (const at of rowVoid) {
    if (at >= 0 && (best < 0 || (weight[at] ?? 0) < (weight[best] ?? 0))) best = at
  }
  return best
}

/** Numbers 0 … 1 of a 32-bit state: additive steps, mixed by multiplication. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

import type { Goal } from './plan.ts'
import type { PlacementProblem } from './problem.ts'
import {
  ABOVE_OF,
  BELOW_OF,
  CORNERS,
  HIGH,
  LEFT_OF,
  RIGHT_OF,
  STRAIGHT,
  WAY,
  WIDE,
} from './ways.ts'
import { EITHER, type Windows } from './windows.ts'

/** Rounding of sums of millimetres. */
const SLACK_MM = 1e-9
/** Windows are drawn closer as long as one moves; an order in a circle would take many rounds. */
const MOST_ROUNDS = 60

/** Two rectangles that are too close at their first places. */
type TooClose = Readonly<{
  missedMm: number
  /** A gap along x between what there is and what there would be; for one corner. */
  splitMm: number
}>

/** The test of the search: what is left of windows at a value of the goal. */
export type Narrowing = Readonly<{
  /** Films before keep-outs; a keep-out is never the first of a pair. */
  pairs: readonly Readonly<{ one: number; other: number }>[]
  /** From here on all is asked at this value. */
  at: (value: number) => void
  /** Draws every window as close as the rest asks; false where none is left. */
  narrowed: (windows: Windows) => boolean
  /** Null where a pair at its first places is as far apart as is asked, or not told to be. */
  tooClose: (windows: Windows, pair: number) => TooClose | null
}>

/**
 * How windows of films inside a frame narrow one another. Of arrangements that mirror each other,
 * and of films that are the same, one is kept.
 *
 * @param problem films in the order of the search
 */
export function narrowing(problem: PlacementProblem, goal: Goal): Narrowing {
  const { frame, films, clearance, keepOut } = problem
  const count = films.length
  const all = count + keepOut.length
  const pairs: { one: number; other: number }[] = []
  for (let other = 1; other < all; other++) {
    for (let one = 0; one < Math.min(other, count); one++) pairs.push({ one, other })
  }
  const ones = Uint8Array.from(pairs, ({ one }) => one)
  const others = Uint8Array.from(pairs, ({ other }) => other)
  const twins = Uint8Array.from(pairs, ({ one, other }) => {
    const [a, b] = [films[one], films[other]]
    if (a === undefined || b === undefined) return 0
    return a.widthMm === b.widthMm && a.heightMm === b.heightMm && a.turn === b.turn ? 1 : 0
  })
  // three of each: as it is, turned, either way
  const widths = new Float64Array(3 * all)
  const heights = new Float64Array(3 * all)
  for (const [at, { widthMm, heightMm }] of [...films, ...keepOut].entries()) {
    const less = Math.min(widthMm, heightMm)
    widths.set([widthMm, heightMm, less], 3 * at)
    heights.set([heightMm, widthMm, less], 3 * at)
  }
  let [edge, lengthX, lengthY, between, offBox] = [0, 0, 0, 0, 0]

  /** Each film inside the frame, the first in its back left quarter. */
  const framed = ({ left, top, right, bottom, turned }: Windows): void => {
    for (let film = 0; film < count; film++) {
      left[film] = Math.max(left[film] ?? 0, edge)
      top[film] = Math.max(top[film] ?? 0, edge)
      right[film] = Math.min(right[film] ?? 0, lengthX - edge)
      bottom[film] = Math.min(bottom[film] ?? 0, lengthY - edge)
    }
    if (keepOut.length > 0) return
    const turn = turned[0] ?? 0
    const most = Math.max(widths[0] ?? 0, heights[0] ?? 0)
    const [wide, high] = turn === EITHER ? [most, most] : [widths[turn] ?? 0, heights[turn] ?? 0]
    right[0] = Math.min(right[0] ?? 0, (lengthX + wide) / 2 + SLACK_MM)
    bottom[0] = Math.min(bottom[0] ?? 0, (lengthY + high) / 2 + SLACK_MM)
  }

  /** Whether each has room in its window; one that has it one way only lies that way. */
  const haveRoom = ({ left, top, right, bottom, turned }: Windows): boolean => {
    for (let film = 0; film < all; film++) {
      const across = (right[film] ?? 0) - (left[film] ?? 0) + SLACK_MM
      const down = (bottom[film] ?? 0) - (top[film] ?? 0) + SLACK_MM
      const turn = turned[film] ?? 0
      const first = 3 * film + (turn === EITHER ? 0 : turn)
      const holds = (widths[first] ?? 0) <= across && (heights[first] ?? 0) <= down
      if (turn !== EITHER) {
        if (!holds) return false
        continue
      }
      const holdsTurned = (widths[first + 1] ?? 0) <= across && (heights[first + 1] ?? 0) <= down
      if (!holds && !holdsTurned) return false
      if (!holds) turned[film] = 1
      else if (!holdsTurned) turned[film] = 0
    }
    return true
  }

  /** 0: nothing moved, 1: a window did, −1: no way is left. */
  const pairNarrowed = (windows: Windows, pair: number): -1 | 0 | 1 => {
    const { left, top, right, bottom, turned, ways, leastAcross, mostAcross } = windows
    const a = ones[pair] ?? 0
    const b = others[pair] ?? 0
    const gap = b >= count ? offBox : between
    const [atA, atB] = [3 * a + (turned[a] ?? 0), 3 * b + (turned[b] ?? 0)]
    const [wideA, wideB] = [widths[atA] ?? 0, widths[atB] ?? 0]
    const [highA, highB] = [heights[atA] ?? 0, heights[atB] ?? 0]
    // the most room that can be between them, each way round
    const wides = wideA + wideB - SLACK_MM
    const highs = highA + highB - SLACK_MM
    const roomLeft = (right[b] ?? 0) - (left[a] ?? 0) - wides
    const roomRight = (right[a] ?? 0) - (left[b] ?? 0) - wides
    const roomAbove = (bottom[b] ?? 0) - (top[a] ?? 0) - highs
    const roomBelow = (bottom[a] ?? 0) - (top[b] ?? 0) - highs
    let way = ways[pair] ?? 0
    if (twins[pair] === 1 && turned[a] === turned[b] && turned[a] !== EITHER) way &= ~RIGHT_OF
    if (roomLeft < gap) way &= ~WAY.left
    if (roomRight < gap) way &= ~WAY.right
    if (roomAbove < gap) way &= ~WAY.above
    if (roomBelow < gap) way &= ~WAY.below
    if (gap <= 0) way &= STRAIGHT
    const half = gap * Math.SQRT1_2
    const least = leastAcross[pair] ?? 0
    const most = Math.min(gap, mostAcross[pair] ?? gap)
    const wideDown = way > STRAIGHT && most < gap ? legOf(gap, most) : 0
    // across a corner: the less room there is along one axis, the more is asked along the other
    const wideAcross = (down: number): number =>
      Math.max(half, least, legOf(gap, Math.min(half, down)))
    const highDown = (across: number): number =>
      Math.max(half, legOf(gap, Math.min(half, most, across)))
    if (way > STRAIGHT) {
      if (most < half - SLACK_MM) way &= ~WIDE
      if (least > half + SLACK_MM) way &= ~HIGH
      for (const corner of CORNERS) {
        if ((way & corner) === 0) continue
        const across = (corner & LEFT_OF) !== 0 ? roomLeft : roomRight
        const down = (corner & ABOVE_OF) !== 0 ? roomAbove : roomBelow
        const holds =
          (corner & WIDE) !== 0
            ? across >= wideAcross(down) && down >= wideDown
            : down >= highDown(across) && across >= least
        if (!holds) way &= ~corner
      }
    }
    if (way === 0) return -1
    ways[pair] = way
    const straight = (way & STRAIGHT) !== 0
    let moved = false
    if ((way & ~LEFT_OF) === 0 || (way & ~RIGHT_OF) === 0) {
      let ask = straight ? gap : Number.POSITIVE_INFINITY
      if ((way & WIDE & ABOVE_OF) !== 0) ask = Math.min(ask, wideAcross(roomAbove))
      if ((way & WIDE & BELOW_OF) !== 0) ask = Math.min(ask, wideAcross(roomBelow))
      if ((way & HIGH) !== 0) ask = Math.min(ask, least)
      const cap = straight ? null : (way & WIDE) === 0 ? Math.min(half, most) : most
      moved =
        (way & ~LEFT_OF) === 0
          ? apart(left, right, { first: a, firstMm: wideA, second: b, secondMm: wideB, ask, cap })
          : apart(left, right, { first: b, firstMm: wideB, second: a, secondMm: wideA, ask, cap })
    }
    if ((way & ~ABOVE_OF) === 0 || (way & ~BELOW_OF) === 0) {
      let ask = straight ? gap : Number.POSITIVE_INFINITY
      if ((way & HIGH & LEFT_OF) !== 0) ask = Math.min(ask, highDown(roomLeft))
      if ((way & HIGH & RIGHT_OF) !== 0) ask = Math.min(ask, highDown(roomRight))
      if ((way & WIDE) !== 0) ask = Math.min(ask, wideDown)
      const cap = straight ? null : (way & HIGH) === 0 ? half : legOf(gap, least) + SLACK_MM
      moved =
        ((way & ~ABOVE_OF) === 0
          ? apart(top, bottom, { first: a, firstMm: highA, second: b, secondMm: highB, ask, cap })
          : apart(top, bottom, {
              first: b,
              firstMm: highB,
              second: a,
              secondMm: highA,
              ask,
              cap,
            })) || moved
    }
    return moved ? 1 : 0
  }

  return {
    pairs,
    at: (value) => {
      const scale = goal === 'scale' ? value : 1
      const relief = goal === 'relief' ? value : 0
      edge = clearance.frameMm - relief
      between = Math.max(0, clearance.betweenMm - relief)
      offBox = -relief
      lengthX = frame.insideWidthMm * scale
      lengthY = frame.insideHeightMm * scale
    },
    narrowed: (windows) => {
      framed(windows)
      if (!haveRoom(windows)) return false
      for (let round = 0, moved = true; moved && round < MOST_ROUNDS; round++) {
        moved = false
        for (let pair = 0; pair < ones.length; pair++) {
          const narrow = pairNarrowed(windows, pair)
          if (narrow < 0) return false
          if (narrow > 0) moved = true
        }
        if (moved && !haveRoom(windows)) return false
      }
      return true
    },
    tooClose: ({ left, top, turned }, pair) => {
      const a = ones[pair] ?? 0
      const b = others[pair] ?? 0
      const gap = b >= count ? offBox : between
      const [atA, atB] = [3 * a + (turned[a] ?? 0), 3 * b + (turned[b] ?? 0)]
      const [x, y] = [(left[b] ?? 0) - (left[a] ?? 0), (top[b] ?? 0) - (top[a] ?? 0)]
      const across = Math.max(x - (widths[atA] ?? 0), -x - (widths[atB] ?? 0))
      const down = Math.max(y - (heights[atA] ?? 0), -y - (heights[atB] ?? 0))
      const isSlant = across > 0 && down > 0
      const missedMm = gap - (isSlant ? Math.hypot(across, down) : Math.max(across, down))
      return missedMm <= MISSED_MM ? null : { missedMm, splitMm: splitOf(across, down, gap) }
    },
  }
}

/** A gap may be missed by so much while it is searched for. */
const MISSED_MM = 1e-6

/** Halfway round the corner between the gap along x that there is and the one that would do. */
function splitOf(across: number, down: number, gap: number): number {
  const from = Math.asin(Math.min(1, Math.max(0, across) / gap))
  const to = Math.acos(Math.min(1, Math.max(0, down) / gap))
  return gap * Math.sin((from + to) / 2)
}

/** The other leg that a gap asks where one leg is at most so long. */
function legOf(gap: number, leg: number): number {
  return leg >= gap ? 0 : Math.sqrt(gap * gap - Math.max(0, leg) ** 2) - SLACK_MM
}

/** The second begins `ask` behind the end of the first or later, and `cap` at most; whether one moved. */
function apart(
  begins: Float64Array,
  ends: Float64Array,
  {
    first,
    firstMm,
    second,
    secondMm,
    ask,
    cap,
  }: Readonly<{
    first: number
    firstMm: number
    second: number
    secondMm: number
    ask: number
    cap: number | null
  }>,
): boolean {
  let moved = raised(begins, second, (begins[first] ?? 0) + firstMm + ask)
  moved = lowered(ends, first, (ends[second] ?? 0) - secondMm - ask) || moved
  if (cap === null) return moved
  moved = raised(begins, first, (begins[second] ?? 0) - cap - firstMm) || moved
  return lowered(ends, second, (ends[first] ?? 0) + cap + secondMm) || moved
}

function raised(places: Float64Array, at: number, least: number): boolean {
  if ((places[at] ?? 0) >= least - SLACK_MM) return false
  places[at] = least
  return true
}

function lowered(places: Float64Array, at: number, most: number): boolean {
  if ((places[at] ?? 0) <= most + SLACK_MM) return false
  places[at] = most
  return true
}

import type { Goal } from './plan.ts'
import type { Box, PlacedFilm, PlacementProblem } from './problem.ts'

type Laid = Readonly<{ films: readonly PlacedFilm[]; value: number }>

const HALVINGS = 50

/**
 * Films in rows, the highest first, each row from the left: no claim that it is the best, for any
 * number of films, and for a first bound.
 *
 * @param high a value of the goal at which rows do fit
 */
export function inRows(
  problem: PlacementProblem,
  { goal, low, high }: Readonly<{ goal: Goal; low: number; high: number }>,
): Laid | null {
  const ways = WAYS.map((turns) => leastRows(problem, { goal, low, high, turns }))
  return ways.reduce<Laid | null>(
    (best, laid) => (laid !== null && (best === null || laid.value < best.value) ? laid : best),
    null,
  )
}

/** Which way films that may be turned lie in their rows. */
const WAYS = ['as they are', 'lying', 'upright'] as const
type Turns = (typeof WAYS)[number]

function leastRows(
  problem: PlacementProblem,
  { goal, low, high, turns }: Readonly<{ goal: Goal; low: number; high: number; turns: Turns }>,
): Laid | null {
  let films = rowsAt(problem, { goal, value: high, turns })
  if (films === null) return null
  let [less, enough] = [low, high]
  for (let halving = 0; halving < HALVINGS; halving++) {
    const value = (less + enough) / 2
    const laid = rowsAt(problem, { goal, value, turns })
    if (laid === null) less = value
    else {
      enough = value
      films = laid
    }
  }
  return { films, value: enough }
}

function rowsAt(
  { frame, films, clearance, keepOut }: PlacementProblem,
  { goal, value, turns }: Readonly<{ goal: Goal; value: number; turns: Turns }>,
): readonly PlacedFilm[] | null {
  const scale = goal === 'scale' ? value : 1
  const relief = goal === 'relief' ? value : 0
  const edge = clearance.frameMm - relief
  const between = Math.max(0, clearance.betweenMm - relief)
  const right = frame.insideWidthMm * scale - edge
  const bottom = frame.insideHeightMm * scale - edge
  const boxes = keepOut.map((box) => shrunk(box, relief))
  const lying = films
    .map((film, at) => {
      const turned = isTurned(film, turns)
      const [widthMm, heightMm] = turned
        ? [film.heightMm, film.widthMm]
        : [film.widthMm, film.heightMm]
      return { at, name: film.name, turned, widthMm, heightMm }
    })
    .sort((a, b) => b.heightMm - a.heightMm || b.widthMm - a.widthMm || a.at - b.at)
  const placed: (PlacedFilm & Readonly<{ at: number }>)[] = []
  let [x, top, rowHigh] = [edge, edge, 0]
  for (const { at, name, turned, widthMm, heightMm } of lying) {
    for (;;) {
      const film = { xMm: x, yMm: top, widthMm, heightMm }
      const inTheWay = boxes.find((box) => overlap(film, box))
      if (x + widthMm > right + 1e-9) {
        if (top + heightMm > bottom + 1e-9 || (x === edge && rowHigh === 0 && !boxes.length))
          return null
        const below = rowHigh > 0 ? top + rowHigh + between : lowestBelow(boxes, top)
        if (below === null || below <= top) return null
        ;[x, top, rowHigh] = [edge, below, 0]
      } else if (inTheWay !== undefined) x = inTheWay.xMm + inTheWay.widthMm
      else break
    }
    if (top + heightMm > bottom + 1e-9) return null
    placed.push({ at, name, xMm: x, yMm: top, turned })
    x += widthMm + between
    rowHigh = Math.max(rowHigh, heightMm)
  }
  return placed
    .sort((a, b) => a.at - b.at)
    .map(({ name, xMm, yMm, turned }) => ({ name, xMm, yMm, turned }))
}

function isTurned(
  { turn, widthMm, heightMm }: PlacementProblem['films'][number],
  turns: Turns,
): boolean {
  if (turn === 'fixed' || turns === 'as they are') return false
  return turns === 'lying' ? heightMm > widthMm : widthMm > heightMm
}

/** Where the next box ends below a row in which nothing had room. */
function lowestBelow(boxes: readonly Box[], top: number): number | null {
  const ends = boxes.map(({ yMm, heightMm }) => yMm + heightMm).filter((end) => end > top + 1e-9)
  return ends.length === 0 ? null : Math.min(...ends)
}

function shrunk({ xMm, yMm, widthMm, heightMm }: Box, relief: number): Box {
  const [across, down] = [Math.min(relief, widthMm / 2), Math.min(relief, heightMm / 2)]
  return {
    xMm: xMm + across,
    yMm: yMm + down,
    widthMm: widthMm - 2 * across,
    heightMm: heightMm - 2 * down,
  }
}

function overlap(a: Box, b: Box): boolean {
  return (
    a.xMm < b.xMm + b.widthMm - 1e-9 &&
    b.xMm < a.xMm + a.widthMm - 1e-9 &&
    a.yMm < b.yMm + b.heightMm - 1e-9 &&
    b.yMm < a.yMm + a.heightMm - 1e-9
  )
}

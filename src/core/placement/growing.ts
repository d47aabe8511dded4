import type { Goal } from './plan.ts'
import type { PlacementProblem } from './problem.ts'
import { axisSides, type Side } from './sides.ts'

/** Rounding of sums of millimetres. */
const SLACK_MM = 1e-9

/**
 * A plan while it grows, film by film and pair by pair, and whether what it has so far can do as
 * well as a value of the goal. What was worked out for the plan before its last step is taken on
 * from, as a step can only push films further; and a smaller value as well.
 */
export type Growing = Readonly<{
  /** The next film, turned or not. */
  film: (turned: boolean) => void
  /** Two films apart; a slant by the least that any lean asks. */
  pair: (one: number, other: number, side: Side) => void
  offBox: (film: number, box: number, side: Side) => void
  /** Takes the last step back. */
  back: () => void
  mayReach: (value: number) => boolean
}>

type Step = Readonly<{ films: number; xEdges: number; yEdges: number; boxes: number }>

export function growing(problem: PlacementProblem, goal: Goal): Growing {
  const { frame, films, clearance, keepOut } = problem
  const count = films.length
  const most = count * count + count * keepOut.length + count + 1
  const x = axisOf(count, most)
  const y = axisOf(count, most)
  const boxes: Readonly<{ film: number; box: number; side: Side }>[] = []
  const steps: Step[] = []
  let placed = 0

  const mark = (): void => {
    steps.push({ films: placed, xEdges: x.edges, yEdges: y.edges, boxes: boxes.length })
    x.deepen()
    y.deepen()
  }

  const boxesHold = (axis: Axis, along: 'x' | 'y', relief: number): boolean => {
    const [before, after] = along === 'x' ? ['left', 'right'] : ['above', 'below']
    for (const { film, box, side } of boxes) {
      if (side !== before && side !== after) continue
      const kept = keepOut[box]
      if (kept === undefined) continue
      const [start, length] = along === 'x' ? [kept.xMm, kept.widthMm] : [kept.yMm, kept.heightMm]
      const shrunk = Math.min(relief, length / 2)
      if (side === after) axis.raise(film, start + length - shrunk)
      else if (axis.end(film) > start + shrunk + SLACK_MM) return false
    }
    return true
  }

  const axisHolds = (axis: Axis, along: 'x' | 'y', value: number): boolean => {
    const relief = goal === 'relief' ? value : 0
    const inside = along === 'x' ? frame.insideWidthMm : frame.insideHeightMm
    const length = goal === 'scale' ? inside * value : inside
    const edge = clearance.frameMm - relief
    const between = Math.max(0, clearance.betweenMm - relief)
    axis.begin(placed, edge)
    // boxes first push films on, then are held against where all came to lie
    boxesHold(axis, along, relief)
    return axis.push(placed, { between, last: length - edge }) && boxesHold(axis, along, relief)
  }

  return {
    film: (turned) => {
      mark()
      const { widthMm, heightMm } = films[placed] ?? { widthMm: 0, heightMm: 0 }
      x.sizes[placed] = turned ? heightMm : widthMm
      y.sizes[placed] = turned ? widthMm : heightMm
      placed += 1
    },
    pair: (one, other, side) => {
      mark()
      const asked = axisSides(side, null)
      for (const [axis, ask] of [
        [x, asked.x],
        [y, asked.y],
      ] as const) {
        if (ask === null) continue
        if (ask.first === 'this') axis.add(one, other, ask.gapShare)
        else axis.add(other, one, ask.gapShare)
      }
    },
    offBox: (film, box, side) => {
      mark()
      boxes.push({ film, box, side })
    },
    back: () => {
      const step = steps.pop()
      if (step === undefined) throw new RangeError('growing: there is no step to take back')
      placed = step.films
      x.shallow(step.xEdges)
      y.shallow(step.yEdges)
      boxes.length = step.boxes
    },
    mayReach: (value) => axisHolds(x, 'x', value) && axisHolds(y, 'y', value),
  }
}

type Axis = ReturnType<typeof axisOf>

/** Earliest places along one axis, one row of them for each step of the plan. */
function axisOf(count: number, most: number) {
  const from = new Uint8Array(most)
  const to = new Uint8Array(most)
  const shares = new Float64Array(most)
  const places = new Float64Array((most + 1) * count).fill(Number.NEGATIVE_INFINITY)
  const sizes = new Float64Array(count)
  let edges = 0
  let row = 0
  return {
    sizes,
    get edges(): number {
      return edges
    },
    add(first: number, second: number, gapShare: number): void {
      from[edges] = first
      to[edges] = second
      shares[edges] = gapShare
      edges += 1
    },
    deepen(): void {
      places.copyWithin(row + count, row, row + count)
      row += count
    },
    shallow(edgesBefore: number): void {
      row -= count
      edges = edgesBefore
    },
    begin(placed: number, edge: number): void {
      for (let film = 0; film < placed; film++) {
        places[row + film] = Math.max(places[row + film] ?? edge, edge)
      }
    },
    raise(film: number, least: number): void {
      places[row + film] = Math.max(places[row + film] ?? least, least)
    },
    end(film: number): number {
      return (places[row + film] ?? 0) + (sizes[film] ?? 0)
    },
    /** Longest paths; false where a film is pushed out, or the order goes in a circle. */
    push(placed: number, { between, last }: Readonly<{ between: number; last: number }>): boolean {
      for (let round = 0, moved = true; moved; round++) {
        if (round > placed + 1) return false
        moved = false
        for (let edge = 0; edge < edges; edge++) {
          const first = from[edge] ?? 0
          const second = to[edge] ?? 0
          const least =
            (places[row + first] ?? 0) + (sizes[first] ?? 0) + (shares[edge] ?? 0) * between
          if ((places[row + second] ?? 0) >= least - SLACK_MM / 4) continue
          places[row + second] = least
          moved = true
        }
      }
      for (let film = 0; film < placed; film++) {
        if ((places[row + film] ?? 0) + (sizes[film] ?? 0) > last + SLACK_MM) return false
      }
      return true
    },
  }
}

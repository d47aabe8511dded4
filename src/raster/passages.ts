import type { AxisPoint } from './axisPoints.ts'
import { leakOfCode } from './leakCode.ts'

/** A part of the film whose marks are about as weak: where to look, and how far it reaches. */
export type Passage = Readonly<{
  /** In its weakest cell: a quarter of the marks there is weaker. */
  weak: AxisPoint
  /** Pixels from the film's top left that hold the whole passage. */
  left: number
  top: number
  right: number
  bottom: number
  /** Points of medial axis in it. */
  axisPoints: number
}>

export type PassageFinder = Readonly<{
  /** A point of an axis, and how much it counts. */
  add: (point: AxisPoint, weight: number) => void
  /** Passages with the weakest first. */
  list: (options: PassageOptions) => readonly Passage[]
}>

export type PassageOptions = Readonly<{
  /** Cells with fewer axis points than this are specks. */
  leastPoints: number
  /** A place at most so much denser than the weakest of its passage belongs to it. */
  alikeDensity: number
  most: number
}>

/** Kinds of weakness that are told apart while counting: leak codes >> KIND_BITS. */
const KIND_BITS = 9
const KINDS = 128

/** A place is as weak as the quarter of its marks that leaks most. */
const WEAK_SHARE = 0.25

/**
 * Gathers weak places into passages: the film in square cells, each as weak as the quarter of its
 * marks that leaks most; from the weakest cell outwards neighbours that are about as weak are one
 * passage, then from the weakest of what is left.
 *
 * Memory: half a kilobyte a cell, and one place for each kind of weakness in it.
 */
export function passageFinder(
  film: Readonly<{ widthPx: number; heightPx: number }>,
  { cellPx }: Readonly<{ cellPx: number }>,
): PassageFinder {
  const across = Math.ceil(film.widthPx / cellPx)
  const down = Math.ceil(film.heightPx / cellPx)
  const counts = new Map<number, Count>()
  const places = new Map<number, AxisPoint>()

  /** Distance from its cell's middle: of places alike the most central stands for all. */
  const offMiddle = ({ x, y }: AxisPoint): number =>
    Math.abs((x % cellPx) - cellPx / 2) + Math.abs((y % cellPx) - cellPx / 2)

  const add = (point: AxisPoint, weight: number): void => {
    const cell = Math.floor(point.y / cellPx) * across + Math.floor(point.x / cellPx)
    let own = counts.get(cell)
    if (own === undefined) {
      own = { points: 0, weights: new Float32Array(KINDS) }
      counts.set(cell, own)
    }
    const kind = point.leakCode >> KIND_BITS
    own.points += 1
    own.weights[kind] += weight
    const place = cell * KINDS + kind
    const kept = places.get(place)
    if (kept === undefined || offMiddle(point) < offMiddle(kept)) places.set(place, point)
  }

  const weakPlaces = ({ leastPoints }: PassageOptions): Map<number, Cell> => {
    const cells = new Map<number, Cell>()
    for (const [cell, { points, weights }] of counts) {
      if (points < leastPoints) continue
      const total = weights.reduce((sum, weight) => sum + weight, 0)
      let above = 0
      for (let kind = KINDS - 1; kind >= 0; kind -= 1) {
        above += weights[kind]
        const weak = places.get(cell * KINDS + kind)
        if (above < WEAK_SHARE * total || weak === undefined) continue
        cells.set(cell, { weak, points })
        break
      }
    }
    return cells
  }

  return {
    add,
    list: (options) => {
      const cells = weakPlaces(options)
      const order = [...cells].sort(
        ([a, one], [b, other]) => other.weak.leakCode - one.weak.leakCode || a - b,
      )
      const taken = new Set<number>()
      const passages: Passage[] = []
      for (const [seed, { weak }] of order) {
        if (passages.length === options.most) break
        if (taken.has(seed)) continue
        const enough = leakOfCode(weak.leakCode) * 10 ** -options.alikeDensity
        const members = spread(seed, {
          across,
          down,
          belongs: (cell) => {
            const other = cells.get(cell)
            return (
              other !== undefined && !taken.has(cell) && leakOfCode(other.weak.leakCode) >= enough
            )
          },
        })
        for (const cell of members) taken.add(cell)
        const columns = members.map((cell) => cell % across)
        const rows = members.map((cell) => Math.floor(cell / across))
        passages.push({
          weak,
          left: Math.min(...columns) * cellPx,
          top: Math.min(...rows) * cellPx,
          right: Math.min(film.widthPx, (Math.max(...columns) + 1) * cellPx),
          bottom: Math.min(film.heightPx, (Math.max(...rows) + 1) * cellPx),
          axisPoints: members.reduce((sum, cell) => sum + (cells.get(cell)?.points ?? 0), 0),
        })
      }
      return passages
    },
  }
}

/** What was counted in a cell: weight by kind of weakness. */
type Count = { points: number; readonly weights: Float32Array }
type Cell = Readonly<{ weak: AxisPoint; points: number }>

/** Cells reached from the seed over the eight neighbours that belong. */
function spread(
  seed: number,
  {
    across,
    down,
    belongs,
  }: Readonly<{ across: number; down: number; belongs: (cell: number) => boolean }>,
): readonly number[] {
  const members = [seed]
  const seen = new Set(members)
  for (const cell of members) {
    const [x, y] = [cell % across, Math.floor(cell / across)]
    for (let j = Math.max(0, y - 1); j <= Math.min(down - 1, y + 1); j += 1) {
      for (let i = Math.max(0, x - 1); i <= Math.min(across - 1, x + 1); i += 1) {
        const next = j * across + i
        if (seen.has(next) || !belongs(next)) continue
        seen.add(next)
        members.push(next)
      }
    }
  }
  return members
}

import { type AxisPoint, axisPoints } from './axisPoints.ts'
import { type DeepPixel, markTable } from './markTable.ts'

/** A whole mark: how long it is, and where along its axis light leaks through most. */
export type Mark = Readonly<{
  /** Largest extent, pixels. */
  lengthPx: number
  axisPoints: number
  /** The axis point that a tenth of the axis is weaker than. */
  weak: AxisPoint
}>

export type MarkGatherer = Readonly<{
  /** The next row's runs of mark pixels: from, to, from, to … inclusive, left to right. */
  row: (y: number, runs: Int32Array, count: number) => void
  /** A point of the medial axis in one of the runs of the row just given. */
  add: (run: number, point: AxisPoint) => void
  /** The pixel of that run furthest from the ground: it stands for a mark that has no axis, a dot. */
  deepen: (run: number, pixel: DeepPixel) => void
  /** Whether a pixel that far from the ground would be the deepest of the run's mark so far. */
  isDeeper: (run: number, squared: number) => boolean
  /** No further row comes. */
  done: () => void
}>

const MOST_POINTS = 3_000_000

/**
 * Gathers marks row by row: runs that touch, corners included, belong together. A mark is handed
 * to `whole` as soon as a row no longer touches it, and its memory is used again.
 *
 * Holds at most three million axis points; past that every second one of each unfinished mark is
 * let go, which leaves percentiles where they were.
 *
 * @source union-find
 */
export function markGatherer(whole: (mark: Mark) => void): MarkGatherer {
  const marks = markTable()
  const points = axisPoints()
  let before: Runs = { spans: new Int32Array(0), count: 0 }
  let now: Runs = { spans: new Int32Array(0), count: 0 }
  let keepEvery = 1
  let seen = 0

  const join = (a: number, b: number): number => {
    const keep = Math.min(a, b)
    const gone = Math.max(a, b)
    const first = marks.head(gone)
    if (first >= 0) {
      const tail = marks.tail(gone)
      if (marks.head(keep) >= 0) points.link(tail, marks.head(keep))
      marks.setChain(keep, first, marks.head(keep) >= 0 ? marks.tail(keep) : tail)
    }
    marks.absorb(keep, gone)
    return keep
  }

  /** Hands over the marks of the row before that row y did not touch. */
  const handOver = (y: number): void => {
    const finished = new Set<number>()
    for (let at = 0; at < before.count; at += 1) {
      const root = marks.find(before.spans[3 * at + 2])
      if (marks.lastRow(root) < y) finished.add(root)
    }
    for (const label of finished) {
      const found = points.tenth(marks.head(label))
      const { squared, ...pixel } = marks.deepest(label)
      const dot = { size: 0, weak: { ...pixel, widthPx: 2 * Math.sqrt(squared) - 1 } }
      const { size, weak } = found ?? dot
      whole({ lengthPx: marks.lengthPx(label), axisPoints: size, weak })
      points.free(marks.head(label))
      marks.free(label)
    }
  }

  /** The current row becomes the one before. */
  const step = (): void => {
    const spans = before.spans
    before = now
    now = { spans, count: 0 }
  }

  return {
    row: (y, runs, count) => {
      step()
      const spans = now.spans.length < 3 * count ? new Int32Array(6 * count) : now.spans
      now = { spans, count }
      let above = 0
      for (let at = 0; at < count; at += 1) {
        const from = runs[2 * at]
        const to = runs[2 * at + 1]
        while (above < before.count && before.spans[3 * above + 1] < from - 1) above += 1
        let label = -1
        for (let over = above; over < before.count && before.spans[3 * over] <= to + 1; over += 1) {
          const root = marks.find(before.spans[3 * over + 2])
          label = label < 0 || label === root ? root : join(label, root)
        }
        if (label < 0) label = marks.create()
        marks.stretch(label, { y, from, to })
        spans[3 * at] = from
        spans[3 * at + 1] = to
        spans[3 * at + 2] = label
      }
      for (let at = 0; at < count; at += 1) spans[3 * at + 2] = marks.find(spans[3 * at + 2])
      handOver(y)
      marks.forget()
    },
    add: (run, point) => {
      seen += 1
      if (seen % keepEvery !== 0) return
      if (points.count() >= MOST_POINTS) {
        for (const label of marks.live())
          marks.setChain(label, marks.head(label), points.thin(marks.head(label)))
        keepEvery *= 2
      }
      const label = now.spans[3 * run + 2]
      const head = points.put(marks.head(label), point)
      marks.setChain(label, head, marks.head(label) >= 0 ? marks.tail(label) : head)
    },
    isDeeper: (run, squared) => squared > marks.depth(now.spans[3 * run + 2]),
    deepen: (run, pixel) => marks.deepen(now.spans[3 * run + 2], pixel),
    done: () => {
      step()
      handOver(Number.MAX_SAFE_INTEGER)
    },
  }
}

type Runs = Readonly<{ spans: Int32Array; count: number }>

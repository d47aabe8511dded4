import type { AxisPoint } from './axisPoints.ts'
import type { MarkRows } from './markRows.ts'
import { type Mark, markGatherer } from './marks.ts'

export type WeakMarks = Readonly<{
  /** Marks at least as long as asked, weakest first; at most `keep`. */
  long: readonly Mark[]
  longCount: number
  shortCount: number
  /** Of the shorter marks the one that a tenth of them is weaker than; null when there is none. */
  shortTenth: Mark | null
  /** How often each leak code stands on the axes of all marks: length by weakness. */
  axisCodes: Float64Array
}>

export type MarkFinder = Readonly<{
  /** The next rows, from top to bottom. */
  push: (rows: MarkRows) => void
  finish: () => WeakMarks
}>

/** Finds the marks of a film, and how weak each is along its medial axis, from the rows of its marks. */
export function markFinder(
  options: Readonly<{
    longPx: number
    keep: number
    /** Sees every point of every mark's axis once, row by row. */
    onAxis?: (point: AxisPoint) => void
  }>,
): MarkFinder {
  const long = weakest(options.keep)
  const short = tally()
  const gatherer = markGatherer((mark) =>
    (mark.lengthPx >= options.longPx ? long : short).add(mark),
  )
  const axisCodes = new Float64Array(65536)

  return {
    push: (rows) => {
      const { deepest, deepestCodes, points, columns, widths, codes } = rows
      let run = 0
      let point = 0
      for (const [row, count] of rows.runs.entries()) {
        const y = rows.top + row
        gatherer.row(y, rows.spans.subarray(2 * run, 2 * (run + count)), count)
        for (let own = 0; own < count; own += 1, run += 1) {
          for (const end = point + points[run]; point < end; point += 1) {
            const [leakCode, filmCode] = [codes[2 * point], codes[2 * point + 1]]
            const place = { x: columns[point], y, leakCode, filmCode, widthPx: widths[point] }
            axisCodes[leakCode] += 1
            gatherer.add(own, place)
            options.onAxis?.(place)
          }
          const squared = deepest[2 * run + 1]
          if (!gatherer.isDeeper(own, squared)) continue
          const [leakCode, filmCode] = [deepestCodes[2 * run], deepestCodes[2 * run + 1]]
          gatherer.deepen(own, { squared, x: deepest[2 * run], y, leakCode, filmCode })
        }
      }
    },
    finish: () => {
      gatherer.done()
      return {
        long: long.list(),
        longCount: long.count(),
        shortCount: short.count(),
        shortTenth: short.tenth(),
        axisCodes,
      }
    },
  }
}

/** The `keep` weakest marks of all that were added: most leak first, then by place. */
function weakest(keep: number) {
  let list: Mark[] = []
  let count = 0
  const order = (a: Mark, b: Mark): number =>
    b.weak.leakCode - a.weak.leakCode || a.weak.y - b.weak.y || a.weak.x - b.weak.x
  return {
    add: (mark: Mark): void => {
      count += 1
      const last = list.at(-1)
      if (list.length === keep && last !== undefined && order(mark, last) >= 0) return
      list = [...list, mark].sort(order).slice(0, keep)
    },
    list: (): readonly Mark[] => list,
    count: (): number => count,
  }
}

/** Counts marks by the code of their weak place, with the first of each code. */
function tally() {
  const counts = new Uint32Array(65536)
  const firsts = new Map<number, Mark>()
  let count = 0
  return {
    add: (mark: Mark): void => {
      const { leakCode } = mark.weak
      count += 1
      counts[leakCode] += 1
      if (!firsts.has(leakCode)) firsts.set(leakCode, mark)
    },
    count: (): number => count,
    tenth: (): Mark | null => {
      let weaker = 0
      for (let code = 65535; code >= 0; code -= 1) {
        weaker += counts[code]
        if (weaker > 0 && weaker >= 0.1 * count) return firsts.get(code) ?? null
      }
      return null
    },
  }
}

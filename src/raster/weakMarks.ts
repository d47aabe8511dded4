import { AXIS_LOOK, axisRow } from './axis.ts'
import type { AxisPoint } from './axisPoints.ts'
import { codeOfLeak } from './leakCode.ts'
import type { LeakBand } from './leakMap.ts'
import { type Mark, markGatherer } from './marks.ts'
import { type NearestGround, nearestGround, nearestGroundFor } from './nearestGround.ts'

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
  push: (band: LeakBand) => void
  finish: () => WeakMarks
}>

/**
 * Finds the marks of a film (transmission below a threshold) and how weak each is along its
 * medial axis, from the bands of the leak map as they pass.
 *
 * In a mark deeper than the limit no axis is sought: where it lies makes no difference to the
 * light that leaks in from the edges, so every `limit`-th row of it stands for the axis.
 *
 * Memory: 2 limits and one chunk of rows of the film's width.
 */
export function markFinder(
  widthPx: number,
  options: Readonly<{
    /** Below this transmission a pixel belongs to a mark. */
    belowTransmission: number
    /** Distance in pixels past which the edge of a mark no longer matters. */
    limitPx: number
    longPx: number
    keep: number
    /** Sees every point of every mark's axis once, row by row. */
    onAxis?: (point: AxisPoint) => void
  }>,
): MarkFinder {
  const { limitPx } = options
  const belowCode = codeOfLeak(options.belowTransmission)
  const behind = limitPx + AXIS_LOOK
  const chunk = Math.max(192, limitPx)
  const held = rowsHeld(widthPx, chunk + 2 * behind + 8)
  const near = nearestGroundFor(widthPx, chunk + 2 * AXIS_LOOK)
  const long = weakest(options.keep)
  const short = tally()
  const gatherer = markGatherer((mark) =>
    (mark.lengthPx >= options.longPx ? long : short).add(mark),
  )
  const axisCodes = new Float64Array(65536)
  const widths = new Float32Array(widthPx)
  const runs = new Int32Array(widthPx + 2)
  let next = 0 // first row not yet gathered

  const gather = (end: number): void => {
    const from = Math.max(next - AXIS_LOOK, held.first())
    const to = Math.min(end + AXIS_LOOK, held.end())
    nearestGround(held.mask(), { first: from - held.first(), count: to - from, limitPx }, near)
    for (let y = next; y < end; y += 1) gatherRow(y, { from, rows: to - from }, near)
    next = end
    held.drop(next - behind)
  }

  const gatherRow = (
    y: number,
    { from, rows }: Readonly<{ from: number; rows: number }>,
    ground: NearestGround,
  ): void => {
    const maskRow = y - held.first()
    const at = maskRow * widthPx
    const mask = held.mask()
    const count = runsOf(mask.values, at, widthPx, runs)
    gatherer.row(y, runs, count)
    if (count === 0) return
    axisRow(mask, ground, { maskRow, row: y - from, rows }, { spans: runs, count }, widths)
    const line = (y - from) * widthPx
    for (let run = 0; run < count; run += 1) {
      let deepest = runs[2 * run]
      for (let x = runs[2 * run]; x <= runs[2 * run + 1]; x += 1) {
        if (ground.squared[line + x] > ground.squared[line + deepest]) deepest = x
        const width = widths[x]
        if (width === 0 || (width < 0 && y % limitPx !== 0)) continue
        axisCodes[held.leak[at + x]] += 1
        const widthHere = width < 0 ? 2 * limitPx : width
        const point = { x, y, ...codesAt(at + x), widthPx: widthHere }
        gatherer.add(run, point)
        options.onAxis?.(point)
      }
      const squared = Math.min(limitPx * limitPx, ground.squared[line + deepest])
      if (gatherer.isDeeper(run, squared)) {
        gatherer.deepen(run, { squared, x: deepest, y, ...codesAt(at + deepest) })
      }
    }
  }

  const codesAt = (at: number): Readonly<{ leakCode: number; filmCode: number }> => ({
    leakCode: held.leak[at],
    filmCode: held.film[at],
  })

  return {
    push: (band) => {
      for (let row = 0; row < band.rows; row += 1) {
        if (held.full()) gather(Math.min(next + chunk, held.end() - behind))
        held.add(band, row, belowCode)
      }
    },
    finish: () => {
      while (next < held.end()) gather(Math.min(held.end(), next + chunk))
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

function runsOf(values: Uint8Array, at: number, widthPx: number, runs: Int32Array): number {
  let count = 0
  for (let x = 0; x < widthPx; x += 1) {
    if (values[at + x] === 0) continue
    runs[2 * count] = x
    while (x + 1 < widthPx && values[at + x + 1] === 1) x += 1
    runs[2 * count + 1] = x
    count += 1
  }
  return count
}

/** The last rows of mask, leak codes and the codes of the film's own transmission; rows are named by their place in the film. */
function rowsHeld(widthPx: number, most: number) {
  const mask = new Uint8Array(widthPx * most)
  const leak = new Uint16Array(widthPx * most)
  const film = new Uint16Array(widthPx * most)
  let first = 0
  let count = 0
  return {
    leak,
    film,
    first: (): number => first,
    end: (): number => first + count,
    full: (): boolean => count === most,
    mask: () => ({ widthPx, rows: count, values: mask }),
    add: (band: LeakBand, row: number, belowCode: number): void => {
      const to = count * widthPx
      const from = row * widthPx
      const { codes, filmCodes } = band
      leak.set(codes.subarray(from, from + widthPx), to)
      film.set(filmCodes.subarray(from, from + widthPx), to)
      for (let x = 0; x < widthPx; x += 1) mask[to + x] = filmCodes[from + x] < belowCode ? 1 : 0
      count += 1
    },
    drop: (before: number): void => {
      const gone = Math.max(0, before - first)
      if (gone === 0) return
      for (const rows of [mask, leak, film]) rows.copyWithin(0, gone * widthPx, count * widthPx)
      first += gone
      count -= gone
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

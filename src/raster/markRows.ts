import { type MarkLook, type MarkLookPlan, markLook } from '../kernels/markLook.ts'
import { AXIS_LOOK } from './axis.ts'
import { codeOfLeak } from './leakCode.ts'
import type { LeakBand, Rows } from './leakMap.ts'

/**
 * Rows of a film's marks: runs of mark pixels, and where their medial axis passes. Of each run and
 * of each axis point in turn, row by row and left to right.
 */
export type MarkRows = Readonly<{
  top: number
  /** Runs in each row. */
  runs: Int32Array
  /** Two a run: its first and its last pixel. */
  spans: Int32Array
  /** Two a run: its pixel furthest from the ground, and how far, squared and up to the limit. */
  deepest: Int32Array
  /** Two a run: leak code and film code there. */
  deepestCodes: Uint16Array
  /** Axis points in each run. */
  points: Int32Array
  /** Of each point the column, the mark's width there, and two codes. */
  columns: Int32Array
  widths: Float32Array
  codes: Uint16Array
}>

export type MarkLimits = Readonly<{
  /** Below this transmission a pixel belongs to a mark. */
  belowTransmission: number
  /** Distance in pixels past which the edge of a mark no longer matters. */
  limitPx: number
}>

export type MarkRowFinder = Readonly<{
  push: (band: LeakBand) => void
  /** No further band comes. */
  finish: () => void
}>

/** Rows above and below that have a part in what a row's marks are like. */
export function rowsAround({ limitPx }: MarkLimits): number {
  return limitPx + AXIS_LOOK
}

/**
 * Finds the runs of marks (transmission below a threshold) and their medial axis, from the bands of
 * the leak map as they pass.
 *
 * In a mark deeper than the limit no axis is sought: where it lies makes no difference to the
 * light that leaks in from the edges, so every `limit`-th row of it stands for the axis.
 *
 * Memory: 2 limits and one chunk of rows of the film's width.
 *
 * @param wanted rows of the film that are asked for; the bands begin `rowsAround` above them and
 *   end as much below, or at the film's edge. Bands of a whole film: all rows
 * @param take what is found, valid for good
 * @param make what looks at the rows: machine code, or the same in plain loops
 */
export function markRowFinder(
  widthPx: number,
  limits: MarkLimits & Readonly<{ wanted?: Rows }>,
  take: (rows: MarkRows) => void,
  make: (plan: MarkLookPlan) => MarkLook = markLook,
): MarkRowFinder {
  const { limitPx, belowTransmission, wanted = { top: 0, end: Number.POSITIVE_INFINITY } } = limits
  const behind = rowsAround(limits)
  const chunk = Math.max(192, limitPx)
  const most = chunk + 2 * behind + 8
  const marks = make({ widthPx, held: most, looked: chunk + 2 * AXIS_LOOK, limitPx })
  const held = rowsHeld(widthPx, { marks, most, belowCode: codeOfLeak(belowTransmission) })
  let next = wanted.top // first row not yet looked at

  const look = (end: number): void => {
    const from = Math.max(next - AXIS_LOOK, held.first())
    const to = Math.min(end + AXIS_LOOK, held.end())
    marks.look({ first: from - held.first(), count: to - from, rows: held.end() - held.first() })
    take(rowsFound(held, { from, to, top: next, end, limitPx }))
    next = end
    held.drop(next - behind)
  }

  return {
    push: (band) => {
      held.begin(band.top)
      for (let row = 0; row < band.rows; row += 1) {
        if (held.full()) look(Math.min(next + chunk, held.end() - behind))
        held.add(band, row)
      }
    },
    finish: () => {
      const end = Math.min(wanted.end, held.end())
      while (next < end) look(Math.min(end, next + chunk))
    },
  }
}

type Held = ReturnType<typeof rowsHeld>

/** The last rows' marks, leak codes and film codes; rows are named by their place in the film. */
function rowsHeld(
  widthPx: number,
  { marks, most, belowCode }: Readonly<{ marks: MarkLook; most: number; belowCode: number }>,
) {
  const leak = new Uint16Array(widthPx * most)
  let first = 0
  let count = 0
  return {
    widthPx,
    marks,
    leak,
    first: (): number => first,
    end: (): number => first + count,
    full: (): boolean => count === most,
    begin: (top: number): void => {
      if (count === 0) first = top
    },
    add: ({ codes, filmCodes }: LeakBand, row: number): void => {
      const from = row * widthPx
      leak.set(codes.subarray(from, from + widthPx), count * widthPx)
      marks.film.set(filmCodes.subarray(from, from + widthPx), count * marks.stride)
      marks.mask(count, belowCode)
      count += 1
    },
    drop: (before: number): void => {
      const gone = Math.max(0, before - first)
      if (gone === 0) return
      leak.copyWithin(0, gone * widthPx, count * widthPx)
      marks.drop(gone, count)
      first += gone
      count -= gone
    },
  }
}

/** Rows top … end − 1, of which rows from … to − 1 were looked at. */
function rowsFound(
  { widthPx, marks, leak, first }: Held,
  {
    from,
    to,
    top,
    end,
    limitPx,
  }: Readonly<{ from: number; to: number; top: number; end: number; limitPx: number }>,
): MarkRows {
  const runs = new Int32Array(end - top)
  const found = growing()
  for (let y = top; y < end; y += 1) {
    const held = y - first()
    const count = marks.row({ held, row: y - from, rows: to - from }, y % limitPx === 0)
    runs[y - top] = count
    if (count === 0) continue
    const film = marks.film.subarray(held * marks.stride, held * marks.stride + widthPx)
    found.row(marks, count, { leak: leak.subarray(held * widthPx, (held + 1) * widthPx), film })
  }
  return { top, runs, ...found.taken() }
}

/** Runs and points as they are found, in arrays that grow. */
function growing() {
  let spans = new Int32Array(4096)
  let deepest = new Int32Array(4096)
  let deepestCodes = new Uint16Array(4096)
  let points = new Int32Array(2048)
  let columns = new Int32Array(2048)
  let widths = new Float32Array(2048)
  let codes = new Uint16Array(4096)
  let runs = 0
  let all = 0
  /** For so many more runs and points. */
  const makeRoom = (moreRuns: number, morePoints: number): void => {
    const runRoom = roomFor(points.length, runs + moreRuns)
    if (runRoom > points.length) {
      spans = stretched(spans, new Int32Array(2 * runRoom))
      deepest = stretched(deepest, new Int32Array(2 * runRoom))
      deepestCodes = stretched(deepestCodes, new Uint16Array(2 * runRoom))
      points = stretched(points, new Int32Array(runRoom))
    }
    const pointRoom = roomFor(columns.length, all + morePoints)
    if (pointRoom > columns.length) {
      columns = stretched(columns, new Int32Array(pointRoom))
      widths = stretched(widths, new Float32Array(pointRoom))
      codes = stretched(codes, new Uint16Array(2 * pointRoom))
    }
  }
  return {
    /** A row's marks as they were found, with the codes that stand in the row. */
    row: (
      marks: MarkLook,
      count: number,
      { leak, film }: Readonly<{ leak: Uint16Array; film: Uint16Array }>,
    ): void => {
      let more = 0
      for (let run = 0; run < count; run += 1) more += marks.points[run]
      makeRoom(count, more)
      spans.set(marks.spans.subarray(0, 2 * count), 2 * runs)
      deepest.set(marks.deepest.subarray(0, 2 * count), 2 * runs)
      points.set(marks.points.subarray(0, count), runs)
      columns.set(marks.columns.subarray(0, more), all)
      widths.set(marks.widths.subarray(0, more), all)
      for (let run = runs; run < runs + count; run += 1) {
        deepestCodes[2 * run] = leak[deepest[2 * run]]
        deepestCodes[2 * run + 1] = film[deepest[2 * run]]
      }
      for (let point = all; point < all + more; point += 1) {
        codes[2 * point] = leak[columns[point]]
        codes[2 * point + 1] = film[columns[point]]
      }
      runs += count
      all += more
    },
    taken: (): Omit<MarkRows, 'top' | 'runs'> => ({
      spans: spans.slice(0, 2 * runs),
      deepest: deepest.slice(0, 2 * runs),
      deepestCodes: deepestCodes.slice(0, 2 * runs),
      points: points.slice(0, runs),
      columns: columns.slice(0, all),
      widths: widths.slice(0, all),
      codes: codes.slice(0, 2 * all),
    }),
  }
}

function roomFor(room: number, wanted: number): number {
  let larger = room
  while (larger < wanted) larger *= 2
  return larger
}

function stretched<T extends Int32Array | Float32Array | Uint16Array>(from: T, to: T): T {
  to.set(from)
  return to
}

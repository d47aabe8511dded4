import { AXIS_LOOK, axisRow } from './axis.ts'
import { codeOfLeak } from './leakCode.ts'
import type { LeakBand, Rows } from './leakMap.ts'
import { type NearestGround, nearestGround, nearestGroundFor } from './nearestGround.ts'

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
 */
export function markRowFinder(
  widthPx: number,
  limits: MarkLimits & Readonly<{ wanted?: Rows }>,
  take: (rows: MarkRows) => void,
): MarkRowFinder {
  const { limitPx, belowTransmission, wanted = { top: 0, end: Number.POSITIVE_INFINITY } } = limits
  const behind = rowsAround(limits)
  const chunk = Math.max(192, limitPx)
  const held = rowsHeld(widthPx, {
    most: chunk + 2 * behind + 8,
    belowCode: codeOfLeak(belowTransmission),
  })
  const near = nearestGroundFor(widthPx, chunk + 2 * AXIS_LOOK)
  let next = wanted.top // first row not yet looked at

  const look = (end: number): void => {
    const from = Math.max(next - AXIS_LOOK, held.first())
    const to = Math.min(end + AXIS_LOOK, held.end())
    const first = from - held.first()
    nearestGround(held.mask(), { first, count: to - from, limitPx }, near)
    take(rowsFound(held, { near, from, to, top: next, end, limitPx }))
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

/** The last rows of mask, leak codes and film codes; rows are named by their place in the film. */
function rowsHeld(
  widthPx: number,
  { most, belowCode }: Readonly<{ most: number; belowCode: number }>,
) {
  const mask = new Uint8Array(widthPx * most)
  const leak = new Uint16Array(widthPx * most)
  const film = new Uint16Array(widthPx * most)
  let first = 0
  let count = 0
  return {
    widthPx,
    leak,
    film,
    first: (): number => first,
    end: (): number => first + count,
    full: (): boolean => count === most,
    mask: () => ({ widthPx, rows: count, values: mask }),
    begin: (top: number): void => {
      if (count === 0) first = top
    },
    add: ({ codes, filmCodes }: LeakBand, row: number): void => {
      const to = count * widthPx
      const from = row * widthPx
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

/** Rows top … end − 1, of which the nearest ground is known from row `from` on. */
function rowsFound(
  held: Held,
  {
    near,
    from,
    to,
    top,
    end,
    limitPx,
  }: Readonly<{
    near: NearestGround
    from: number
    to: number
    top: number
    end: number
    limitPx: number
  }>,
): MarkRows {
  const { widthPx, leak, film } = held
  const mask = held.mask()
  const widths = new Float32Array(widthPx)
  const rowSpans = new Int32Array(widthPx + 2)
  const runs = new Int32Array(end - top)
  const found = growing()
  for (let y = top; y < end; y += 1) {
    const maskRow = y - held.first()
    const at = maskRow * widthPx
    const count = runsOf(mask.values, at, widthPx, rowSpans)
    runs[y - top] = count
    if (count === 0) continue
    const place = { maskRow, row: y - from, rows: to - from }
    axisRow(mask, near, place, { spans: rowSpans, count }, widths)
    const line = (y - from) * widthPx
    const throughDeep = y % limitPx === 0
    found.makeRoom(count, widthPx)
    for (let run = 0; run < count; run += 1) {
      const [first, last] = [rowSpans[2 * run], rowSpans[2 * run + 1]]
      let deepest = first
      for (let x = first; x <= last; x += 1) {
        if (near.squared[line + x] > near.squared[line + deepest]) deepest = x
        const width = widths[x]
        if (width === 0 || (width < 0 && !throughDeep)) continue
        found.point(x, width < 0 ? 2 * limitPx : width, leak[at + x], film[at + x])
      }
      const squared = Math.min(limitPx * limitPx, near.squared[line + deepest])
      found.run(first, last, deepest, squared, leak[at + deepest], film[at + deepest])
    }
  }
  return { top, runs, ...found.taken() }
}

function runsOf(values: Uint8Array, at: number, widthPx: number, spans: Int32Array): number {
  let count = 0
  for (let x = 0; x < widthPx; x += 1) {
    if (values[at + x] === 0) continue
    spans[2 * count] = x
    while (x + 1 < widthPx && values[at + x + 1] === 1) x += 1
    spans[2 * count + 1] = x
    count += 1
  }
  return count
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
  let before = 0
  return {
    /** For so many more runs and points. */
    makeRoom: (moreRuns: number, morePoints: number): void => {
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
    },
    point: (x: number, width: number, leakCode: number, filmCode: number): void => {
      columns[all] = x
      widths[all] = width
      codes[2 * all] = leakCode
      codes[2 * all + 1] = filmCode
      all += 1
    },
    /** A run, after its points. */
    run: (
      first: number,
      last: number,
      deep: number,
      squared: number,
      leakCode: number,
      filmCode: number,
    ): void => {
      spans[2 * runs] = first
      spans[2 * runs + 1] = last
      deepest[2 * runs] = deep
      deepest[2 * runs + 1] = squared
      deepestCodes[2 * runs] = leakCode
      deepestCodes[2 * runs + 1] = filmCode
      points[runs] = all - before
      before = all
      runs += 1
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

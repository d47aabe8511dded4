/** A mask's rows: 1 on a mark, 0 on the ground, row by row; outside all is ground. */
export type Mask = Readonly<{ widthPx: number; rows: number; values: Uint8Array }>

/** For each mark pixel of the wanted rows the nearest ground pixel's middle, and how far it is. */
export type NearestGround = Readonly<{
  /** Squared distance in pixels, 0 on the ground; FAR where it is more than the limit. */
  squared: Int32Array
  /** Column of that ground pixel, and its row less this row. */
  column: Int32Array
  down: Int16Array
}>

export const FAR = 0x3fffffff

/** Arrays for `rows` wanted rows, to be used again and again. */
export function nearestGroundFor(widthPx: number, rows: number): NearestGround {
  const size = widthPx * rows
  return {
    squared: new Int32Array(size),
    column: new Int32Array(size),
    down: new Int16Array(size),
  }
}

/**
 * Exact Euclidean nearest ground for rows first … first + count − 1 of a mask that reaches at
 * least `limitPx` rows further on both sides (or to the film's edge).
 *
 * Down each column first, then along each run of mark pixels the lower envelope of the parabolas
 * (x − s)² + v(s)²; ground at a run's two ends hides everything beyond it.
 *
 * @source felzenszwalb-huttenlocher
 */
export function nearestGround(
  mask: Mask,
  { first, count, limitPx }: Readonly<{ first: number; count: number; limitPx: number }>,
  target: NearestGround,
): void {
  columns(mask, { first, count, limitPx }, target.down)
  const { widthPx, values } = mask
  const sites = new Int32Array(widthPx + 2)
  const starts = new Float64Array(widthPx + 3)
  for (let row = 0; row < count; row += 1) {
    const from = (first + row) * widthPx
    const to = row * widthPx
    let x = 0
    while (x < widthPx) {
      if (values[from + x] === 0) {
        target.squared[to + x] = 0
        target.column[to + x] = x
        x += 1
        continue
      }
      let end = x
      while (end + 1 < widthPx && values[from + end + 1] === 1) end += 1
      run(target, to, { from: x, to: end, limitPx }, { sites, starts })
      x = end + 1
    }
  }
}

const NONE = 0x7fff

/** Nearest ground straight up or down, signed; NONE beyond the limit. */
function columns(
  { widthPx, rows, values }: Mask,
  { first, count, limitPx }: Readonly<{ first: number; count: number; limitPx: number }>,
  down: Int16Array,
): void {
  const since = new Int32Array(widthPx)
  const begin = Math.max(0, first - limitPx)
  since.fill(first - limitPx <= 0 ? 0 : limitPx)
  for (let row = begin; row < first + count; row += 1) {
    const from = row * widthPx
    const to = (row - first) * widthPx
    for (let x = 0; x < widthPx; x += 1) {
      const far = values[from + x] === 0 ? 0 : since[x] + 1
      since[x] = far
      if (row >= first) down[to + x] = far > limitPx ? NONE : -far
    }
  }
  const stop = Math.min(rows, first + count + limitPx)
  since.fill(first + count + limitPx >= rows ? 0 : limitPx)
  for (let row = stop - 1; row >= first; row -= 1) {
    const from = row * widthPx
    const to = (row - first) * widthPx
    const wanted = row < first + count
    for (let x = 0; x < widthPx; x += 1) {
      const far = values[from + x] === 0 ? 0 : since[x] + 1
      since[x] = far
      if (wanted && far <= limitPx) {
        const up = down[to + x]
        if (up === NONE || far < -up) down[to + x] = far
      }
    }
  }
}

function run(
  { squared, column, down }: NearestGround,
  row: number,
  { from, to, limitPx }: Readonly<{ from: number; to: number; limitPx: number }>,
  { sites, starts }: Readonly<{ sites: Int32Array; starts: Float64Array }>,
): void {
  const height = (site: number): number => {
    if (site < from || site > to) return 0
    const v = down[row + site]
    return v === NONE ? -1 : v * v
  }
  let top = -1
  for (let site = from - 1; site <= to + 1; site += 1) {
    const own = height(site)
    if (own < 0) continue
    let start = Number.NEGATIVE_INFINITY
    while (top >= 0) {
      const other = sites[top]
      const otherHeight = height(other)
      start = (own + site * site - otherHeight - other * other) / (2 * (site - other))
      if (start > starts[top]) break
      top -= 1
    }
    top += 1
    sites[top] = site
    starts[top] = top === 0 ? Number.NEGATIVE_INFINITY : start
  }
  starts[top + 1] = Number.POSITIVE_INFINITY
  let at = 0
  for (let x = from; x <= to; x += 1) {
    while (starts[at + 1] < x) at += 1
    const site = sites[at]
    const value = (x - site) ** 2 + Math.max(0, height(site))
    squared[row + x] = value > limitPx * limitPx ? FAR : value
    column[row + x] = site
  }
  // the run's own rows are done: what `down` says for a mark pixel is now read through `column`
}

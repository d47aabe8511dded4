import { median } from './median.ts'
import { type Plane, planeOf } from './plane.ts'

/** Blocks along the longer side, and how far the light of one may be off the smooth light. */
const BLOCKS = 24
const MOST_GROUND = 0.15
const MOST_GAIN = 0.2
/** A coat grows thinner or thicker by so much from block to block; what is gone jumps (judged). */
const MOST_STEP = 0.25
const LEAST_CELLS = 30

/**
 * Takes out what the smooth light left: ground and open places are brought to 0 and 1 block by
 * block, by the middle value of the cells whose surroundings are all ground or all open. A block
 * may only be off by little, or by little more than the blocks beside it: else it is a fault and
 * stays.
 *
 * @param openness changed in place; shares: of marks, cell by cell
 */
export function evenOut(openness: Plane, shares: Plane): void {
  const { widthPx, heightPx } = openness
  const side = Math.max(8, Math.ceil(Math.max(widthPx, heightPx) / BLOCKS))
  const across = Math.ceil(widthPx / side)
  const down = Math.ceil(heightPx / side)
  const seen = planeOf(across, down)
  const [ground, open] = [planeOf(across, down), planeOf(across, down)]
  for (let by = 0; by < down; by += 1) {
    for (let bx = 0; bx < across; bx += 1) {
      const [dark, bright] = levels(openness, shares, { left: bx * side, top: by * side, side })
      seen.values[by * across + bx] = dark
      ground.values[by * across + bx] = within(dark, { middle: 0, most: MOST_GROUND })
      open.values[by * across + bx] = within(bright, { middle: 1, most: MOST_GAIN })
    }
  }
  filled(ground, { otherwise: 0, seen, mostStep: MOST_STEP })
  filled(open, { otherwise: 1 })
  const dark = new Float32Array(across)
  const bright = new Float32Array(across)
  for (let y = 0; y < heightPx; y += 1) {
    const { first, part } = between(y, side, down)
    const below = down > 1 ? across : 0
    for (let bx = 0; bx < across; bx += 1) {
      const above = first * across + bx
      dark[bx] = ground.values[above] + part * (ground.values[above + below] - ground.values[above])
      bright[bx] = open.values[above] + part * (open.values[above + below] - open.values[above])
    }
    evenRow(openness.values.subarray(y * widthPx, (y + 1) * widthPx), { dark, bright, side })
  }
}

/** Block middles lie half a block in; before the first and after the last their slope goes on. */
function evenRow(
  row: Float32Array,
  { dark, bright, side }: Readonly<{ dark: Float32Array; bright: Float32Array; side: number }>,
): void {
  const spans = Math.max(1, dark.length - 1)
  const next = dark.length > 1 ? 1 : 0
  for (let span = 0, x = 0; span < spans; span += 1) {
    const until = span === spans - 1 ? row.length : Math.ceil((span + 1.5) * side)
    const part = x / side - 0.5 - span
    const dDark = (dark[span + next] - dark[span]) / side
    const dBright = (bright[span + next] - bright[span]) / side
    let low = dark[span] + part * side * dDark
    let high = bright[span] + part * side * dBright
    for (; x < until; x += 1) {
      row[x] = (row[x] - low) / (high - low)
      low += dDark
      high += dBright
    }
  }
}

/** The block before a place, and how far beyond its middle, in blocks; less than 0 at the rim. */
function between(
  at: number,
  side: number,
  blocks: number,
): Readonly<{ first: number; part: number }> {
  const place = at / side - 0.5
  const first = Math.max(0, Math.min(blocks - 2, Math.floor(place)))
  return { first, part: place - first }
}

/** Middle values of ground and open cells of one block; NaN where there are too few. */
function levels(
  openness: Plane,
  shares: Plane,
  { left, top, side }: Readonly<{ left: number; top: number; side: number }>,
): readonly [number, number] {
  const { widthPx, heightPx } = openness
  const every = Math.max(1, Math.floor(side / 40))
  const most = Math.ceil(side / every) ** 2
  const [dark, bright] = [new Float64Array(most), new Float64Array(most)]
  let [darks, brights] = [0, 0]
  const reach = 3
  for (let y = Math.max(top, reach); y < Math.min(top + side, heightPx - reach); y += every) {
    for (let x = Math.max(left, reach); x < Math.min(left + side, widthPx - reach); x += every) {
      const at = y * widthPx + x
      const share = shares.values[at]
      if (share !== 0 && share !== 1) continue
      const alone =
        shares.values[at - reach] === share &&
        shares.values[at + reach] === share &&
        shares.values[at - reach * widthPx] === share &&
        shares.values[at + reach * widthPx] === share
      if (!alone) continue
      if (share === 0) dark[darks++] = openness.values[at]
      else bright[brights++] = openness.values[at]
    }
  }
  return [middleOf(dark.subarray(0, darks)), middleOf(bright.subarray(0, brights))]
}

function middleOf(list: Float64Array): number {
  return list.length < LEAST_CELLS ? Number.NaN : median(list)
}

function within(
  value: number,
  { middle, most }: Readonly<{ middle: number; most: number }>,
): number {
  return Math.abs(value - middle) <= most ? value : Number.NaN
}

/**
 * Blocks that say nothing yet go by their neighbours, from those that do outwards: what was seen
 * there counts where it is no more than a step from the mean of the neighbours; else the mean does.
 */
function filled(
  plane: Plane,
  {
    otherwise,
    seen,
    mostStep = 0,
  }: Readonly<{ otherwise: number; seen?: Plane; mostStep?: number }>,
): void {
  const { widthPx, heightPx, values } = plane
  for (let pass = 0; pass < Math.max(widthPx, heightPx) && values.some(Number.isNaN); pass += 1) {
    const before = Float32Array.from(values)
    for (let at = 0; at < values.length; at += 1) {
      if (!Number.isNaN(before[at])) continue
      const near = neighbours(at, plane)
        .map((k) => before[k])
        .filter((value) => !Number.isNaN(value))
      if (near.length === 0) continue
      const mean = near.reduce((sum, value) => sum + value, 0) / near.length
      const own = seen?.values[at] ?? Number.NaN
      values[at] = Math.abs(own - mean) <= mostStep ? own : mean
    }
  }
  for (let at = 0; at < values.length; at += 1) if (Number.isNaN(values[at])) values[at] = otherwise
}

function neighbours(at: number, { widthPx, heightPx }: Plane): readonly number[] {
  const [x, y] = [at % widthPx, Math.floor(at / widthPx)]
  return [-1, 0, 1].flatMap((dy) =>
    [-1, 0, 1].flatMap((dx) => {
      const [nx, ny] = [x + dx, y + dy]
      const isIn = nx >= 0 && ny >= 0 && nx < widthPx && ny < heightPx && (dx !== 0 || dy !== 0)
      return isIn ? [ny * widthPx + nx] : []
    }),
  )
}

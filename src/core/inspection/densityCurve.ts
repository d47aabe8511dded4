/** A step of a wedge as the photo shows it. */
export type WedgeStep = Readonly<{
  /** What it is, by its maker. */
  density: number
  /** −log10 of its light against the clear light. */
  seen: number
  /** Standard deviation of `seen`. */
  sd: number
}>

/** Density of what is seen, rising; straight on beyond the last steps. */
export type DensityCurve = Readonly<{
  densityOf: (seen: number) => number
  /** How fast density rises with what is seen. */
  slopeAt: (seen: number) => number
  /** The densest step that still differs from the one before it. */
  highestDensity: number
  /** How far the steps themselves lie from the curve, in density. */
  scatter: number
}>

/** A step must look denser than the last by so many of its own sds, and by so much at least. */
const TOLD_APART = { sds: 3, seen: 0.02 }

/**
 * The curve through the steps of a wedge: where noise has turned two steps round they share their
 * mean, between steps it is a cubic that rises with them, and steps that the photo cannot tell
 * apart any more are left out.
 *
 * @param steps from the clear end, densities rising
 * @returns null where fewer than three steps differ
 * @source fritsch-carlson, pool-adjacent
 */
export function densityCurve(steps: readonly WedgeStep[]): DensityCurve | null {
  const told = toldApart(steps)
  if (told.length < 3) return null
  const seen = told.map((step) => step.seen)
  const density = told.map((step) => step.density)
  const slopes = risingSlopes(seen, density)
  const place = (value: number): Cubic => cubicAt({ seen, density, slopes }, value)
  return {
    densityOf: (value) => place(value).value,
    slopeAt: (value) => place(value).slope,
    highestDensity: density.at(-1) ?? Number.NaN,
    scatter: scatterOf(told),
  }
}

type Knots = Readonly<{
  seen: readonly number[]
  density: readonly number[]
  slopes: readonly number[]
}>
type Cubic = Readonly<{ value: number; slope: number }>

/** Rising steps: pooled where they fall, cut off where they no longer rise. */
function toldApart(steps: readonly WedgeStep[]): readonly WedgeStep[] {
  const pools: Pool[] = []
  for (const step of steps) {
    let pool: Pool = { ...step, count: 1 }
    for (let before = pools.at(-1); before !== undefined; before = pools.at(-1)) {
      if (pool.seen > before.seen) break
      pools.pop()
      pool = pooled(before, pool)
    }
    pools.push(pool)
  }
  const end = pools.findIndex((pool, at) => {
    const before = pools[at - 1]
    if (before === undefined) return false
    const least = Math.max(TOLD_APART.seen, TOLD_APART.sds * Math.hypot(pool.sd, before.sd))
    return pool.count > 2 || pool.seen - before.seen < least
  })
  return end < 0 ? pools : pools.slice(0, end)
}

type Pool = WedgeStep & Readonly<{ count: number }>

function pooled(one: Pool, other: Pool): Pool {
  const count = one.count + other.count
  const mean = (first: number, second: number): number =>
    (first * one.count + second * other.count) / count
  return {
    seen: mean(one.seen, other.seen),
    density: mean(one.density, other.density),
    sd: Math.max(one.sd, other.sd),
    count,
  }
}

/** Slopes at the knots that keep each cubic rising: harmonic means of the chords beside them. */
function risingSlopes(x: readonly number[], y: readonly number[]): readonly number[] {
  const chord = (at: number): number =>
    ((y[at + 1] ?? 0) - (y[at] ?? 0)) / ((x[at + 1] ?? 0) - (x[at] ?? 0))
  const wide = (at: number): number => (x[at + 1] ?? 0) - (x[at] ?? 0)
  return x.map((_, at) => {
    if (at === 0) return chord(0)
    if (at === x.length - 1) return chord(at - 1)
    const [before, after] = [wide(at - 1), wide(at)]
    const [first, second] = [2 * after + before, after + 2 * before]
    return (first + second) / (first / chord(at - 1) + second / chord(at))
  })
}

function cubicAt({ seen, density, slopes }: Knots, value: number): Cubic {
  const last = seen.length - 1
  const [low = 0, high = 0] = [seen[0], seen[last]]
  if (value <= low || value >= high) {
    const end = value <= low ? 0 : last
    const slope = slopes[end] ?? 0
    return {
      value: (density[end] ?? 0) + slope * (value - (seen[end] ?? 0)),
      slope,
    }
  }
  let at = 0
  while (at < last - 1 && value >= (seen[at + 1] ?? 0)) at += 1
  const wide = (seen[at + 1] ?? 0) - (seen[at] ?? 0)
  const t = (value - (seen[at] ?? 0)) / wide
  const [y0 = 0, y1 = 0, m0 = 0, m1 = 0] = [
    density[at],
    density[at + 1],
    slopes[at],
    slopes[at + 1],
  ]
  const [a, b] = [2 * (y0 - y1) + wide * (m0 + m1), 3 * (y1 - y0) - wide * (2 * m0 + m1)]
  return {
    value: y0 + t * (wide * m0 + t * (b + t * a)),
    slope: m0 + (t * (2 * b + 3 * t * a)) / wide,
  }
}

/**
 * What the steps' own tolerance does: each inner step against the straight line through its
 * neighbours, whose curve is gentle.
 */
function scatterOf(steps: readonly WedgeStep[]): number {
  const off = steps.slice(1, -1).map((step, at) => {
    const [before, after] = [steps[at], steps[at + 2]]
    if (before === undefined || after === undefined) return 0
    const share = (step.seen - before.seen) / (after.seen - before.seen)
    return step.density - before.density - share * (after.density - before.density)
  })
  const bend = off.length < 3 ? 0 : off.reduce((sum, one) => sum + one, 0) / off.length
  const squares = off.reduce((sum, one) => sum + (one - bend) ** 2, 0)
  return off.length < 3 ? 0 : Math.sqrt(squares / (off.length - 1) / 1.5)
}

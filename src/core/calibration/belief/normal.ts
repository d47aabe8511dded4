/** log √(2π) */
const LOG_ROOT_TWO_PI = 0.9189385332046727
/** Beyond this the tail is followed by its continued fraction, which keeps every digit there. */
const TAIL = 2.5
const TERMS = 120

/** Density of the standard normal. */
export function normalDensity(x: number): number {
  return Math.exp(-0.5 * x * x - LOG_ROOT_TWO_PI)
}

/**
 * Share of the standard normal below x, Φ(x), to 14 digits, also far down the lower tail.
 *
 * @source normal-integral
 */
export function normalShare(x: number): number {
  if (x > TAIL) return 1 - normalDensity(x) * millsRatio(x)
  if (x < -TAIL) return normalDensity(x) * millsRatio(-x)
  let term = x
  let sum = x
  for (let odd = 3; Math.abs(term) > 1e-17 * Math.abs(sum); odd += 2) {
    term *= (x * x) / odd
    sum += term
  }
  return 0.5 + normalDensity(x) * sum
}

/**
 * The x below which a share of the standard normal lies.
 *
 * @param part 0 … 1; 0 and 1 give −∞ and ∞
 * @source abramowitz-stegun (26.2.23, polished on Φ)
 */
export function normalQuantile(part: number): number {
  if (part <= 0) return Number.NEGATIVE_INFINITY
  if (part >= 1) return Number.POSITIVE_INFINITY
  if (part > 0.5) return -normalQuantile(1 - part)
  let x = quickNormalQuantile(part)
  for (let round = 0; round < 2; round++) {
    const off = (normalShare(x) - part) / normalDensity(x)
    x -= off / (1 + 0.5 * x * off)
  }
  return x
}

/**
 * The same to 4.5e-4, for points of a lattice.
 *
 * @param part above 0, below 1
 * @source abramowitz-stegun (26.2.23)
 */
export function quickNormalQuantile(part: number): number {
  if (part > 0.5) return -quickNormalQuantile(1 - part)
  const t = Math.sqrt(-2 * Math.log(part))
  const over = 2.515517 + t * (0.802853 + t * 0.010328)
  const under = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308))
  return over / under - t
}

/**
 * log(Φ(high) − Φ(low)), which stays finite where the difference itself would vanish.
 *
 * @param low below high; either may be infinite
 */
export function logShareBetween(low: number, high: number): number {
  if (low > 0) return logShareBetween(-high, -low)
  if (high > -5) return Math.log(normalShare(high) - normalShare(low))
  const far = low === Number.NEGATIVE_INFINITY ? 0 : millsRatio(-low)
  const part = far === 0 ? 0 : far * Math.exp(0.5 * (high - low) * (high + low))
  return Math.log(millsRatio(-high) - part) - 0.5 * high * high - LOG_ROOT_TWO_PI
}

/** (1 − Φ(x))/φ(x) = 1/(x + 1/(x + 2/(x + 3/(x + …)))), for x above TAIL. */
function millsRatio(x: number): number {
  let below = x
  for (let k = TERMS; k >= 1; k--) below = x + k / below
  return 1 / below
}

const TABLE_END = 8
const TABLE_PER_UNIT = 256
const TABLE: Float64Array = Float64Array.from(
  { length: 2 * TABLE_END * TABLE_PER_UNIT + 2 },
  (_, at) => normalShare(at / TABLE_PER_UNIT - TABLE_END),
)

/** Φ(x) from a table, to 5e-7: for the many thousand looks of one grid. */
export function quickNormalShare(x: number): number {
  const place = (x + TABLE_END) * TABLE_PER_UNIT
  if (place <= 0) return 0
  const at = Math.floor(place)
  if (at >= 2 * TABLE_END * TABLE_PER_UNIT) return 1
  const low = TABLE[at] ?? 0
  return low + (place - at) * ((TABLE[at + 1] ?? 1) - low)
}

/** The same along a line: Φ(first), Φ(first + step), … into all places of `out`. */
export function quickNormalShares(first: number, step: number, out: Float64Array): void {
  const end = 2 * TABLE_END * TABLE_PER_UNIT
  const more = step * TABLE_PER_UNIT
  const start = (first + TABLE_END) * TABLE_PER_UNIT
  for (let k = 0; k < out.length; k++) {
    const place = start + k * more
    if (!(place > 0)) out[k] = 0
    else if (place >= end) out[k] = 1
    else {
      const at = Math.trunc(place)
      const low = TABLE[at] ?? 0
      out[k] = low + (place - at) * ((TABLE[at + 1] ?? 1) - low)
    }
  }
}

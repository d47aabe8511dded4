/** Where a line a + b x is 0, with its standard error by the delta method and its 90 % range. */
export type Half = Readonly<{
  x: number
  sd: number
  /** By Fieller's theorem; null where the line does not surely rise. */
  range: Readonly<{ low: number; high: number }> | null
}>

/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.6448536269514722

/**
 * The x at which half come out: where a line through the link's half is 0.
 *
 * @param line a and b with their variances aa, bb and what they share
 * @source fieller1954
 */
export function halfOf({
  a,
  b,
  aa,
  ab,
  bb,
}: Readonly<{ a: number; b: number; aa: number; ab: number; bb: number }>): Half {
  const x = -a / b
  const variance = aa + 2 * x * ab + x ** 2 * bb
  const sd = Math.sqrt(variance) / Math.abs(b)
  const g = (NINETY_PERCENT ** 2 * bb) / b ** 2
  if (!(b > 0 && g < 1)) return { x, sd, range: null }
  const middle = x + (g / (1 - g)) * (x + ab / bb)
  const left = Math.max(0, variance - g * (aa - ab ** 2 / bb))
  const either = (NINETY_PERCENT / (b * (1 - g))) * Math.sqrt(left)
  return { x, sd, range: { low: middle - either, high: middle + either } }
}

/** One look at a level that wanders. */
export type LevelSeen = Readonly<{
  value: number
  /** Of the look itself. */
  variance: number
  /** By which the level has wandered since the look before. */
  wandered: number
}>

/** The level as known after one look, and what had been expected of it before. */
export type LevelPoint = Readonly<{
  level: number
  variance: number
  expected: number
  expectedVariance: number
}>

/**
 * The local level filter: a level that walks, seen with noise (Kalman's filter of one number).
 *
 * @param start what is known of the level before the first step and the first look
 * @returns a point for each look; the log likelihood of all looks, by which variances can be judged
 * @source nile-level
 */
export function localLevel(
  looks: readonly LevelSeen[],
  start: Readonly<{ level: number; variance: number }>,
): Readonly<{ points: readonly LevelPoint[]; logLikelihood: number }> {
  let { level, variance } = start
  let logLikelihood = 0
  const points = looks.map((look) => {
    const expected = level
    const expectedVariance = variance + look.wandered
    const spread = expectedVariance + look.variance
    const off = look.value - expected
    logLikelihood -= 0.5 * (Math.log(2 * Math.PI * spread) + off ** 2 / spread)
    level = expected + (expectedVariance / spread) * off
    variance = (expectedVariance * look.variance) / spread
    return { level, variance, expected, expectedVariance }
  })
  return { points, logLikelihood }
}

import type { Terms } from '../../src/core/calibration/belief/terms.testing.ts'

/** The figures of simulated terms, for whoever runs them. */
export function told({ covered, said, good, screens }: Terms): void {
  for (const [name, { inside, all }] of covered) {
    const held = ((100 * inside) / all).toFixed(1)
    console.log(`90 % ranges of ${name}: ${held} % of ${all} hold the truth`)
  }
  for (const { times, chances, good: came } of said) {
    if (times === 0) continue
    const [before, after] = [chances / times, came / times].map((share) => share.toFixed(2))
    console.log(`said ${before}, came ${after} in ${times} screens`)
  }
  const part = (number: number): string => `${((100 * number) / screens).toFixed(1)} %`
  const way = (good.belief - good.chart) / (good.truth - good.chart)
  console.log(
    `good at once after the fourth week: by the first week's chart ${part(good.chart)}, ` +
      `by the belief ${part(good.belief)}, by the truth itself ${part(good.truth)}, ` +
      `of ${screens}: ${way.toFixed(2)} of the way`,
  )
}

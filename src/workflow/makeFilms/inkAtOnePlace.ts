import { COVERAGE_LIMIT } from '../../core/separation/inkLimit.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'

/** How much ink lies together on a print, in solids, and on how much of it more than the limit. */
export type InkAtOnePlace = Readonly<{ most: number; limit: number; aboveShare: number }>

/** Dots fall into the squares that are counted as they come. */
const ROUNDING = 0.02

/**
 * Counted in squares of the finished films.
 *
 * @param shares how much of each square every ink covers; white under all is dry before and left out
 */
export function inkAtOnePlace(
  shares: readonly Float32Array[],
  { limits }: Pick<FilmPlan, 'limits'>,
): InkAtOnePlace {
  const limit = limits?.coverage ?? COVERAGE_LIMIT
  const squares = shares[0]?.length ?? 0
  let [most, above] = [0, 0]
  for (let at = 0; at < squares; at++) {
    let sum = 0
    for (const plate of shares) sum += plate[at] ?? 0
    most = Math.max(most, sum)
    if (sum > limit + ROUNDING) above += 1
  }
  return { most, limit, aboveShare: squares === 0 ? 0 : above / squares }
}

/** Less than this of the sheet is dust. */
const LEAST_SHARE = 0.0005

/** What to know before the films are exposed; none where all of it dries. */
export function inkWords(
  { most, limit, aboveShare }: InkAtOnePlace,
  { mode }: Pick<FilmPlan, 'mode'>,
): readonly string[] {
  if (aboveShare < LEAST_SHARE) return []
  const says = `Up to ${percent(most)} of ink lies at one place, and above ${percent(limit)} on ${percent(aboveShare)} of the sheet: that does not dry before the next screen.`
  const doing =
    mode === 'process' ? ` "limits":{"coverage":${limit}} in the plan keeps all of it to that.` : ''
  return [says + doing]
}

function percent(share: number): string {
  return `${Number((100 * share).toFixed(share < 0.02 ? 1 : 0))} %`
}

import { COVERAGE_LIMIT } from '../../core/separation/inkLimit.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { Coverage } from './screenPlates.ts'

/** How much ink lies together on a print, in solids, and on how much of it more than the limit. */
export type InkAtOnePlace = Readonly<{ most: number; limit: number; aboveShare: number }>

/** Dots fall into the parts that are counted as they come. */
const ROUNDING = 0.04
/** So many dots side by side are told from chance. */
const LEAST_DOTS = 4

/**
 * Counted from the finished films, in parts of several squares of their coverage: at least four dots
 * wide, for in one dot's breadth ink lies by chance.
 *
 * @param coverage of the inks; white under all is dry before and left out
 */
export function inkAtOnePlace(
  { widthPx, heightPx, squarePx, shares }: Coverage,
  { limits, halftone, resolutionDpi }: Pick<FilmPlan, 'limits' | 'halftone' | 'resolutionDpi'>,
): InkAtOnePlace {
  const limit = limits?.coverage ?? COVERAGE_LIMIT
  const pixelUm = 25_400 / resolutionDpi
  const side = Math.max(1, Math.ceil((LEAST_DOTS * dotUm(halftone)) / (squarePx * pixelUm)))
  let [most, above, parts] = [0, 0, 0]
  for (let top = 0; top < heightPx; top += side) {
    for (let left = 0; left < widthPx; left += side) {
      const [right, bottom] = [Math.min(widthPx, left + side), Math.min(heightPx, top + side)]
      let sum = 0
      for (const plate of shares) {
        for (let y = top; y < bottom; y++) {
          for (let x = left; x < right; x++) sum += plate[y * widthPx + x] ?? 0
        }
      }
      const mean = sum / ((right - left) * (bottom - top))
      most = Math.max(most, mean)
      parts += 1
      if (mean > limit + ROUNDING) above += 1
    }
  }
  return { most, limit, aboveShare: parts === 0 ? 0 : above / parts }
}

function dotUm(halftone: FilmPlan['halftone']): number {
  if (halftone === null) return 0
  return halftone.kind === 'dot' ? 10_000 / halftone.rulingPerCm : (halftone.dotUm ?? 0)
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

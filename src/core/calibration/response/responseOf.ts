import { plainName } from '../../units/plainName.ts'
import type { Doubtful } from '../../units/quantity.ts'
import { type Band, outcomeBand } from '../belief/evidence.ts'
import { gradingParts, MARKS_GRADES } from '../belief/grades.ts'
import type { Kept } from '../belief/replay.ts'
import { binomialFit } from './binomial.ts'
import type { Half } from './half.ts'
import { LINKS, type LinkName } from './links.ts'
import { ordinalFit } from './ordinal.ts'

/** What a medium's own readings say by themselves; null where they cannot tell. */
export type Response = Readonly<{
  /** The dose at which half of the grounds hold, lu. */
  holdLu: Doubtful | null
  /** The dose at which half of the marks begin to fill, lu. */
  fogLu: Doubtful | null
}>

/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.645
/** Fewer bands and screens than these have no curve of their own. */
const FEWEST = 6

/**
 * The plain second opinion beside the belief: curves through a medium's bands and screens alone,
 * without anything believed before. A curve that does not surely rise says nothing.
 *
 * Holding is a yes or no: of the three links the one of least deviance. Filling is a matter of
 * degree: proportional odds.
 *
 * @param evidence of one set-up; what is struck out does not count, nor do wedges
 * @source bliss1935, ashford1959, fieller1954
 * @limits screens and films that differ widen the curves: then the dose of half is that of their mean
 */
export function responseOf(
  evidence: readonly Kept[],
  { medium }: Readonly<{ medium: string }>,
): Response {
  const bands = evidence.flatMap((each) => bandsOf(each, plainName(medium)))
  const graded = bands.map((band) => ({ x: Math.log10(band.doseLu), ...gradingParts(band) }))
  const held = graded.map(({ x, ground }) => ({
    x,
    trials: 1,
    came: ground === 'washed off' ? 0 : 1,
  }))
  const fits = Object.keys(LINKS).flatMap((link) => {
    const fit = binomialFit(held, { link: link as LinkName })
    return fit === null ? [] : [fit]
  })
  const [best] = fits.sort((a, b) => a.deviance - b.deviance)
  return {
    holdLu: best === undefined || held.length < FEWEST ? null : doseOf(best.half),
    fogLu: fogOf(graded),
  }
}

/**
 * Whether the belief and a medium's own readings tell different stories: their middles are farther
 * apart than twice what both leave open. As the belief has heard the same readings, this is rare.
 */
export function disagrees(believed: Doubtful, response: Doubtful): boolean {
  const sdOf = ({ low, high }: Doubtful): number => Math.log10(high / low) / (2 * NINETY_PERCENT)
  const apart = Math.abs(Math.log10(believed.value / response.value))
  return apart > 2 * Math.hypot(sdOf(believed), sdOf(response))
}

function bandsOf(each: Kept, medium: string): readonly Band[] {
  if (each.struckOut === true || each.kind === 'wedge') return []
  if (plainName(each.marks.medium ?? '') !== medium) return []
  return each.kind === 'strip' ? each.bands : [outcomeBand(each)]
}

function fogOf(
  graded: readonly (Readonly<{ x: number }> & ReturnType<typeof gradingParts>)[],
): Doubtful | null {
  const seen = graded.filter(({ marks }) => marks !== 'any')
  const grades = MARKS_GRADES.filter((grade) => seen.some(({ marks }) => marks === grade))
  if (seen.length < FEWEST || grades[0] !== 'open' || grades.length < 2) return null
  const fit = ordinalFit(
    seen.map(({ x, marks }) => ({ x, counts: grades.map((grade) => (grade === marks ? 1 : 0)) })),
  )
  const [half] = fit?.halves ?? []
  return half === undefined ? null : doseOf(half)
}

function doseOf({ x, range }: Half): Doubtful | null {
  if (range === null) return null
  return { value: 10 ** x, low: 10 ** range.low, high: 10 ** range.high, confidence: 0.9 }
}

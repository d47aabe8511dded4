import { type Lu, lu } from '../../units/quantity.ts'
import { expectIn } from '../../units/range.ts'
import { outlookOn, type Question } from '../belief/question.ts'
import type { Belief } from '../belief/state.ts'
import { BANDS } from '../strip.ts'
import { afterStrip } from './afterStrip.ts'
import { afterStripExpected, morningOf } from './expected.ts'
import { chanceExpected, type Outcome, outcomeNow } from './outcome.ts'

/** The strip that tells most, and what it would make of the dose. */
export type StripDesign = Readonly<{
  /** The least first, in equal ratios: not yet rounded to what a counter can be set to. */
  bandsLu: readonly Lu[]
  ratio: number
  before: Outcome
  after: Outcome
}>

/** Ratios that are tried: a sixth more to two thirds more.
 * @source strip-design */
const RATIOS = [1.15, 1.25, 1.4, 1.5, 1.6] as const
/** How many bands are tried where nobody says.
 * @source strip-design */
const FEWEST = 5
const MOST = 8
/** A band more is worth its trouble when it makes so many more of a thousand screens good. */
const WORTH_A_BAND = 0.004
/** Of ratios that are as good to so many of a thousand screens, the least: its bands lie closest. */
const AS_GOOD = 0.002

/**
 * The test strip that makes most of the next screens good: about the dose that is best by now, in
 * equal ratios, with as many bands as still add something.
 *
 * @param question one of marks
 * @param bands 2 … 60, where somebody wants so many
 * @throws RangeError outside these ranges, or where a number of the question cannot be
 * @source strip-design
 */
export function bestStrip(
  belief: Belief,
  question: Question,
  { bands }: Readonly<{ bands?: number | undefined }> = {},
): StripDesign {
  if (bands !== undefined) expectIn(bands, BANDS)
  const next = { ...question, screen: undefined, film: undefined }
  const before = outcomeNow(belief, next)
  const morning = morningOf(belief, next)
  const outlook = outlookOn(morning, next)
  const best = (count: number): Readonly<{ ratio: number; chance: number }> => {
    const tried = RATIOS.map((ratio) => {
      const doses = ladder(before.doseLu, { count, ratio }).map(Math.log10)
      const after = afterStripExpected(morning, next, { bands: doses })
      return { ratio, chance: chanceExpected(after, next, outlook) }
    })
    const most = Math.max(...tried.map(({ chance }) => chance))
    const [least] = tried.filter(({ chance }) => chance > most - AS_GOOD)
    if (least === undefined) throw new RangeError('chance: expected a number, got none')
    return least
  }
  let count = bands ?? FEWEST
  let found = best(count)
  while (bands === undefined && count < MOST) {
    const more = best(count + 1)
    if (more.chance - found.chance < WORTH_A_BAND) break
    count++
    found = more
  }
  const { ratio } = found
  const bandsLu = ladder(before.doseLu, { count, ratio }).map(lu)
  return { bandsLu, ratio, before, after: afterStrip(belief, question, { bandsLu }) }
}

/** Doses in equal ratios about a middle one. */
function ladder(
  middleLu: number,
  { count, ratio }: Readonly<{ count: number; ratio: number }>,
): readonly number[] {
  return Array.from({ length: count }, (_, at) => middleLu * ratio ** (at - (count - 1) / 2))
}

import type { Lu } from '../../units/quantity.ts'
import { outlookOn, type Question } from '../belief/question.ts'
import type { Belief } from '../belief/state.ts'
import { afterStripExpected, morningOf } from './expected.ts'
import { type Outcome, outcomeExpected, outcomeNow } from './outcome.ts'

/**
 * What one test strip would make of a dose, on average over all that may come out: for the next
 * screen and the next film, not for those of the strip.
 *
 * @param question one of marks; of the next screen
 * @param bandsLu doses of the strip
 * @throws RangeError where a number of the question cannot be
 * @source strip-design
 * @limits grades without slips of the pen; a strip that is graded by two ticks tells somewhat more
 */
export function afterStrip(
  belief: Belief,
  question: Question,
  { bandsLu }: Readonly<{ bandsLu: readonly Lu[] }>,
): Outcome {
  const next = { ...question, screen: undefined, film: undefined }
  const now = outcomeNow(belief, next)
  const morning = morningOf(belief, next)
  const bands = bandsLu.map((doseLu) => Math.log10(doseLu)).sort((a, b) => a - b)
  const after = afterStripExpected(morning, next, { bands })
  const expected = outcomeExpected(after, next, outlookOn(morning, next))
  // Who knows more never sets a worse dose; the quadrature may say so by a hair.
  if (expected.chanceGood >= now.chanceGood) return expected
  const { chanceGood, screensInTen } = now
  return { ...expected, chanceGood, screensInTen }
}

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
 * @param bandsLu doses of the strip; films: 2 where a second film, made apart from the first, lies
 * beside it on the same screen
 * @throws RangeError where a number of the question cannot be
 * @source strip-design
 * @limits grades without slips of the pen; a strip that is graded by two ticks tells somewhat more
 */
export function afterStrip(
  belief: Belief,
  question: Question,
  { bandsLu, films = 1 }: Readonly<{ bandsLu: readonly Lu[]; films?: 1 | 2 }>,
): Outcome {
  const next = { ...question, screen: undefined, film: undefined }
  const now = outcomeNow(belief, next)
  const morning = morningOf(belief, next)
  const bands = bandsLu.map((doseLu) => Math.log10(doseLu)).sort((a, b) => a - b)
  // Two films on one screen: it has a name, so that both strips know it for the same.
  const own = films === 2 ? { ...next, screen: 'the test' } : next
  const one = afterStripExpected(morning, own, { bands })
  const after = films === 2 ? afterStripExpected(one, own, { bands }) : one
  const expected = outcomeExpected(after, next, outlookOn(morning, next))
  // Who knows more never sets a worse dose; the quadrature may say so by a hair.
  if (expected.chanceGood >= now.chanceGood) return expected
  const { chanceGood, screensInTen } = now
  return { ...expected, chanceGood, screensInTen }
}

import type { Lu } from '../../units/quantity.ts'
import { lu } from '../../units/quantity.ts'
import { smallNumber } from '../../units/smallNumber.ts'
import { groundEstimate } from '../belief/estimates.ts'
import type { Question } from '../belief/question.ts'
import { outlookOn } from '../belief/question.ts'
import type { Belief } from '../belief/state.ts'
import type { Test } from './bestTest.ts'
import { outcomeExpected, outcomeNow } from './outcome.ts'

/** How a shop says its things and its doses. */
export type TestWords = Readonly<{
  /** `soft pencil`, `the big lamp`, `90-48 yellow` */
  nameOf: (kind: 'medium' | 'unit' | 'fabric', name: string) => string
  /** `9 light units`: rounded, on the unit's counter. */
  amount: (doseLu: Lu) => string
}>

type Known = Readonly<{ before: Belief; after: Belief; words: TestWords }>

/** The test, what it takes and what it would tell, in one sentence. */
export function testSentence({ kind, question, bands, minutes }: Test, known: Known): string {
  const { words } = known
  const [marks] = question.marks
  const medium = words.nameOf('medium', marks?.medium ?? '')
  switch (kind) {
    case 'wedge':
      return `A wedge on the margin of the next screen takes no time: ${groundTold(question, known)}.`
    case 'strip':
      return `One strip in ${medium} today, ${smallNumber(bands)} bands, ${minutes} minutes: ${doseTold(question, known)}.`
    case 'second film':
      return `One strip today with two films in ${medium}, made one apart from the other, ${minutes} minutes: ${doseTold(question, known)}.`
    case 'crossing': {
      const unit = words.nameOf('unit', question.unit ?? '')
      const fabric = words.nameOf('fabric', question.fabric ?? '')
      return `One wedge on ${fabric} under ${unit}, which never met, ${minutes} minutes: ${groundTold(question, known)}.`
    }
  }
}

/** How many screens come good, or where that stays, how well the dose is known. */
function doseTold(question: Question, { before, after, words }: Known): string {
  const own = { ...question, screen: undefined, film: undefined }
  const now = outcomeNow(before, own)
  const then = outcomeExpected(after, own, outlookOn(before, own))
  if (then.screensInTen > now.screensInTen) {
    const come = then.screensInTen === 1 ? 'screen in 10 comes' : 'screens in 10 come'
    return `then ${then.screensInTen} ${come} good, not ${now.screensInTen}`
  }
  const either = (fogSd: number): string =>
    words.amount(lu(now.doseLu * (10 ** (NINETY_PERCENT * fogSd) - 1)))
  return `then we know to within ${either(then.fogSd)} when it fills, not to ${either(now.fogSd)}`
}

function groundTold(question: Question, { before, after, words }: Known): string {
  const either = (belief: Belief): string => {
    const { soundDoseLu } = groundEstimate(belief, { ...question, screen: undefined })
    return words.amount(lu((soundDoseLu.high - soundDoseLu.low) / 2))
  }
  const [now, then] = [either(before), either(after)]
  if (now === then) return `it keeps watch on what the ground needs, known to within ${now}`
  return `then we know to within ${then} what the ground needs, not to ${now}`
}

/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.645

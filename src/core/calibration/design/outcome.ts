import { type Lu, lu } from '../../units/quantity.ts'
import { chanceGood } from '../belief/chances.ts'
import { fogEstimate } from '../belief/estimates.ts'
import type { Gaussian } from '../belief/gaussian.ts'
import { type Outlook, outlookOn, type Question } from '../belief/question.ts'
import { recommendedDose } from '../belief/recommend.ts'
import type { Belief } from '../belief/state.ts'

/** How well a dose is known, and how the next screen comes out with it. */
export type Outcome = Readonly<{
  /** Of log10 of the fog limit of the set-up, without the scatter of screens and films. */
  fogSd: number
  doseLu: Lu
  /** From here to highLu a dose should work. */
  lowLu: Lu
  highLu: Lu
  chanceGood: number
  screensInTen: number
}>

/** Where hold, sound and the first fog limit stand in an outlook. */
const SOUND = 1
const FOG = 2
/** 90 % are this many sd from end to end. */
const NINETY_PERCENT_SD = 2 * 1.6448536269514722

/** What is known now. */
export function outcomeNow(belief: Belief, question: Question): Outcome {
  return told(belief, question, recommendedDose(outlookOn(belief, question)))
}

/**
 * What is to be expected once the belief has become another one about the same middle: the dose
 * and its range as if the middle stayed, the chance as the mean over where it may go.
 */
export function outcomeExpected(after: Belief, question: Question, before: Outlook): Outcome {
  const outlook = outlookOn(after, question)
  const ways = waysFrom(outlook, before)
  const chances = ways.map((way) => recommendedDose(way).chances.good)
  const recommended = recommendedDose(outlook)
  const good = chances.reduce((sum, chance) => sum + chance / chances.length, 0)
  const { doseLu, lowLu, highLu } = recommended
  return told(after, question, { doseLu, lowLu, highLu, chances: { good } })
}

/**
 * The best chance of a good screen that is to be expected, by the quickest way: for comparing many
 * tests with each other.
 */
export function chanceExpected(after: Belief, question: Question, before: Outlook): number {
  const ways = waysFrom(outlookOn(after, question), before)
  return ways.reduce((sum, way) => sum + bestChance(way) / ways.length, 0)
}

/** The best chance of a good screen at any dose: near the middle of sound dose and fog limit. */
export function bestChance(outlook: Outlook): number {
  const { mean } = middleOf(outlook)
  const middle = ((mean[SOUND] ?? 0) + (mean[FOG] ?? 0)) / 2
  const golden = (Math.sqrt(5) - 1) / 2
  let [low, high] = [middle - REACH, middle + REACH]
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)]
  let [atLeft, atRight] = [chanceGood(outlook, left), chanceGood(outlook, right)]
  while (high - low > FINE) {
    if (atLeft >= atRight) {
      ;[high, right, atRight] = [right, left, atLeft]
      left = high - golden * (high - low)
      atLeft = chanceGood(outlook, left)
    } else {
      ;[low, left, atLeft] = [left, right, atRight]
      right = low + golden * (high - low)
      atRight = chanceGood(outlook, right)
    }
  }
  return Math.max(atLeft, atRight)
}

/** How far from that middle the best dose is looked for, and how finely, log10. */
const REACH = 0.4
const FINE = 0.04

/**
 * Two outlooks that stand for where the middle may go: by one sd of the latitude (fog limit less
 * sound dose) either way, with all that goes along with it. A shift of all doses alike is left out:
 * the dose follows it, and the chance stays.
 */
function waysFrom(after: Outlook, before: Outlook): readonly Outlook[] {
  const [narrow, wide] = [middleOf(after), middleOf(before)]
  const size = narrow.mean.length
  const spread = (i: number, j: number): number =>
    (wide.cov[i * size + j] ?? 0) - (narrow.cov[i * size + j] ?? 0)
  const along = [...narrow.mean].map((_, i) => spread(i, FOG) - spread(i, SOUND))
  const variance = (along[FOG] ?? 0) - (along[SOUND] ?? 0)
  if (!(variance > 0)) return [after]
  return [1, -1].map((way) => {
    const mean = narrow.mean.map(
      (value, i) => value + (way * (along[i] ?? 0)) / Math.sqrt(variance),
    )
    return { ...after, parts: [{ share: 1, gaussian: { mean, cov: narrow.cov } }] }
  })
}

/** The likelier of an outlook's parts: a possible jump is left to the morning's variance. */
function middleOf({ parts }: Outlook): Gaussian {
  const [first] = parts
  if (first === undefined) throw new RangeError('parts: expected at least 1, got 0')
  return first.gaussian
}

function told(
  belief: Belief,
  question: Question,
  {
    doseLu,
    lowLu,
    highLu,
    chances: { good },
  }: Readonly<{ doseLu: Lu; lowLu: Lu; highLu: Lu; chances: Readonly<{ good: number }> }>,
): Outcome {
  const [marks] = question.marks
  if (marks === undefined) throw new RangeError('marks: expected at least 1, got 0')
  const fog = fogEstimate(belief, { ...question, screen: undefined, film: undefined, marks })
  return {
    fogSd: Math.log10(fog.high / fog.low) / NINETY_PERCENT_SD,
    doseLu,
    lowLu: lu(Math.min(lowLu, doseLu)),
    highLu: lu(Math.max(highLu, doseLu)),
    chanceGood: good,
    screensInTen: Math.round(10 * good),
  }
}

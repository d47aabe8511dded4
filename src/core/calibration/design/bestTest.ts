import { type Outlook, outlookOn, type Question } from '../belief/question.ts'
import type { Belief } from '../belief/state.ts'
import { afterStripExpected, afterWedgeExpected, morningOf } from './expected.ts'
import { bestChance, chanceExpected } from './outcome.ts'
import { type TestWords, testSentence } from './testWords.ts'

/** An exposure that the shop makes, and how often beside the others. */
export type Use = Readonly<{ question: Question; weight?: number }>

/** Something that can be tested now. */
export type Test = Readonly<{
  kind: 'wedge' | 'strip' | 'second film' | 'crossing'
  /** As it is exposed; of a strip, its medium are the marks. */
  question: Question
  /** Of a strip. */
  bands: number
  minutes: number
}>

/** The test worth most now. */
export type BestTest = Readonly<{
  kind: Test['kind']
  minutes: number
  /** Of the strip; null for a test without one. */
  medium: string | null
  bands: number | null
  /** Good screens more in ten, over all that is in use. */
  gain: number
  sentence: string
}>

/**
 * What tests and spoiled screens take.
 *
 * @source test-worth
 */
const TAKES = {
  wedgeMin: 0,
  stripMin: 15,
  secondFilmMin: 20,
  crossingMin: 10,
  spoiledScreenMin: 45,
  /** So many screens are made before things change again. */
  screens: 20,
} as const
/** Of a strip that is only weighed against other tests, log10 from band to band. */
const BANDS = 6
const RATIO = 1.4
/** Strips are weighed for the media that spoil most screens; the others have less to gain. */
const MOST_STRIPS = 4

/**
 * The test that saves most time from here on: a wedge on the next screen, a strip in one of the
 * media, the same strip with a second film by another hand beside it, or a set-up that brings
 * together what never met.
 *
 * Each is judged by how many more of the next twenty screens it would make good, 45 minutes each,
 * less the minutes it takes. Where none is worth its minutes, it is the wedge, which takes none.
 *
 * @param uses exposures in use, each with one of marks, at least one; the first is the usual set-up
 * @param crossings set-ups that were never used, as `confounded` finds them
 * @throws RangeError where nothing is in use
 * @source test-worth, strip-design
 */
export function bestTest(
  belief: Belief,
  {
    uses,
    crossings = [],
    words,
  }: Readonly<{ uses: readonly Use[]; crossings?: readonly Question[]; words: TestWords }>,
): BestTest {
  const [usual] = uses
  if (usual === undefined) throw new RangeError('uses: expected at least 1, got 0')
  const morning = morningOf(belief, usual.question)
  const weights = uses.reduce((sum, { weight = 1 }) => sum + weight, 0)
  const next = uses.map(({ question, weight = 1 }) => {
    const own = { ...question, screen: undefined, film: undefined }
    const outlook = outlookOn(morning, own)
    return { question: own, share: weight / weights, outlook, chance: bestChance(outlook) }
  })
  const before = next.reduce((sum, { share, chance }) => sum + share * chance, 0)
  const weighed = (test: Test): Weighed => {
    const after = taughtByTest(morning, test)
    const chance = next.reduce(
      (sum, { question, share, outlook }) => sum + share * chanceExpected(after, question, outlook),
      0,
    )
    const gain = chance - before
    const worthMin = TAKES.screens * TAKES.spoiledScreenMin * gain - test.minutes
    return { test, after, gain, worthMin }
  }
  const wedge = weighed({
    kind: 'wedge',
    question: usual.question,
    bands: 0,
    minutes: TAKES.wedgeMin,
  })
  const inDoubt = next.toSorted((a, b) => b.share * (1 - b.chance) - a.share * (1 - a.chance))
  const strips = inDoubt
    .slice(0, MOST_STRIPS)
    .map(({ question }) =>
      weighed({ kind: 'strip', question, bands: BANDS, minutes: TAKES.stripMin }),
    )
  const strip = worthMost(strips)
  const others: readonly Test[] = [
    { ...strip.test, kind: 'second film', minutes: TAKES.secondFilmMin },
    ...crossings.map((question) => {
      return { kind: 'crossing', question, bands: 0, minutes: TAKES.crossingMin } as const
    }),
  ]
  const best = worthMost([wedge, strip, ...others.map(weighed)])
  const { kind, question, bands, minutes } = best.test
  const [marks] = question.marks
  return {
    kind,
    minutes,
    medium: bands === 0 || marks === undefined ? null : (marks.medium ?? null),
    bands: bands === 0 ? null : bands,
    gain: 10 * Math.max(0, best.gain),
    sentence: testSentence(best.test, { before: morning, after: best.after, words }),
  }
}

type Weighed = Readonly<{ test: Test; after: Belief; gain: number; worthMin: number }>

/** The one worth most; of equals the first. */
function worthMost(all: readonly Weighed[]): Weighed {
  const [first, ...rest] = all
  if (first === undefined) throw new RangeError('tests: expected at least 1, got 0')
  return rest.reduce((top, each) => (each.worthMin > top.worthMin ? each : top), first)
}

/** The belief after a test as it is to be expected. */
function taughtByTest(belief: Belief, { kind, question, bands }: Test): Belief {
  if (bands === 0) return afterWedgeExpected(belief, question)
  const middle = middleOf(outlookOn(belief, question))
  const doses = Array.from(
    { length: bands },
    (_, at) => middle + (at - (bands - 1) / 2) * Math.log10(RATIO),
  )
  // Two films on one screen: it has a name, so that both strips know it for the same.
  const own = { ...question, screen: kind === 'second film' ? 'the test' : undefined }
  const one = afterStripExpected(belief, own, { bands: doses })
  return kind === 'second film' ? afterStripExpected(one, own, { bands: doses }) : one
}

/** Half way from the sound dose to the fog limit, log10. */
function middleOf({ parts }: Outlook): number {
  const { mean } = parts[0]?.gaussian ?? { mean: [] }
  return ((mean[1] ?? 0) + (mean[2] ?? 0)) / 2
}

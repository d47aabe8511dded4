import { ciede2000 } from '../colour/ciede2000.ts'
import { labFromXyz50, WHITE_D50, xyz50FromLab } from '../colour/lab.ts'
import type { Lab } from '../colour/space.ts'
import { labFromSrgb } from '../colour/srgb.ts'
import { COVERAGE_LIMIT } from './inkLimit.ts'
import { mixedColour, mixerOf, nearestShares } from './nearestShares.ts'
import type { PictureColour } from './palette.ts'
import type { Ink } from './plan.ts'
import { estimatedPrimaries } from './primaries.ts'

/** Some inks of the stock, and how far from the picture's colours their print is expected to be. */
export type InkChoice = Readonly<{
  /** In the order of printing: the palest first. */
  inks: readonly Ink[]
  /** By CIEDE2000, each colour by its share of the picture. */
  meanDifference: number
  worstDifference: number
}>

export type ChoiceOptions = Readonly<{
  stock: readonly Ink[]
  /** Most inks that there is time or money for, 1 … 6 with tones. */
  most: number
  /** Flat colours, each one ink or paper; or tones of them on each other. */
  mode: 'line' | 'spot'
  /** White where it is not said. */
  paper?: Lab
}>

/** One ink more is worth a print that is nearer by so much. */
const WORTH = 0.5

/**
 * For each number of inks up to `most` the ones of the stock that print a picture's colours nearest:
 * one is added after another, and exchanged as long as that brings the print nearer.
 *
 * @returns the first is of one ink; fewer where the stock has fewer with a colour
 * @source sharma2005, neugebauer, ink-over-ink
 * @limits a good choice, not surely the best of all
 */
export function inkChoices(
  colours: readonly PictureColour[],
  { stock, most, mode, paper }: ChoiceOptions,
): readonly InkChoice[] {
  const known = stock.filter(({ lab }) => lab !== null)
  const wanted = colours.map(({ srgb, share }) => ({ lab: labFromSrgb(srgb), share }))
  const ground = paper === undefined ? WHITE_D50 : xyz50FromLab(paper)
  const judged = new Map<string, InkChoice>()
  const judge = (inks: readonly Ink[]): InkChoice => {
    const ordered = inks.toSorted((one, other) => (other.lab?.[0] ?? 0) - (one.lab?.[0] ?? 0))
    const key = ordered.map((ink) => known.indexOf(ink)).join()
    const found = judged.get(key)
    if (found !== undefined) return found
    const differences =
      mode === 'line'
        ? wanted.map(({ lab }) => nearestSolid(lab, ordered, labFromXyz50(ground)))
        : nearestMixtures(wanted, ordered, ground)
    const choice: InkChoice = {
      inks: ordered,
      meanDifference: differences.reduce(
        (sum, difference, at) => sum + difference * (wanted[at]?.share ?? 0),
        0,
      ),
      worstDifference: Math.max(0, ...differences),
    }
    judged.set(key, choice)
    return choice
  }
  const choices: InkChoice[] = []
  let chosen: readonly Ink[] = []
  while (chosen.length < Math.min(most, known.length)) {
    const rest = known.filter((ink) => !chosen.includes(ink))
    const added = rest.map((ink) => judge([...chosen, ink]))
    const choice = exchanged(nearest(added), { known, judge })
    choices.push(choice)
    chosen = choice.inks
  }
  return choices
}

/**
 * The choice that is worth its inks: the one after which each ink more brings the print nearer by less
 * than half a unit.
 */
export function worthwhileChoice(choices: readonly InkChoice[]): InkChoice | null {
  let best = choices[0] ?? null
  choices.forEach((choice, at) => {
    const inks = at + 1 - (best === null ? 0 : choices.indexOf(best) + 1)
    if (best !== null && best.meanDifference - choice.meanDifference >= WORTH * inks) best = choice
  })
  return best
}

function nearest(choices: readonly InkChoice[]): InkChoice {
  return choices.reduce((best, choice) =>
    choice.meanDifference < best.meanDifference ? choice : best,
  )
}

function exchanged(
  choice: InkChoice,
  { known, judge }: Readonly<{ known: readonly Ink[]; judge: (inks: readonly Ink[]) => InkChoice }>,
): InkChoice {
  const others = known.filter((ink) => !choice.inks.includes(ink))
  const tried = choice.inks.flatMap((out) =>
    others.map((ink) => judge([...choice.inks.filter((one) => one !== out), ink])),
  )
  const best = nearest([choice, ...tried])
  return best === choice ? choice : exchanged(best, { known, judge })
}

function nearestSolid(lab: Lab, inks: readonly Ink[], paper: Lab): number {
  return Math.min(
    ...[paper, ...inks.map((ink) => ink.lab ?? paper)].map((solid) => ciede2000(lab, solid)),
  )
}

function nearestMixtures(
  wanted: readonly Readonly<{ lab: Lab }>[],
  inks: readonly Ink[],
  paper: typeof WHITE_D50,
): readonly number[] {
  const mixer = mixerOf(estimatedPrimaries(inks, { paper }), { limit: COVERAGE_LIMIT })
  const starts = [
    inks.map(() => 0.1),
    inks.map(() => Math.min(0.5, COVERAGE_LIMIT / inks.length)),
    ...inks.map((_, at) => inks.map((_ink, other) => (at === other ? 0.9 : 0.1))),
  ]
  return wanted.map(({ lab: target }) => {
    const found = starts.map((start) => nearestShares(start, { target, mixer }))
    const [best] = found.toSorted((one, other) => one.cost - other.cost)
    return best === undefined ? 0 : ciede2000(mixedColour(best.shares, mixer), target)
  })
}

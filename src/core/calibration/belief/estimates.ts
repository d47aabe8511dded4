import { plainName } from '../../units/plainName.ts'
import type { Doubtful } from '../../units/quantity.ts'
import type { Circumstances, Marks } from './evidence.ts'
import type { Row } from './gaussian.ts'
import { normalShare } from './normal.ts'
import { mediumPrior } from './priors.ts'
import { type Outlook, outlookOf } from './question.ts'
import { type Belief, isOneOff, placeOf } from './state.ts'
import type { Touched } from './touch.ts'

/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.6448536269514722

/** The doses of one set-up, each with its 90 % range: middle of the belief and its ends. */
export type GroundEstimate = Readonly<{
  /** Below it the ground washes clean. */
  gelDoseLu: Doubtful
  holdDoseLu: Doubtful
  soundDoseLu: Doubtful
}>

/**
 * What is believed of a set-up's doses. The scatter of a screen that is not named is left out: this
 * is the set-up, not the next screen.
 *
 * @throws RangeError where a number of the circumstances cannot be
 * @source belief-priors, jump-hypothesis
 */
export function groundEstimate(belief: Belief, circumstances: Circumstances): GroundEstimate {
  const outlook = outlookOf(belief, { ...circumstances, marks: [] }, (touch) =>
    [touch.skin, touch.hold, touch.sound].map((row) => ofSetUp(row, touch)),
  )
  return {
    gelDoseLu: doseRange(outlook, 0),
    holdDoseLu: doseRange(outlook, 1),
    soundDoseLu: doseRange(outlook, 2),
  }
}

/**
 * The dose at which marks fog over in a set-up, lu with a 90 % range, without the scatter of a
 * screen or film that is not named.
 *
 * @throws RangeError where a number of the circumstances cannot be
 * @source belief-priors, jump-hypothesis
 */
export function fogEstimate(
  belief: Belief,
  circumstances: Circumstances & Readonly<{ marks: Marks }>,
): Doubtful {
  const outlook = outlookOf(belief, { ...circumstances, marks: [circumstances.marks] }, (touch) =>
    touch.fog.map((row) => ofSetUp(row, touch)),
  )
  return doseRange(outlook, 0)
}

/**
 * Density of a medium's weakest mark as the shop's films have shown it, D with a 90 % range.
 *
 * @source media-priors
 */
export function mediumEstimate(belief: Belief, medium: string): Doubtful {
  const name = plainName(medium)
  const at = placeOf(belief, { kind: 'medium', name })
  const { mean, cov } = belief.gaussian
  const prior = mediumPrior(name)
  const value = at < 0 ? prior.mean : (mean[at] ?? 0)
  const sd = at < 0 ? prior.sd : Math.sqrt(cov[at * (mean.length + 1)] ?? 0)
  const either = NINETY_PERCENT * sd
  return { value, low: value - either, high: value + either, confidence: 0.9 }
}

/**
 * Where a share of the belief in one number of an outlook lies below, log10.
 *
 * @param part above 0, below 1
 */
export function outlookQuantile(
  { parts }: Outlook,
  { at, part }: Readonly<{ at: number; part: number }>,
): number {
  const sides = parts.map(({ share, gaussian: { mean, cov } }) => {
    const sd = Math.sqrt(cov[at * (mean.length + 1)] ?? 0)
    return { share, mean: mean[at] ?? 0, sd }
  })
  let low = Math.min(...sides.map(({ mean, sd }) => mean - 9 * sd))
  let high = Math.max(...sides.map(({ mean, sd }) => mean + 9 * sd))
  while (high - low > 1e-9 * (1 + Math.abs(low))) {
    const middle = (low + high) / 2
    const below = sides.reduce(
      (sum, { share, mean, sd }) => sum + share * normalShare((middle - mean) / sd),
      0,
    )
    if (below < part) low = middle
    else high = middle
  }
  return (low + high) / 2
}

function doseRange(outlook: Outlook, at: number): Doubtful {
  const dose = (part: number): number => 10 ** outlookQuantile(outlook, { at, part })
  return { value: dose(0.5), low: dose(0.05), high: dose(0.95), confidence: 0.9 }
}

/** A row without what is drawn anew each time. */
function ofSetUp({ at, times, offset }: Row, { belief }: Touched): Row {
  const kept = at
    .map((_, i) => i)
    .filter((i) => {
      const entry = belief.entries[at[i] ?? 0]
      return entry !== undefined && !isOneOff(entry.kind, entry.name)
    })
  return { at: kept.map((i) => at[i] ?? 0), times: kept.map((i) => times[i] ?? 0), offset }
}

import { fogEstimate, groundEstimate } from '../core/calibration/belief/estimates.ts'
import type { Kept } from '../core/calibration/belief/replay.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import { disagrees, responseOf } from '../core/calibration/response/responseOf.ts'
import type { Doubtful } from '../core/units/quantity.ts'
import type { LightExposure } from './lightRecords.ts'
import { circumstancesOf, countsOf } from './lightSetup.ts'
import { doseWords } from './readingWords.ts'

/** A range wider than this, high over low, tells nobody anything. Judged. */
const VAGUE = 3

/**
 * What a medium's strips and screens say by themselves, without wedges, other media and what is
 * usual elsewhere, in one or two sentences; null where they have no curve of their own, or a vague one.
 *
 * @param evidence of this set-up and its lamp alone
 * @param known belief: what it is held against
 * @throws Failure 'conflict' under a unit without a counter of which nobody has told anything
 */
export function aloneWords(
  evidence: readonly Kept[],
  exposure: Omit<LightExposure, 'subject'>,
  { medium, belief, day }: Readonly<{ medium: string; belief: Belief; day: number }>,
): string | null {
  const alone = responseOf(evidence, { medium })
  const [holdLu, fogLu] = [unlessVague(alone.holdLu), unlessVague(alone.fogLu)]
  if (holdLu === null && fogLu === null) return null
  const counts = countsOf(exposure.unit)
  const setUp = { ...circumstancesOf(exposure, { day }), screen: undefined }
  const said = [
    ['half of the grounds hold at', holdLu, groundEstimate(belief, setUp).holdDoseLu],
    [
      'half of the marks begin to fill at',
      fogLu,
      fogEstimate(belief, { ...setUp, marks: { medium } }),
    ],
  ] as const
  const parts = said.flatMap(([what, own]) =>
    own === null ? [] : [`${what} ${ranged(own, counts)}`],
  )
  const apart = said.flatMap(([, own, believed]) =>
    own !== null && disagrees(believed, own) ? [ranged(believed, counts)] : [],
  )
  const sentence = `By its strips and screens alone, ${parts.join(', and ')}.`
  if (apart.length === 0) return sentence
  return `${sentence} All in all we believe ${apart.join(', and ')}: look for one that was read wrongly or is of another film.`
}

function unlessVague(dose: Doubtful | null): Doubtful | null {
  return dose === null || dose.high > VAGUE * dose.low ? null : dose
}

/** 42 (36 to 47), as the counter shows it. */
function ranged({ value, low, high }: Doubtful, counts: number): string {
  return `${doseWords(counts * value)} (${doseWords(counts * low)} to ${doseWords(counts * high)})`
}
